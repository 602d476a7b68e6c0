import { failed, ok, type Result } from '../math/result.ts';
import { type DesignFault, fault } from './faults.ts';
import { findBrokenPlace } from './json-place.ts';

/**
 * Largest design file that is read [bytes]: a thousand times a ring layout's few kilobytes, small enough to be decoded
 * and checked within a moment. Anything larger is not a design and is refused unread.
 */
export const MAX_DESIGN_BYTES = 4 * 1024 * 1024;

/** Refuses a file by its size alone; call it before reading one. */
export function sizeFault(bytes: number, most = MAX_DESIGN_BYTES): DesignFault | null {
  if (bytes <= most) return null;
  const limit = `at most ${most / 2 ** 20} MiB`;
  const remedy =
    most === MAX_DESIGN_BYTES ? 'Open a Legroom design file; a design takes a few kilobytes.' : 'Split or thin it out.';
  return fault('tooLarge', '', `${(bytes / 2 ** 20).toFixed(1)} MiB`, limit, remedy);
}

/** Bytes or text to a JSON value, with a size cap, strict UTF-8 and the place of the first mistake. */
export function readJson(input: Uint8Array | string): Result<unknown, DesignFault> {
  const tooLarge = sizeFault(input.length);
  if (tooLarge) return failed(tooLarge);
  const text = typeof input === 'string' ? input.replace(/^\ufeff/, '') : decodeUtf8(input);
  if (text === null) {
    return failed(
      fault('notText', '', 'not UTF-8 text', 'JSON in UTF-8', 'Open a Legroom design file, or save it as UTF-8.'),
    );
  }
  if (text.trim() === '') {
    return failed(fault('empty', '', 'empty', 'JSON text', 'Open a Legroom design file.'));
  }
  try {
    const value: unknown = JSON.parse(text);
    return ok(value);
  } catch {
    return failed(brokenJson(text));
  }
}

/** Null when the bytes are not UTF-8. */
function decodeUtf8(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

function brokenJson(text: string): DesignFault {
  const place = findBrokenPlace(text);
  const where = place
    ? ` at line ${place.line}, column ${place.column}, where ${place.found} stands instead of ${place.expected}`
    : '';
  return fault('notJson', '', `not JSON${where}`, 'JSON text', 'Correct that place, or open another file.');
}
