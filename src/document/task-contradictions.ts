import { inRange } from '../terms/number-range.ts';
import type { DesignContent, PartsDocument, RequirementDocument } from './design.ts';
import { designSchema } from './design.ts';
import { type DesignFault, fault, quoted } from './faults.ts';
import { gravityFault, inertiaFault, shapeFault } from './judgement-contradictions.ts';
import { knownKeys, nearestKey } from './known-keys.ts';
import { rangeOf } from './ranges.ts';
import { MOST_FREE_AXES } from './task-fields.ts';

/** Contradictions among what the task asks for and what is said about the parts. */
export const taskFaults = ({ task, parts }: DesignContent, place: string): readonly (DesignFault | null)[] => [
  ...(task?.requirements ?? []).flatMap((requirement, n) =>
    requirementFaults(requirement, `${place}task.requirements[${n}]`),
  ),
  ...(parts ? partsFaults(parts, `${place}parts`) : []),
];

const REGIONS = ['box', 'round', 'poses'] as const;

function requirementFaults(requirement: RequirementDocument, place: string): readonly (DesignFault | null)[] {
  return [
    regionFault(requirement, place),
    ...(requirement.box ? boxFaults(requirement.box, `${place}.box`) : []),
    ...(requirement.round ? roundFaults(requirement.round, `${place}.round`) : []),
    ...emptyLimits(requirement, place),
    gravityFault(requirement.load, `${place}.load`),
    inertiaFault(requirement.payload, `${place}.payload`),
    shapeFault(requirement.payload?.shape, `${place}.payload.shape`),
  ];
}

function regionFault(requirement: RequirementDocument, place: string): DesignFault | null {
  const given = REGIONS.filter((region) => requirement[region] !== undefined);
  const limit = 'an object with one of box, round and poses';
  if (given.length === 0) {
    return fault('missing', place, 'an object with none of box, round and poses', limit, 'Add one of them.');
  }
  if (given.length === 1) return null;
  return fault('contradiction', place, `an object with ${given.join(' and ')}`, limit, 'Keep one, remove the rest.');
}

type BoxDocument = NonNullable<RequirementDocument['box']>;
type RoundDocument = NonNullable<RequirementDocument['round']>;

const ANGLES = ['roll_deg', 'pitch_deg', 'yaw_deg'] as const;
const AXES = ['x_mm', 'y_mm', 'z_mm', ...ANGLES] as const;

/** Farther than half a turn either way every angle is met twice. */
const WIDEST = 180;

function boxFaults(box: BoxDocument, place: string): readonly (DesignFault | null)[] {
  const { free = {} } = box;
  const chosen = AXES.filter((axis) => free[axis] !== undefined);
  const limit = `at most ${MOST_FREE_AXES} axes`;
  const tooMany =
    chosen.length > MOST_FREE_AXES
      ? fault('contradiction', `${place}.free`, `${chosen.length} axes`, limit, 'Ask for the others.')
      : null;
  return [
    ...ANGLES.map((axis) => halfAngleFault(box[axis], `${place}.${axis}`, WIDEST)),
    ...ANGLES.map((axis) => halfAngleFault(free[axis], `${place}.free.${axis}`, WIDEST)),
    ...chosen
      .filter((axis) => box[axis] !== undefined)
      .map((axis) => {
        const shown = 'given beside free';
        return fault('contradiction', `${place}.${axis}`, shown, 'either asked for or free', 'Remove one of the two.');
      }),
    tooMany,
  ];
}

/** A tilt past a right angle turns the platform's back. */
const STEEPEST = 90;

function roundFaults(round: RoundDocument, place: string): readonly (DesignFault | null)[] {
  const given = (['x_mm', 'y_mm', 'z_mm'] as const).find((axis) => round[axis] !== undefined);
  const limit = 'left out where radius_mm is given';
  return [
    halfAngleFault(round.tilt_deg, `${place}.tilt_deg`, STEEPEST),
    halfAngleFault(round.yaw_deg, `${place}.yaw_deg`, WIDEST),
    round.radius_mm !== undefined && given
      ? fault('contradiction', `${place}.${given}`, 'given with radius_mm', limit, 'Remove one of the two.')
      : null,
  ];
}

