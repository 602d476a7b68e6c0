import { recordOf } from '../math/record.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { DIMENSION_NAMES, DIMENSIONS, type DimensionHeader, type DimensionName } from '../terms/dimensions.ts';
import { isTiny, type NumberRange, TINIEST } from '../terms/number-range.ts';
import { radians } from '../terms/units.ts';
import { type DesignFault, fault, listedFaults, shownPath, shownValue } from './faults.ts';
import { readJson } from './json-text.ts';
import { knownKeys, nearestKey } from './known-keys.ts';
import { RANGES } from './ranges.ts';
import { z } from './zod.ts';

/** First key of every sweep file. */
export const SWEEP_FORMAT = 'legroom-sweep';

/** Newest version of the sweep file that this program reads. */
export const SWEEP_VERSION = 1;

const ratio: NumberRange = { min: 0.01, max: 100, unit: '', says: 'Platform radius over base radius.' };
const lean: NumberRange = { ...RANGES.lean_deg, max: 89 };

/** Limits of the values of each dimension, in the file's unit. */
const RANGE_OF = {
  baseGap: RANGES.gap_deg,
  platformGap: RANGES.gap_deg,
  radiusRatio: ratio,
  turn: { ...RANGES.turn_deg, min: -60, max: 60 },
  homeHeight: RANGES.position_mm,
  baseRadius: RANGES.radius_mm,
  platformRadius: RANGES.radius_mm,
  mountLean: lean,
} as const satisfies Record<DimensionName, NumberRange>;

export type SweepVariableName = DimensionHeader;

/** Names of all variables, in the order in which they are listed. */
export const SWEEP_VARIABLE_NAMES: readonly SweepVariableName[] = DIMENSION_NAMES.map(
  (name) => DIMENSIONS[name].header,
);

/** What may vary in a sweep, with the dimension it changes and the limits of its values. */
export const SWEEP_VARIABLES = recordOf(SWEEP_VARIABLE_NAMES, (_, n) => ({
  dimension: DIMENSION_NAMES[n],
  range: RANGE_OF[DIMENSION_NAMES[n]],
}));

/** Most values along one variable; finer than any hole circle. */
export const LARGEST_COUNT = 10_000;

const variable = z.strictObject({
  name: z.enum(SWEEP_VARIABLE_NAMES),
  from: z.number(),
  to: z.number(),
  count: z.int().min(1).max(LARGEST_COUNT),
});

const notTiny = (value: number): boolean => !isTiny(value);

const sweepSchema = z.strictObject({
  format: z.literal(SWEEP_FORMAT),
  version: z.literal(SWEEP_VERSION),
  variables: z.array(variable).min(1).max(4),
  tilt_deg: z.number().min(0).max(60).refine(notTiny).default(10),
  firmnessFloor: z.number().min(0).max(10).refine(notTiny).default(0.25),
  deadLength_mm: z.number().min(0).max(1_000_000).refine(notTiny).default(0),
});

type Frozen<Value> = Value extends object ? { readonly [Key in keyof Value]: Frozen<Value[Key]> } : Value;

/**
 * Which layouts to weigh: one to four variables, each from one value to another in so many even steps, both ends included, and
 * what the figures depend on. Millimetres and degrees, as the names say.
 */
export type SweepDocument = Frozen<z.output<typeof sweepSchema>>;

/** One variable of a {@link SweepDocument}. */
export type SweepVariable = SweepDocument['variables'][number];

/** 60 base gaps, 60 platform gaps and 60 ring ratios: 216,000 layouts. */
export const STANDARD_SWEEP: SweepDocument = {
  format: SWEEP_FORMAT,
  version: SWEEP_VERSION,
  variables: [
    { name: 'baseGap_deg', from: 1, to: 119, count: 60 },
    { name: 'platformGap_deg', from: 1, to: 119, count: 60 },
    { name: 'radiusRatio', from: 0.3, to: 1.48, count: 60 },
  ],
  tilt_deg: 10,
  firmnessFloor: 0.25,
  deadLength_mm: 0,
};

/** Reads a sweep file; never throws. */
export function readSweep(input: Uint8Array | string): Result<SweepDocument, readonly DesignFault[]> {
  const json = readJson(input);
  return json.ok ? validateSweep(json.value) : failed([json.fault]);
}

/** Validates a value as a sweep. */
export function validateSweep(value: unknown): Result<SweepDocument, readonly DesignFault[]> {
  const parsed = sweepSchema.safeParse(value, { reportInput: true });
  if (!parsed.success) return failed(listedFaults(parsed.error.issues.flatMap(shapeFaults)));
  const { data } = parsed;
  const faults = [...data.variables.flatMap(variableFaults), ...repeatedFaults(data), ...sizeFaults(data)];
  return faults.length > 0 ? failed(listedFaults(faults)) : ok(data);
}

/** A layout's number is a double, which counts no further than this without leaving numbers out. */
export const MOST_LAYOUTS = Number.MAX_SAFE_INTEGER;

