import type { InputResult } from './input.ts';

/** Where the program's words come from and go to. */
export interface Io {
  readFile(path: string): Promise<InputResult>;
  readStandardInput(): Promise<InputResult>;
  out(text: string): void;
  err(text: string): void;
}
