import type { BuildFile } from '../../build/exporter.ts';

/** Time after which a browser has surely taken a download's bytes [ms]. */
const TAKEN = 60_000;

/**
 * Hands a whole file to the browser as a download. No file dialog: it would have to be opened before anything is written, and would leave an
 * empty file behind when the work is stopped.
 */
export function saveBuilt({ name, bytes }: BuildFile): void {
  const url = URL.createObjectURL(new Blob([Uint8Array.from(bytes)], { type: 'application/octet-stream' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), TAKEN);
}
