import type { PlateName } from '../kinematics/layout.ts';
import type { LongWork } from '../math/long-work.ts';
import type { Result } from '../math/result.ts';
import type { BuildParts } from './parts.ts';

/** One file that leaves the program. */
export interface BuildFile {
  readonly name: string;
  /** The plate it is of; null for both or neither. */
  readonly side: PlateName | null;
  readonly bytes: Uint8Array;
  /** What is odd about it, a sentence each. */
  readonly warnings: readonly string[];
}

/** Why nothing was written. */
export interface BuildFault {
  readonly kind: 'cancelled' | 'impossible';
  readonly message: string;
}

export const CANCELLED: BuildFault = { kind: 'cancelled', message: 'Stopped before the files were finished.' };

/** The workshop's order: what a file is for. */
export const PURPOSES = ['cut', 'print', 'buy', 'set', 'simulate', 'file'] as const;
export type Purpose = (typeof PURPOSES)[number];

export const PURPOSE_WORDS: Readonly<Record<Purpose, string>> = {
  cut: 'To cut',
  print: 'To print',
  buy: 'To buy',
  set: 'To set',
  simulate: 'To simulate',
  file: 'To file',
};

/** One format that leaves the program. */
export interface Exporter {
  readonly words: string;
  readonly says: string;
  readonly purpose: Purpose;
  /** Without the dot. */
  readonly ending: string;
  /** Writes the files of the asked plates; the same parts give the same bytes. */
  write(
    parts: BuildParts,
    sides: readonly PlateName[],
    work: LongWork,
  ): Promise<Result<readonly BuildFile[], BuildFault>>;
}

const encoder = new TextEncoder();

/** A file of text in UTF-8. */
export const textFile = (
  name: string,
  side: PlateName | null,
  text: string,
  warnings: readonly string[] = [],
): BuildFile => ({ name, side, bytes: encoder.encode(text), warnings });
