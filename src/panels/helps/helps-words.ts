import { degrees, radians } from '../../document/units.ts';
import type { Help } from '../../reach/what-helps.ts';
import type { Objective } from '../../state/helps-desk.ts';
import type { DesignStep } from '../../state/helps-edits.ts';
import { three } from '../judge/Figure.tsx';
import { figure } from '../verdict/reach-words.ts';

export const OBJECTIVE_OPTIONS: readonly (readonly [Objective, string])[] = [
  ['reach', 'Reach'],
  ['usable', 'Usable volume'],
  ['toolError', 'Worst error'],
];

export const OBJECTIVE_WORDS: Readonly<Record<Objective, string>> = {
  reach: 'reach',
  usable: 'usable volume',
  toolError: 'worst tool error at home',
};

/** Shown units of an objective in one inner unit: mm^3 as cm^3, millimetres as micrometres. */
const SHOWN: Readonly<Record<Objective, { readonly factor: number; readonly unit: string }>> = {
  reach: { factor: 1e-3, unit: 'cm³' },
  usable: { factor: 1e-3, unit: 'cm³' },
  toolError: { factor: 1e3, unit: 'µm' },
};

const MM3_PER_CM3 = 1e3;

/** An objective's value at the present design. */
export const objectiveText = (objective: Objective, value: number): string =>
  objective === 'toolError' ? `${three(value)} mm` : `${figure(value / MM3_PER_CM3)} cm³`;

/** Change of an objective for one millimetre or one degree of a dimension, in shown units; null where not known. */
export function slopeOf({ dimension, ...help }: Help, objective: Objective): number | null {
  const slope = help[objective];
  if (slope === null) return null;
  return slope * SHOWN[objective].factor * (dimension.unit === 'mm' ? 1 : radians(1));
}

/** How far off the slope may be, in the same unit; the error at home is computed to rounding. */
function slopeError({ dimension, reachError, usableError }: Help, objective: Objective): number {
  const error = { reach: reachError, usable: usableError ?? 0, toolError: 0 }[objective];
  return error * SHOWN[objective].factor * (dimension.unit === 'mm' ? 1 : radians(1));
}

/** Slopes of this share of the largest are rounding. */
const ROUNDING = 1e-9;

/** The slope is too small to tell from none. */
export function isLost(help: Help, objective: Objective, largest: number): boolean {
  const slope = Math.abs(slopeOf(help, objective) ?? 0);
  return slope <= Math.max(slopeError(help, objective), ROUNDING * largest);
}

const signed = (value: number): string => {
  const text = three(Math.abs(value));
  if (text === '0') return '0';
  return `${value < 0 ? '−' : '+'}${text}`;
};

const perUnit = ({ dimension }: Help, objective: Objective): string =>
  `${SHOWN[objective].unit}/${dimension.unit === 'mm' ? 'mm' : 'deg'}`;

/** "+12.3 cm³/mm", or "0 ± 0.6 cm³/deg" where the slope is smaller than its error. */
export function slopeText(help: Help, objective: Objective): string {
  const slope = slopeOf(help, objective);
  if (slope === null) return 'not known';
  const error = slopeError(help, objective);
  const number = error > 0 && Math.abs(slope) <= error ? `0 ± ${two(error)}` : signed(slope);
  return `${number} ${perUnit(help, objective)}`;
}

/** The slope with its error, for the explanation. */
export function fullSlopeText(help: Help, objective: Objective): string {
  const slope = slopeOf(help, objective);
  if (slope === null) return 'not known';
  const error = slopeError(help, objective);
  return `${signed(slope)}${error > 0 ? ` ± ${two(error)}` : ''} ${perUnit(help, objective)}`;
}

const two = (value: number): string => String(Number(value.toPrecision(2)));

/** Moves a limit and no part: its ghost looks the same. */
export const onlyALimit = ({ dimension: { name } }: Help): boolean => /^leg|Tilt$/.test(name);

/** Name for a bar. */
export const barWords = ({ dimension: { words } }: Help): string => words.replace(' tilt limit', ' tilt');

/** A change of an objective, in shown units. */
export const changeText = (objective: Objective, change: number): string =>
  `${signed(change)} ${SHOWN[objective].unit}`;

/** A dimension's value with its unit. */
export const dimensionText = ({ dimension: { value, unit } }: Help): string =>
  unit === 'mm' ? `${three(value)} mm` : `${three(degrees(value))} deg`;

/** "Base radius +5 mm", or "Base pair gap +10 deg (next holes)". */
export function stepWords({ dimension: { words, unit } }: Help, { change, holes }: DesignStep): string {
  const amount = `${signed(change)} ${unit === 'mm' ? 'mm' : 'deg'}`;
  return `${words[0].toUpperCase()}${words.slice(1)} ${amount}${holes === null ? '' : ' (next holes)'}`;
}