/** A range goes the same way to both sides, so that it has no sign. */
function halfAngleFault(value: number | undefined, path: string, most: number): DesignFault | null {
  if (value === undefined || (value >= 0 && value <= most)) return null;
  const remedy = value < 0 ? 'Raise it to 0 or more.' : `Lower it to ${most} or less.`;
  return fault('outOfRange', path, String(value), `from 0 to ${most}, either way`, remedy);
}

/** Limits by which nothing could be weighed. */
function emptyLimits(
  { toolError_mm, legForce_N }: RequirementDocument,
  place: string,
): readonly (DesignFault | null)[] {
  const none = (value: number | undefined, name: string, remedy: string) =>
    value === 0 ? fault('outOfRange', `${place}.${name}`, '0', 'above 0', remedy) : null;
  return [
    none(toolError_mm, 'toolError_mm', 'Raise it above 0, or remove it.'),
    none(legForce_N, 'legForce_N', 'Raise it above 0; that no leg may pull is written as leastPush_N of 0.'),
  ];
}

function partsFaults({ locked = [], free = {} }: PartsDocument, place: string): readonly (DesignFault | null)[] {
  return [
    ...locked.map((path, n) => pathFault(path, `${place}.locked[${n}]`)),
    ...Object.entries(free).flatMap(([path, range]) => {
      const at = `${place}.free[${quoted(path)}]`;
      return [pathFault(path, at), rangeFault(path, range, at), lockedFault(locked, path, at)];
    }),
  ];
}

/** Parts of the file that hold no numbers of the design itself. */
const NO_DESIGN = ['format', 'version', 'name', 'note', 'task', 'parts', 'snapshots'];

function pathFault(path: string, place: string): DesignFault | null {
  const unknown = unknownStep(path);
  if (unknown === null) return null;
  const limit = 'the path of a number of a design, such as "legs.min_mm"';
  const remedy = unknown === '' ? 'Remove it.' : `Replace it by ${quoted(unknown)}, or remove it.`;
  return fault('outOfRange', place, quoted(path), limit, remedy);
}

/** Null for the path of a number; else the path that was most likely meant, or an empty text. */
function unknownStep(path: string): string | null {
  const steps: (string | number)[] = [];
  for (const part of path.split('.')) {
    const match = /^(\w+)(?:\[([0-5])\])?$/.exec(part);
    if (!match) return '';
    const [, name, index] = match;
    const known = knownKeys(designSchema, steps);
    if (!known.includes(name)) {
      const near = nearestKey(name, known);
      const start = path.split('.').slice(0, steps.filter((step) => typeof step === 'string').length);
      return near ? [...start, near].join('.') : '';
    }
    steps.push(name);
    if (index !== undefined) steps.push(Number(index));
  }
  const name = steps.findLast((step) => typeof step === 'string');
  if (NO_DESIGN.includes(String(steps[0])) || rangeOf(String(name)) === null) return '';
  return knownKeys(designSchema, steps).length === 0 ? null : '';
}

function rangeFault(path: string, { from, to }: { readonly from: number; readonly to: number }, at: string) {
  if (from > to) {
    const limit = `at most to, which is ${to}`;
    return fault('contradiction', `${at}.from`, String(from), limit, `Lower it to ${to} or less.`);
  }
  const range = rangeOf(/(\w+)(?:\[\d\])?$/.exec(path)?.[1] ?? '');
  if (!range) return null;
  const bad = (['from', 'to'] as const).find((end) => !inRange({ from, to }[end], range));
  if (!bad) return null;
  const limit = `what ${path} may be, from ${range.min} to ${range.max}`;
  return fault('outOfRange', `${at}.${bad}`, String({ from, to }[bad]), limit, 'Narrow the range.');
}

function lockedFault(locked: readonly string[], path: string, at: string): DesignFault | null {
  if (!locked.includes(path)) return null;
  return fault('contradiction', at, 'locked as well', 'either locked or free', 'Remove one of the two.');
}
