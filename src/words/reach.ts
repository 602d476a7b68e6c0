import { LIMIT_NAMES, LIMIT_WORDS, type LimitName } from '../kinematics/limits.ts';
import type {
  BoundaryShares,
  EmptyReason,
  HomeReason,
  ReachBox,
  ReachMeasure,
} from '../reach/columns/reach-measure.ts';
import { legWords } from './legs.ts';
import { figure, roundedText } from './numbers.ts';

const MM3_PER_CM3 = 1e3;
const CM3_PER_LITRE = 1e3;

/** The number of a volume in cm3. */
export const cm3Figure = (volume_mm3: number): string => figure(volume_mm3 / MM3_PER_CM3);

/** A volume in cm3. */
export const cm3Text = (volume_mm3: number): string => `${cm3Figure(volume_mm3)} cm³`;

/** A volume in litres. */
export const litresText = (volume_mm3: number): string => {
  const litres = volume_mm3 / MM3_PER_CM3 / CM3_PER_LITRE;
  return `${figure(litres)} ${litres === 1 ? 'litre' : 'litres'}`;
};

/** Sides of a box: "139 × 136 × 88 mm". */
export const boxText = ({ low, high }: ReachBox): string =>
  `${[0, 1, 2].map((axis) => roundedText(Number((high[axis] - low[axis]).toPrecision(3)), 1)).join(' × ')} mm`;

/** What a limit is when it holds a piece of the boundary. */
const HOLDS: Readonly<Record<LimitName, string>> = {
  legTooShort: 'a leg at its shortest',
  legTooLong: 'a leg at its longest',
  baseJoint: 'a base joint at its tilt limit',
  platformJoint: 'a platform joint at its tilt limit',
};

/** What a limit is when it stops the platform. */
const STOPS: Readonly<Record<LimitName, string>> = {
  legTooShort: 'a leg too short',
  legTooLong: 'a leg too long',
  baseJoint: 'a base joint tilted too far',
  platformJoint: 'a platform joint tilted too far',
};

export const holdWords = (limit: LimitName): string => HOLDS[limit];

/** Which limit stops the platform most often: "mostly stopped by a leg too long, 62 %". */
export function bindingWords({ byLimit, largest }: BoundaryShares): string {
  if (!largest) return '';
  const share = byLimit[largest];
  if (share > 0.995) return `always stopped by ${STOPS[largest]}`;
  const often = share > 0.5 ? 'mostly' : 'most often';
  return `${often} stopped by ${STOPS[largest]}, ${Math.round(100 * share)} %`;
}

/** The legs named, each once and in order. */
const legList = (legs: readonly number[]): string => legWords([...new Set(legs)].sort((a, b) => a - b));

function excludingWords(limits: readonly { readonly limit: LimitName; readonly leg: number }[]): string {
  return LIMIT_NAMES.map((name) => [name, limits.filter(({ limit }) => limit === name)] as const)
    .filter(([, found]) => found.length > 0)
    .map(([name, found]) => `${LIMIT_WORDS[name]} (${legList(found.map(({ leg }) => leg))})`)
    .join(', ');
}

/** Why nothing is reachable, one sentence. */
export function emptyWords(reason: EmptyReason): string {
  switch (reason.kind) {
    case 'lengthsReversed':
      return 'The shortest leg is longer than the longest, so no length is allowed.';
    case 'noStroke':
      return 'Shortest and longest leg are equal, so the reach has no volume.';
    case 'excluded':
      return `At the best point the limits still miss by ${figure(reason.shortfall)} mm: ${excludingWords(reason.limits)}.`;
    case 'tooSmall':
      return `The reach is too small to measure: ${figure(reason.room)} mm of room at its deepest point.`;
  }
}

/** Why the home position counts as outside, without a full stop. */
function homeWords(reason: HomeReason): string {
  if (reason.kind === 'homeTooThin') return 'The part of the reach around home is too thin to measure';
  return `The home position itself breaks limits: ${excludingWords(reason.limits)}`;
}

/** What has to be said about parts of the reach that are not connected to home; empty when there is nothing to say; without a full stop. */
export function islandWords({ home, volume }: ReachMeasure): string {
  if (home.reason) return homeWords(home.reason);
  if (home.islands === 0 || volume === 0) return '';
  const parts = home.islands === 1 ? 'one island' : `${home.islands} islands`;
  return `Besides, ${cm3Text(volume - home.volume)} lie in ${parts} that cannot be reached from home`;
}
