import type { Writable } from 'node:stream';

/**
 * Writes a text and resolves when it has been taken: a reader that is slow, or reads nothing for a while, holds the
 * computation up instead of filling the memory with what it has not read.
 */
export const writeTaken = (stream: Writable, text: string): Promise<void> =>
  new Promise((resolve) => stream.write(text, () => resolve()));
