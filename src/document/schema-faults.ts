import { inRange, isTiny, type NumberRange, TINIEST } from '../terms/number-range.ts';
import { designSchema, MOST_SNAPSHOTS } from './design.ts';
import { type DesignFault, fault, LISTED_FAULTS, shownPath, shownValue } from './faults.ts';
import { MOST_CORNERS, MOST_HULL_CORNERS, MOST_KEEP_OUTS } from './judgement-fields.ts';
import { knownKeys, nearestKey } from './known-keys.ts';
import { type NumberName, RANGES, rangeOf } from './ranges.ts';
import { MOST_PATHS, MOST_POSES, MOST_REQUIREMENTS } from './task-fields.ts';
import type { z } from './zod.ts';

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** Turns what the validator found into faults that name path, value, limit and remedy. */
export const schemaFaults = (issues: readonly Issue[]): readonly DesignFault[] =>
  issues.flatMap((issue) => issueFaults(issue, issue.path));

function issueFaults(issue: Issue, path: Path): readonly DesignFault[] {
  if (issue.code === 'unrecognized_keys') return unknownKeys(issue.keys, path);
  if (issue.code === 'invalid_union') return unionFaults(issue, path);
  const value = issue.input;
  if (value === undefined) return [missing(path)];
  const range = rangeAt(path);
  if (typeof value === 'number' && range) return [numberFault(path, value, range)];
  if (issue.code === 'invalid_value') return [choiceFault(path, value, issue.values)];
  if ((issue.code === 'too_small' || issue.code === 'too_big') && Array.isArray(value)) {
    return [listFault(path, value.length, Number(issue.code === 'too_small' ? issue.minimum : issue.maximum))];
  }
  if (issue.code === 'too_big' && typeof value === 'string') {
    const limit = `a text of at most ${issue.maximum} characters`;
    return [fault('outOfRange', shownPath(path), `a text of ${value.length} characters`, limit, 'Shorten it.')];
  }
  return [wrongType(path, value)];
}

/** Faults of a value that fits none of several shapes: those of the shape it was most likely meant to have. */
function unionFaults(issue: Extract<Issue, { code: 'invalid_union' }>, path: Path): readonly DesignFault[] {
  const value = issue.input;
  if (value === undefined) return [missing(path)];
  const name = String(path.at(-1));
  if (name === 'inertia_kg_mm2' && Array.isArray(value)) return inertiaFaults(issue, path, value.length);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return [wrongType(path, value)];
  if (WORD_OR_OBJECT.includes(name)) return branchFaults(issue.errors[1], path);
  const choices = choicesAt(path);
  const given = choices.filter((choice) => Object.hasOwn(value, choice));
  const [one, other] = given;
  if (one !== undefined && other !== undefined) {
    const shown = `an object with both ${one} and ${other}`;
    return [fault('contradiction', shownPath(path), shown, expectedAt(path), 'Remove one of the two.')];
  }
  if (one !== undefined) return branchFaults(issue.errors[choices.indexOf(one)], path);
  const strangers = unknownKeys(Object.keys(value), path);
  const shown = `an object with neither ${choices.join(' nor ')}`;
  const remedy = choices.length > 2 ? 'Add one of them.' : 'Add one of the two.';
  return [...strangers, fault('missing', shownPath(path), shown, expectedAt(path), remedy)];
}

/** Faults of a list that holds an inertia matrix, or of how long it is. */
function inertiaFaults(issue: Extract<Issue, { code: 'invalid_union' }>, path: Path, length: number) {
  if (length === 3 || length === 6) return branchFaults(issue.errors[length === 3 ? 0 : 1], path);
  return [fault('wrongType', shownPath(path), `a list of ${length}`, expectedAt(path), 'Write three or six.')];
}

/** The keys of which an object at a path has exactly one, in the order in which the schema tries them. */
function choicesAt(path: Path): readonly string[] {
  if (path.at(-1) !== 'shape') return ['ring', 'points_mm'];
  return path.at(-2) === 'payload' ? ['box', 'cylinder', 'hull'] : ['box', 'cylinder'];
}

/** Fields that hold a word or an object. */
const WORD_OR_OBJECT: readonly string[] = ['mount', 'bolt', 'firstAxis'];

