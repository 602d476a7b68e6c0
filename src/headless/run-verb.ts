import { readDesign } from '../document/read-design.ts';
import { readArguments } from './arguments.ts';
import { check } from './check.ts';
import { EXPLORE_USAGE } from './explore/request.ts';
import { FLOOR } from './floors.ts';
import { type Io, STANDARD_INPUT } from './io.ts';
import { pose } from './pose.ts';
import { prove } from './prove.ts';
import { reach } from './reach.ts';
import { solve } from './solve.ts';
import { type ExitCode, type Outcome, refused, type Verb } from './verb.ts';

/** Every verb, in the order of the help text. */
const VERBS: ReadonlyMap<string, Verb> = new Map(Object.entries({ check, pose, solve, reach, prove }));

/** Runs a verb that looks at one design, or prints the help text. */
export async function runVerb(argv: readonly string[], io: Io): Promise<ExitCode> {
  const request = readArguments(argv, VERBS);
  if (!request.ok) return say(refused(request.fault), io);
  if (request.value.kind === 'help') {
    io.out(helpText());
    return 0;
  }
  const { verb, file, options } = request.value;
  const bytes = await (file === STANDARD_INPUT ? io.readStandardInput() : io.readFile(file));
  if (!bytes.ok) return say(refused([bytes.fault]), io);
  const design = readDesign(bytes.value);
  if (!design.ok) return say(refused(design.fault), io);
  return say(verb.run(design.value, options), io);
}

function say({ exit, output, lines }: Outcome, io: Io): ExitCode {
  if (output !== undefined) io.out(output);
  for (const line of lines) io.err(`${line}\n`);
  return exit;
}

/** Names of floors with what they mean, one a line. */
const floorNames = (): string =>
  (FLOOR.named ?? []).map(({ name, range }) => `  ${name.padEnd(20)} ${range.says}`).join('\n');

function helpText(): string {
  const verbs = [...VERBS].map(([name, { usage, says }]) => `  ${name} ${usage}\n      ${says}\n`);
  return `Legroom on the command line: legroom VERB FILE [options]

${verbs.join('')}  explore ${EXPLORE_USAGE}
      weighs a grid of layouts about the design and writes a table of them, on all cores

FILE is a legroom-design file, or - for standard input. Results are JSON on standard output, messages
go to standard error. Lengths in mm, angles in deg, R = Rz(yaw) Ry(pitch) Rx(roll). In results null stands
for a number that is infinite or does not exist.

Quantities of --floor, each with its unit in its name (a floor is the least that is good enough, or the most):
${floorNames()}

Exit code: 0 done, 1 the design has a finding (a violated limit, singular, nothing
usable, not proven), 2 the input cannot be used.
`;
}