function sizeFaults(sweep: SweepDocument): readonly DesignFault[] {
  const layouts = sweepSize(sweep);
  if (layouts <= MOST_LAYOUTS) return [];
  const value = `of ${layouts} layouts`;
  return [fault('tooLarge', 'variables', value, `of at most ${MOST_LAYOUTS} together`, 'Lower the counts.')];
}

/** Values of a variable in its own unit, both ends included; a count of one is the start alone. */
export const sweepValues = ({ from, to, count }: SweepVariable): readonly number[] =>
  Array.from({ length: count }, (_, n) => (count === 1 ? from : from + ((to - from) * n) / (count - 1)));

/** A sweep's axes in millimetres, radians and ratios, named by the dimension each changes. */
export const sweepAxes = ({ variables }: SweepDocument) =>
  variables.map((variable) => ({
    name: SWEEP_VARIABLES[variable.name].dimension,
    values: Float64Array.from(sweepValues(variable), (value) =>
      variable.name.endsWith('_deg') ? radians(value) : value,
    ),
  }));

/** What the figures depend on, in millimetres and radians. */
export const sweepOptions = ({ tilt_deg, firmnessFloor, deadLength_mm }: SweepDocument) => ({
  tilt: radians(tilt_deg),
  firmnessFloor,
  deadLength: deadLength_mm,
});

/** Number of layouts. */
export const sweepSize = ({ variables }: SweepDocument): number =>
  variables.reduce((product, { count }) => product * count, 1);

function variableFaults({ name, from, to }: SweepVariable, index: number): readonly DesignFault[] {
  const { range } = SWEEP_VARIABLES[name];
  const place = (key: string) => `variables[${index}].${key}`;
  const faults: DesignFault[] = [];
  for (const [key, value] of [
    ['from', from],
    ['to', to],
  ] as const) {
    if (isTiny(value)) {
      const limit = `0, or at least ${TINIEST} away from it`;
      faults.push(fault('outOfRange', place(key), String(value), limit, 'Write 0, or a larger number.'));
      continue;
    }
    if (value >= range.min && value <= range.max) continue;
    const remedy = value < range.min ? `Raise it to ${range.min} or more.` : `Lower it to ${range.max} or less.`;
    faults.push(fault('outOfRange', place(key), String(value), `from ${range.min} to ${range.max}`, remedy));
  }
  if (to < from) {
    faults.push(fault('contradiction', place('to'), String(to), `${from} (from) or more`, 'Exchange from and to.'));
  }
  return faults;
}

function repeatedFaults({ variables }: SweepDocument): readonly DesignFault[] {
  const faults: DesignFault[] = [];
  variables.forEach(({ name, from, to, count }, index) => {
    if (variables.findIndex((other) => other.name === name) < index) {
      faults.push(fault('contradiction', `variables[${index}].name`, `"${name}" again`, 'named once', 'Remove one.'));
    }
    if (count > 1 && from === to) {
      const remedy = 'Widen the range, or set count to 1.';
      faults.push(fault('contradiction', `variables[${index}]`, `empty (from ${from} to ${to})`, 'a range', remedy));
    }
  });
  const names = variables.map(({ name }) => name);
  if (names.includes('radiusRatio') && names.includes('platformRadius_mm')) {
    const limit = 'one of radiusRatio and platformRadius_mm';
    faults.push(fault('contradiction', 'variables', 'setting the platform radius twice', limit, 'Remove one of them.'));
  }
  return faults;
}

type Issue = z.core.$ZodIssue;

function shapeFaults(issue: Issue): readonly DesignFault[] {
  const path = shownPath(issue.path);
  if (issue.code === 'unrecognized_keys') {
    const known = knownKeys(sweepSchema, issue.path);
    return issue.keys.map((key) => {
      const near = nearestKey(key, known);
      const remedy = near ? `Rename it to ${near}, or remove it.` : 'Remove it.';
      return fault(
        'unknownKey',
        shownPath([...issue.path, key]),
        'an unknown key',
        `one of ${known.join(', ')}`,
        remedy,
      );
    });
  }
  const value = shownValue(issue.input);
  if (issue.input === undefined) return [fault('missing', path, 'missing', expected(issue), 'Add it.')];
  return [
    fault(issue.code === 'invalid_type' ? 'wrongType' : 'outOfRange', path, value, expected(issue), 'Replace it.'),
  ];
}

function expected(issue: Issue): string {
  if (issue.code === 'invalid_value') return issue.values.map((choice) => shownValue(choice)).join(' or ');
  if (issue.code === 'too_small') return `${issue.origin === 'array' ? 'a list of ' : ''}${issue.minimum} or more`;
  if (issue.code === 'too_big') return `${issue.origin === 'array' ? 'a list of ' : ''}${issue.maximum} or less`;
  if (issue.code === 'invalid_type') return issue.expected === 'int' ? 'a whole number' : `a ${issue.expected}`;
  if (issue.code === 'custom') return `0, or at least ${TINIEST}`;
  return 'as the format has it';
}
