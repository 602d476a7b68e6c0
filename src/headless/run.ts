import { readArguments, readWords, verbFault } from './arguments.ts';
import type { Io } from './io.ts';
import { writeFiles } from './output-files.ts';
import { type ExitCode, type Outcome, refused, type Verb } from './verb.ts';
import { verbNames, verbRow } from './verbs.ts';

/**
 * Runs one command; `argv` is what stands after the program's own name. Never rejects for anything a user can give.
 * Only what the command needs is loaded: a sweep of many layouts has no use for the judgements of one.
 */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  const words = readWords(argv);
  const row = verbRow(words.verb);
  if (words.help && !row) return help(io);
  if (!row) return say(refused([verbFault(words.verb, verbNames())]), io);
  return runVerb(await row.load(), argv, io);
}

/** Runs one verb; its name is the first word of `argv` that is no option. */
export async function runVerb(verb: Verb, argv: readonly string[], io: Io): Promise<ExitCode> {
  const read = readArguments(argv, verb);
  if (!read.ok) return say(refused(read.fault), io);
  if (read.value.kind === 'help') return help(io);
  const { request } = read.value;
  const inputs: string[] = [];
  const noting: Io = {
    ...io,
    readFile(path) {
      inputs.push(path);
      return io.readFile(path);
    },
    readStandardInput() {
      inputs.push('/dev/stdin');
      return io.readStandardInput();
    },
  };
  const outcome = await verb.run(request, noting);
  const { force } = request;
  const replaces = !verb.asksForce || force;
  const unwritten = await writeFiles(outcome, { inputs, replaces, follows: force });
  return say(unwritten ? refused([unwritten]) : outcome, io);
}

async function help(io: Io): Promise<ExitCode> {
  const { helpText } = await import('./help.ts');
  await io.out(helpText());
  return 0;
}

async function say({ exit, output, lines }: Outcome, io: Io): Promise<ExitCode> {
  if (output !== undefined) await io.out(output);
  for (const line of lines) io.err(`${line}\n`);
  return exit;
}
