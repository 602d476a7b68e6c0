import { FLOOR_RANGES } from './floors.ts';
import { VERBS } from './verbs.ts';

/** Names of floors with what they mean, one a line. */
const floorNames = (): string => FLOOR_RANGES.map(({ name, range }) => `  ${name.padEnd(20)} ${range.says}`).join('\n');

/** Everything about every verb. */
export function helpText(): string {
  const verbs = Object.entries(VERBS).map(([name, { usage, says }]) => `  ${name} ${usage}\n      ${says}\n`);
  return `Legroom on the command line: legroom VERB FILE [options]

${verbs.join('')}
FILE is a legroom-design file, or - for standard input. Results are JSON on standard output, messages
go to standard error. Lengths in mm, angles in deg, R = Rz(yaw) Ry(pitch) Rx(roll). In results null stands
for a number that is infinite or does not exist.

Files are written beside their place and renamed, so that none is ever half one. A file that is there, or the file that
a link leads to, is replaced by verbs that take --force only with it, and an input never.

Quantities of --keep (or --floor), each with its unit in its name: the least that is good enough, or the most.
${floorNames()}

Exit code: 0 done, 1 the design has a finding (a violated limit, singular, nothing
usable, not proven), 2 the input cannot be used.
`;
}
