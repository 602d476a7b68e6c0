import { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { readCapped, readFileCapped } from '../../src/headless/input.ts';
import type { Io } from '../../src/headless/io.ts';
import { run } from '../../src/headless/run.ts';

/** What one command printed and returned. */
export interface Printed {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** Lines of standard error. */
  readonly lines: readonly string[];
}

/** Path of a sample or demo design. */
export const designFile = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

export const VALID = (name: string): string => designFile(`tests/samples/valid/${name}.json`);
export const INVALID = (name: string): string => designFile(`tests/samples/invalid/${name}.json`);
export const DEMO = (name: string): string => designFile(`public/demos/${name}.json`);

/** Real files, an empty standard input and nowhere to write, unless told otherwise. */
export const ioOf = (parts: Partial<Io>): Io => ({
  readFile: readFileCapped,
  readStandardInput: () => readCapped(Readable.from([''])),
  out: async () => undefined,
  err: () => undefined,
  progress: () => undefined,
  ...parts,
});

/** Runs the command line in this process, on real files; `input` stands for standard input. */
export async function command(argv: readonly string[], input: string | Uint8Array = ''): Promise<Printed> {
  let out = '';
  let err = '';
  const code = await run(
    argv,
    ioOf({
      readStandardInput: () => readCapped(Readable.from([input])),
      out: async (text) => {
        out += text;
      },
      err: (text) => {
        err += text;
      },
    }),
  );
  return { code, out, err, lines: err.split('\n').slice(0, -1) };
}