const branchFaults = (issues: readonly Issue[], path: Path): readonly DesignFault[] =>
  issues.flatMap((issue) => issueFaults(issue, [...path, ...issue.path]));

function unknownKeys(keys: readonly string[], path: Path): readonly DesignFault[] {
  const known = knownKeys(designSchema, path);
  // one more than is ever listed: enough to know that the list is cut
  return keys.slice(0, LISTED_FAULTS + 1).map((key) => {
    const near = nearestKey(key, known);
    const remedy = near ? `Rename it to ${near}, or remove it.` : 'Remove it.';
    return fault('unknownKey', shownPath([...path, key]), 'an unknown key', `one of ${known.join(', ')}`, remedy);
  });
}

const missing = (path: Path): DesignFault => fault('missing', shownPath(path), 'missing', expectedAt(path), 'Add it.');

function wrongType(path: Path, value: unknown): DesignFault {
  const range = rangeAt(path);
  const numeric = range && typeof value === 'string' && value.trim() !== '' && Number.isFinite(Number(value));
  const remedy = numeric ? 'Take off the quotes.' : range ? 'Write a number.' : 'Replace it.';
  return fault('wrongType', shownPath(path), shownValue(value), expectedAt(path), remedy);
}

function choiceFault(path: Path, value: unknown, allowed: readonly z.core.util.Primitive[]): DesignFault {
  const choices = allowed.map((choice) => shownValue(choice)).join(' or ');
  return fault('outOfRange', shownPath(path), shownValue(value), choices, `Write ${choices}.`);
}

function listFault(path: Path, length: number, wanted: number): DesignFault {
  const change = wanted - length;
  const remedy = change > 0 ? `Add ${change}.` : `Remove ${-change}.`;
  return fault('wrongType', shownPath(path), `a list of ${length}`, expectedAt(path), remedy);
}

function numberFault(path: Path, value: number, range: NumberRange): DesignFault {
  const limit = shownLimit(value, range);
  return fault('outOfRange', shownPath(path), shownValue(value), limit, numberRemedy(value, range));
}

/** What a number that is in no range must be, in words. */
export const shownLimit = (value: number, range: NumberRange): string =>
  isTiny(value) && value >= range.min
    ? `${shownRange(range)}, and not nearer to 0 than ${TINIEST} without being 0`
    : shownRange(range);

/** What to do about a number outside of its range. */
export function numberRemedy(value: number, range: NumberRange): string {
  if (Number.isNaN(value)) return 'Write a number.';
  if (isTiny(value) && inRange(0, range)) return 'Write 0.';
  if (isTiny(value) && value >= range.min) return 'Write a larger number.';
  const { min, max } = range;
  if (value > max || (range.belowMax && value === max)) {
    return range.belowMax ? `Lower it below ${max}.` : `Lower it to ${max} or less.`;
  }
  if (value < min || (range.aboveMin && value === min)) {
    return range.aboveMin ? `Raise it above ${min}.` : `Raise it to ${min} or more.`;
  }
  return inRange(Math.round(value), range) ? `Round it to ${Math.round(value)}.` : 'Replace it.';
}

/** A range in words: "from 0 to 120". */
export function shownRange(range: NumberRange): string {
  const low = range.aboveMin ? `above ${range.min}` : `from ${range.min}`;
  const high = range.belowMax ? `to below ${range.max}` : range.aboveMin ? `and up to ${range.max}` : `to ${range.max}`;
  return `${range.whole ? 'a whole number ' : ''}${low} ${high}`;
}

/** The range of the number at a path: that of the last name on it, when the path goes all the way to a number. */
function rangeAt(path: Path): NumberRange | null {
  // there a path of a number is a key, and a range stands under it
  if (path.at(-2) === 'free' && path.at(-3) === 'parts') return null;
  const name = path.findLast((step) => typeof step === 'string');
  if (name === 'inertia_kg_mm2' && Number(path.at(-1)) >= MOMENTS) return RANGES.products_kg_mm2;
  const range = typeof name === 'string' ? rangeOf(name) : null;
  const depth = path.length - 1 - path.lastIndexOf(name ?? '');
  return range && depth === (LIST_DEPTH.get(String(name)) ?? 0) ? range : null;
}

