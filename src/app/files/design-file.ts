import type { DesignDocument } from '../../document/design.ts';
import { type DesignFault, fault } from '../../document/faults.ts';
import { sizeFault } from '../../document/json-text.ts';
import { readDesign } from '../../document/read-design.ts';
import { failed, type Result } from '../../math/result.ts';

/** Ending of the files that are written. */
export const FILE_ENDING = '.legroom.json';

/** Reads a file that someone chose or dropped; its size is looked at before anything is read. */
export async function readDesignFile(file: Blob): Promise<Result<DesignDocument, readonly DesignFault[]>> {
  const tooLarge = sizeFault(file.size);
  if (tooLarge) return failed([tooLarge]);
  try {
    return readDesign(new Uint8Array(await file.arrayBuffer()));
  } catch {
    // a folder, or a file that was removed or locked since it was chosen
    const remedy = 'Check that it is a file, that it still exists and that it may be read.';
    return failed([fault('notText', '', 'impossible to read', 'a readable file', remedy)]);
  }
}

/** Reads the text of a kept design. */
export function readKeptText(text: string): Result<DesignDocument, readonly string[]> {
  const design = readDesign(text);
  return design.ok ? design : failed(design.fault.map(({ message }) => message));
}

/** Characters of the name that go into a file name. */
const LONGEST_STEM = 60;

/** A file name made of the design's own name. */
export function suggestedFileName(design: Pick<DesignDocument, 'name'>): string {
  const stem = design.name
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{Letter}\p{Number}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, LONGEST_STEM);
  return `${stem === '' ? 'design' : stem}${FILE_ENDING}`;
}
