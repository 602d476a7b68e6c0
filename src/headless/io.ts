import type { InputResult } from './input.ts';

/** The file name that stands for standard input. */
export const STANDARD_INPUT = '-';

/** Where the program's words come from and go to. */
export interface Io {
  readFile(path: string): Promise<InputResult>;
  readStandardInput(): Promise<InputResult>;
  out(text: string): void;
  err(text: string): void;
}
