import { type ColumnName, isDimension, type LayoutTable } from './layout-table.ts';

/** Layouts looked at to find how far a figure spreads. */
const SAMPLES = 4096;

/** Figures without bound are shown up to where this share of the layouts lies; the rest counts as "more". */
const SHOWN_SHARE = 0.95;

/**
 * Conditions and force factors above this have no bound for anyone who builds: the layout lies within some thousandth of a degree
 * of a singular one, or on it, where the number is what rounding left of infinity.
 */
export const BOUND = 1e6;

/** Figures that grow without bound near singular layouts. */
const UNBOUNDED: ReadonlySet<ColumnName> = new Set<ColumnName>(['homeCondition', 'forceFactor']);

/** How far an axis for a column goes. */
export interface Domain {
  readonly low: number;
  readonly high: number;
  /** Some values lie above: the figure has no bound (condition, force at a singular pose). */
  readonly open: boolean;
}

/**
 * The axis on which a column is shown. A dimension's is its own range. A figure's goes from its smallest to its largest value
 * among known layouts, sampled evenly; a figure with values far out or infinite (condition and forces near singular) is cut
 * at the 95th percentile of what stays below {@link BOUND}. Null while nothing is known.
 */
export function columnDomain(table: LayoutTable, name: ColumnName): Domain | null {
  const axis = table.grid.find((candidate) => candidate.name === name);
  if (axis) {
    const { values } = axis;
    return { low: values[0], high: values[values.length - 1], open: false };
  }
  if (isDimension(name) || table.count === 0) return null;
  const values = table.figure(name);
  // unbounded figures need their percentile, for which a sample is enough; the others their true ends
  if (!UNBOUNDED.has(name)) return wholeDomain(table.known, values);
  const step = Math.max(1, Math.floor(table.count / SAMPLES));
  const sample: number[] = [];
  let seen = 0;
  for (let index = 0; index < table.size; index++) {
    if (table.known[index] === 0) continue;
    if (seen++ % step === 0 && values[index] < BOUND) sample.push(values[index]);
  }
  sample.sort((a, b) => a - b);
  if (sample.length === 0) return null;
  const high = sample[Math.floor(SHOWN_SHARE * (sample.length - 1))];
  return { low: sample[0], high, open: true };
}

/** The figure grows without bound near singular layouts, and this value of it counts as having none. */
export const isUnbounded = (name: ColumnName, value: number): boolean =>
  value === Number.POSITIVE_INFINITY || (UNBOUNDED.has(name) && value >= BOUND);

function wholeDomain(known: Uint8Array, values: Float64Array): Domain | null {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < values.length; index++) {
    if (known[index] === 0) continue;
    const value = values[index];
    if (value < low) low = value;
    if (value > high && value < Number.POSITIVE_INFINITY) high = value;
  }
  return high >= low ? { low, high, open: false } : null;
}
