import { RANGES } from '../document/ranges.ts';
import type { NumberRange } from '../terms/number-range.ts';
import { flag, type NamedNumber, number, numbers } from './option.ts';

// options that several verbs share, or that say what a number of theirs may be

const angles: readonly NamedNumber[] = [
  { name: 'roll', range: RANGES.roll_deg },
  { name: 'pitch', range: RANGES.pitch_deg },
  { name: 'yaw', range: RANGES.yaw_deg },
];

const pose: readonly NamedNumber[] = [
  ...['x', 'y', 'z'].map((name) => ({ name, range: RANGES.position_mm })),
  ...angles,
];

const length: NumberRange = { ...RANGES.max_mm, says: 'Length of a leg, joint centre to joint centre.' };

export const AT = numbers('at', pose);
export const NEAR = numbers('near', pose);
export const ALL = flag('all');
export const ORIENTATION = numbers('orientation', angles);
export const LENGTHS = numbers(
  'lengths',
  [1, 2, 3, 4, 5, 6].map((leg) => ({ name: `l${leg}`, range: length })),
);

/** Roll and pitch within a cone of this half angle; past a right angle the platform would turn its back. */
export const TILT_RANGE = number('tilt-range', 'deg', {
  ...{ min: 0, max: 90, unit: 'deg', says: 'Half angle of the cone of tilts, about the axes of the platform itself.' },
});

/** Turns about the platform's own axis, either way. */
export const YAW_RANGE = number('yaw-range', 'deg', { min: 0, max: 180, unit: 'deg', says: 'Half range of yaw.' });

/** Relative error of a volume. Below a millionth the columns would number millions. */
export const ERROR = number('error', 'share', { min: 1e-6, max: 0.5, unit: '', says: 'Relative error asked for.' });

/** Files that are there already are replaced, and links followed, only with it: see {@link Verb.asksForce}. */
export const FORCE = flag('force');
