import type { DesignFault } from '../document/faults.ts';
import type { Io } from './io.ts';
import type { Option } from './option.ts';

/** 0 done, 1 the design has a finding, 2 the input cannot be used. */
export type ExitCode = 0 | 1 | 2;

/** A file to be written. */
export interface OutputFile {
  /** Its path, from the current folder. */
  readonly name: string;
  readonly bytes: Uint8Array | string;
}

/** What a verb has to say. */
export interface Outcome {
  readonly exit: ExitCode;
  /** Text for standard output; left out when the input cannot be used. */
  readonly output?: string;
  /** Lines for standard error: one for each fault or finding. */
  readonly lines: readonly string[];
  /** Files to be written, all of them or none. Each is written beside its place and renamed. */
  readonly files?: readonly OutputFile[];
  /** A folder that is made first where it is missing. */
  readonly folder?: string;
}

/** The arguments of a verb that are no options. */
export interface FileArguments {
  /** What each is called in the usage: `FILE`. */
  readonly name: string;
  /** What each must be, in the words of a refusal. */
  readonly limit: string;
  readonly least: number;
  readonly most: number;
}

/** What was asked of a verb. */
export interface VerbRequest {
  /** The arguments that are no options, in order: as many as the verb's {@link Verb.files} allow. */
  readonly files: readonly string[];
  /** Whether `--force` was given; only to a verb that {@link Verb.asksForce asks for it}. */
  readonly force: boolean;
  /** What an option of the verb is worth. */
  get<Value>(option: Option<Value>): Value;
}

/** What was typed, before it is known to be usable. */
export interface Given {
  readonly files: readonly string[];
  has(option: Option<unknown>): boolean;
}

/** What the command line does for one word. */
export interface Verb {
  readonly files: FileArguments;
  readonly options: readonly Option<unknown>[];
  /**
   * The verb replaces files only when it is told `--force`, which it then also takes as an option. Otherwise what it
   * writes takes the place of an older file of that name.
   */
  readonly asksForce?: true;
  /** Faults of arguments that do not go together. */
  check?(given: Given): readonly DesignFault[];
  run(request: VerbRequest, io: Io): Promise<Outcome>;
}

/** A row of the table of verbs: what the help text says, and where the verb itself is. */
export interface VerbRow {
  /** What stands after the verb. */
  readonly usage: string;
  /** One line of help. */
  readonly says: string;
  /** Loads it: only the verb that is asked for is read. */
  readonly load: () => Promise<Verb>;
}

/** The input cannot be used. */
export const refused = (faults: readonly DesignFault[]): Outcome => ({
  exit: 2,
  lines: faults.map(({ message }) => message),
});

/** Done, or done with findings; with files to be written, where there are any. */
export const done = (output: string, findings: readonly string[], files: readonly OutputFile[] = []): Outcome => ({
  exit: findings.length > 0 ? 1 : 0,
  output,
  lines: findings,
  files,
});
