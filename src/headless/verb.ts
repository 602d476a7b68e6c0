import type { DesignDocument } from '../document/design.ts';
import type { DesignFault } from '../document/faults.ts';
import type { OptionSpec, OptionValues } from './options.ts';

/** 0 done, 1 the design has a finding, 2 the input cannot be used. */
export type ExitCode = 0 | 1 | 2;

/** What a verb has to say. */
export interface Outcome {
  readonly exit: ExitCode;
  /** Text for standard output; left out when the input cannot be used. */
  readonly output?: string;
  /** Lines for standard error: one for each fault or finding. */
  readonly lines: readonly string[];
}

/** One thing the command line can do with a design. */
export interface Verb {
  /** What stands after the verb. */
  readonly usage: string;
  /** One line of help. */
  readonly says: string;
  readonly options: readonly OptionSpec[];
  run(document: DesignDocument, options: OptionValues): Outcome;
}

/** The input cannot be used. */
export const refused = (faults: readonly DesignFault[]): Outcome => ({
  exit: 2,
  lines: faults.map(({ message }) => message),
});

/** Done, or done with findings. */
export const done = (output: string, findings: readonly string[]): Outcome => ({
  exit: findings.length > 0 ? 1 : 0,
  output,
  lines: findings,
});
