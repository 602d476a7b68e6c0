import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { type DesignFault, fault, quoted } from '../document/faults.ts';
import { MAX_DESIGN_BYTES, sizeFault } from '../document/json-text.ts';
import { failed, ok, type Result } from '../math/result.ts';

/** Bytes of a design, from wherever. */
export type InputResult = Result<Uint8Array, DesignFault>;

/** Reads a file; its size is looked at first, so that a huge one costs nothing. */
export async function readFileCapped(path: string, most = MAX_DESIGN_BYTES): Promise<InputResult> {
  const place = shownFile(path);
  try {
    const found = await stat(path);
    if (found.isDirectory())
      return failed(fault('notText', place, 'a folder', 'a design file', 'Name the file in it.'));
    const tooLarge = found.isFile() ? sizeFault(found.size, most) : null;
    if (tooLarge) return failed(tooLarge);
    return await readCapped(createReadStream(path), most);
  } catch (error) {
    return failed(unreadable(place, error));
  }
}

/** Reads a stream to its end, or until it is larger than any design. */
export async function readCapped(stream: AsyncIterable<unknown>, most = MAX_DESIGN_BYTES): Promise<InputResult> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of stream) {
    const bytes = chunk instanceof Uint8Array ? chunk : new TextEncoder().encode(String(chunk));
    size += bytes.length;
    if (size > most) break;
    chunks.push(bytes);
  }
  const tooLarge = sizeFault(size, most);
  return tooLarge ? failed(tooLarge) : ok(Buffer.concat(chunks));
}

/** A file's name as it was given, quoted when it could not be told from the sentence around it. */
export const shownFile = (path: string): string => (/^[\w./\\:~-]{1,200}$/.test(path) ? path : quoted(path));

function unreadable(place: string, error: unknown): DesignFault {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return fault('missing', place, 'not there', 'an existing design file', 'Check the path.');
  }
  const value =
    code === 'EACCES' || code === 'EPERM' ? 'not yours to read' : `unreadable (${code || 'no reason given'})`;
  return fault('notText', place, value, 'a readable design file', 'Check the file and its permissions.');
}