/** Numbers of an inertia matrix that come before its products. */
const MOMENTS = 3;

/** Fields of three numbers that came with loads and bodies. */
const VECTORS: readonly NumberName[] = [
  'centre_mm',
  'inertia_kg_mm2',
  'force_N',
  'torque_N_mm',
  'gravityDirection',
  'anchor_mm',
  'attach_mm',
  'middle_mm',
  'size_mm',
  'from_mm',
  'to_mm',
];

/** How many list places follow these names before a number stands. */
const LIST_DEPTH: ReadonlyMap<string, number> = new Map([
  ['points_mm', 2],
  ['toward_deg', 1],
  ['corners_mm', 2],
  ['point_mm', 1],
  ['position_mm', 1],
  ['outline_mm', 2],
  ...VECTORS.map((name) => [name, 1] as const),
]);

/** What should stand at a path, in words. */
function expectedAt(path: Path): string {
  const range = rangeAt(path);
  if (range) return range.whole ? shownRange(range) : `a number ${shownRange(range)}`;
  const name = path.at(-1);
  if (name === undefined) return 'an object';
  const above = path.at(-2);
  if (typeof name === 'number' && above === 'outline_mm') return 'a list of two numbers [x, y]';
  if (above === 'locked') return 'the path of a number as a text';
  if (path.at(-3) === 'parts' && above === 'free') return 'an object with from, to';
  if (above === 'parts' && name === 'free') return 'an object of ranges by path';
  const listed = typeof name === 'number' && !OBJECT_LISTS.includes(String(above));
  const known = EXPECTED.get(listed ? '[]' : String(name));
  if (name === 'shape' && above === 'payload') return 'an object with either box, cylinder or hull';
  // joints and bodies of base and platform are objects of their own
  if (known && above !== 'joints' && above !== 'plates') return known;
  return `an object with ${knownKeys(designSchema, path).join(', ')}`;
}

/** Lists whose items are objects, not points. */
const OBJECT_LISTS: readonly string[] = ['snapshots', 'keepOuts', 'ownByLeg', 'requirements', 'poses'];

const CROSS_AXIS = '"acrossLeg", "tangential", "radial", or an object with toward_deg and rise_deg';

const THREE = 'a list of three numbers [x, y, z]';

const EXPECTED: ReadonlyMap<string, string> = new Map([
  ['base', 'an object with either ring or points_mm'],
  ['platform', 'an object with either ring or points_mm'],
  ['mount', '"square", "aimed", or an object with lean_deg and toward_deg'],
  ['kind', '"ball", "rodEnd" or "universal"'],
  ['bolt', CROSS_AXIS],
  ['firstAxis', CROSS_AXIS],
  ['shape', 'an object with either box or cylinder'],
  ['fixedTo', '"base" or "platform"'],
  ['outline_mm', `a list of 3 to ${MOST_CORNERS} corners [x, y]`],
  ['corners_mm', `a list of 4 to ${MOST_HULL_CORNERS} corners [x, y, z]`],
  ['source', 'a text'],
  ['ownByLeg', 'a list of six objects, one for each leg'],
  ['keepOuts', `a list of at most ${MOST_KEEP_OUTS} volumes`],
  ...VECTORS.map((vector) => [vector, THREE] as const),
  ['inertia_kg_mm2', 'a list of three numbers [xx, yy, zz], or six [xx, yy, zz, xy, xz, yz]'],
  ['format', '"legroom-design"'],
  ['version', '1'],
  ['name', 'a text'],
  ['note', 'a text'],
  ['points_mm', 'a list of six points [x, y, z]'],
  ['[]', THREE],
  ['toward_deg', 'a list of six numbers'],
  ['point_mm', THREE],
  ['position_mm', THREE],
  ['snapshots', `a list of at most ${MOST_SNAPSHOTS} snapshots`],
  ['requirements', `a list of at most ${MOST_REQUIREMENTS} requirements`],
  ['poses', `a list of 1 to ${MOST_POSES} poses`],
  ['must', 'true or false'],
  ['rodKeyed', 'true or false'],
  ['locked', `a list of at most ${MOST_PATHS} paths`],
  ['takenAt', 'a date and time in UTC, such as "2026-07-01T12:00:00Z"'],
]);
