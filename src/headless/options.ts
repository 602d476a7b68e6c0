import { type DesignFault, fault, quoted } from '../document/faults.ts';
import { nearestKey } from '../document/known-keys.ts';
import { RANGES } from '../document/ranges.ts';
import { shownRange } from '../document/schema-faults.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { inRange, type NumberRange } from '../terms/number-range.ts';

/** An option of a verb: a flag, or numbers separated by commas. */
export interface OptionSpec {
  /** Without the two dashes. */
  readonly name: string;
  /** What the numbers are, in order; empty for a flag. */
  readonly numbers: readonly NamedNumber[];
  /** Instead of numbers: `name=value`, each name once. */
  readonly named?: readonly NamedNumber[];
}

/** A number of an option. */
export interface NamedNumber {
  readonly name: string;
  readonly range: NumberRange;
}

/** Numbers by option; a flag that is given holds none. A named number stands under {@link namedKey}. */
export type OptionValues = ReadonlyMap<string, readonly number[]>;

/** Where the value of one name of an option with named numbers stands. */
export const namedKey = (spec: OptionSpec, name: string): string => `${spec.name} ${name}`;

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

export const AT: OptionSpec = { name: 'at', numbers: pose };
export const NEAR: OptionSpec = { name: 'near', numbers: pose };
export const ALL: OptionSpec = { name: 'all', numbers: [] };
export const ORIENTATION: OptionSpec = { name: 'orientation', numbers: angles };
export const LENGTHS: OptionSpec = {
  name: 'lengths',
  numbers: [1, 2, 3, 4, 5, 6].map((leg) => ({ name: `l${leg}`, range: length })),
};

/** Roll and pitch within a cone of this half angle; past a right angle the platform would turn its back. */
export const TILT_RANGE: OptionSpec = {
  name: 'tilt-range',
  numbers: [{ name: 'deg', range: { min: 0, max: 90, unit: 'deg', says: 'Half angle of the cone of tilts.' } }],
};

/** Turns about the platform's own axis, either way. */
export const YAW_RANGE: OptionSpec = {
  name: 'yaw-range',
  numbers: [{ name: 'deg', range: { min: 0, max: 180, unit: 'deg', says: 'Half range of yaw.' } }],
};

/** Relative error of a volume. Below a millionth the columns would number millions. */
export const ERROR: OptionSpec = {
  name: 'error',
  numbers: [{ name: 'share', range: { min: 1e-6, max: 0.5, unit: '', says: 'Relative error asked for.' } }],
};

/** Refuses an argument: "<option> is <value>; it must be <limit>. <remedy>" */
export const badArgument = (option: string, value: string, limit: string, remedy: string): DesignFault =>
  fault('outOfRange', option, value, limit, remedy);

/** A decimal number as people type it; no hexadecimal, no words. */
const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/** Reads the numbers of one option; finds every number out of its range. */
export function readNumbers(spec: OptionSpec, text: string): Result<readonly number[], readonly DesignFault[]> {
  const option = `--${spec.name}`;
  const parts = text.split(',').map((part) => part.trim());
  const names = spec.numbers.map(({ name }) => name).join(',');
  if (parts.length !== spec.numbers.length || !parts.every((part) => DECIMAL.test(part))) {
    const { length: count } = spec.numbers;
    const limit = count === 1 ? 'one number' : `${count} numbers ${names}`;
    return failed([badArgument(option, quoted(text), limit, `Write ${option} ${names}.`)]);
  }
  const faults = spec.numbers.flatMap(({ name, range }, index) =>
    rangeFault(spec.numbers.length === 1 ? option : `${option} ${name}`, parts[index], range),
  );
  // adding 0 turns -0 into 0
  return faults.length > 0 ? failed(faults) : ok(parts.map((part) => Number(part) + 0));
}

/** Reads `name=value`. */
export function readNamed(
  spec: OptionSpec,
  names: readonly NamedNumber[],
  text: string,
): Result<{ readonly key: string; readonly value: number }, readonly DesignFault[]> {
  const option = `--${spec.name}`;
  const split = text.indexOf('=');
  const name = (split < 0 ? text : text.slice(0, split)).trim();
  const known = names.find((number) => number.name === name);
  if (!known) {
    const all = names.map((number) => number.name);
    const near = nearestKey(name, all);
    const remedy = `Write ${option} ${near ?? all[0]}=value.`;
    return failed([badArgument(option, quoted(text), `one of ${all.join(', ')} with a value`, remedy)]);
  }
  const value = split < 0 ? '' : text.slice(split + 1).trim();
  if (!DECIMAL.test(value)) {
    const limit = 'one number behind the =';
    return failed([badArgument(`${option} ${name}`, quoted(value), limit, `Write ${option} ${name}=value.`)]);
  }
  const faults = rangeFault(`${option} ${name}`, value, known.range);
  return faults.length > 0 ? failed(faults) : ok({ key: namedKey(spec, name), value: Number(value) + 0 });
}

/** None or one fault. */
function rangeFault(place: string, text: string, range: NumberRange): readonly DesignFault[] {
  const value = Number(text);
  if (inRange(value, range)) return [];
  const remedy = value < range.min ? `Raise it to ${range.min} or more.` : `Lower it to ${range.max} or less.`;
  return [badArgument(place, text.slice(0, LONGEST_NUMBER), shownRange(range), remedy)];
}

/** Characters shown of a number that is refused. */
const LONGEST_NUMBER = 30;
