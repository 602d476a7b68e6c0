import { transfer } from 'comlink';

/** Hands a worker's result over with its arrays' memory instead of a copy of it. */
export const handOver = <Value>(value: Value): Value => transfer(value, buffersIn(value));

/**
 * The buffers of all typed arrays in a result made of plain objects, arrays and typed arrays, each once. Handing them over
 * moves their memory to the other thread instead of copying it.
 */
export function buffersIn(value: unknown): ArrayBuffer[] {
  const found = new Set<ArrayBuffer>();
  collect(value, found);
  return [...found];
}

function collect(value: unknown, found: Set<ArrayBuffer>): void {
  if (typeof value !== 'object' || value === null) return;
  if (ArrayBuffer.isView(value)) {
    if (value.buffer instanceof ArrayBuffer) found.add(value.buffer);
    return;
  }
  for (const part of Object.values(value)) collect(part, found);
}
