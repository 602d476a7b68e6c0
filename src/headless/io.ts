import type { InputResult } from './input.ts';

/** The file name that stands for standard input. */
export const STANDARD_INPUT = '-';

/** Where the program's words come from and go to. */
export interface Io {
  /** @param most largest file that is read [bytes]; that of a design if left out */
  readFile(path: string, most?: number): Promise<InputResult>;
  readStandardInput(): Promise<InputResult>;
  /** Writes to standard output; resolves when there is room for more. */
  out(text: string): Promise<void>;
  err(text: string): void;
  /** Says how far long work is, where somebody is looking: "`words`: `done` of `total`". */
  progress(words: string, done: number, total: number): void;
}
