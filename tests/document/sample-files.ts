import { readdirSync, readFileSync } from 'node:fs';

const FOLDER = new URL('../samples/', import.meta.url);

/** One sample design file, kept for ever. */
export interface Sample {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** The sample files of one folder, by name. */
export const samples = (folder: 'valid' | 'invalid'): readonly Sample[] =>
  readdirSync(new URL(`${folder}/`, FOLDER))
    .filter((file) => file.endsWith('.json'))
    .map((file) => ({
      name: file.replace(/\.json$/, ''),
      bytes: readFileSync(new URL(`${folder}/${file}`, FOLDER)),
    }));

/** Text of a file beside the samples. */
export const sampleText = (path: string): string => readFileSync(new URL(path, FOLDER), 'utf8');
