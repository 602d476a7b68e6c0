import type { Io } from './io.ts';
import type { ExitCode } from './verb.ts';

/**
 * Runs one command; `argv` is what stands after the program's own name. Never rejects for anything a user can give.
 * Only what the command needs is loaded: a sweep of many layouts has no use for the judgements of one.
 */
export async function run(argv: readonly string[], io: Io): Promise<ExitCode> {
  if (argv.at(0) === 'explore' && !argv.includes('--help')) {
    const { explore } = await import('./explore/explore.ts');
    return explore(argv.slice(1), io);
  }
  const { runVerb } = await import('./run-verb.ts');
  return runVerb(argv, io);
}
