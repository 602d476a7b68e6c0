/** The numbers a field may hold, in a design file or on screen. */
export interface NumberRange {
  readonly min: number;
  readonly max: number;
  /** The lowest value itself is not allowed. */
  readonly aboveMin?: true;
  /** The highest value itself is not allowed. */
  readonly belowMax?: true;
  /** Whole numbers only. */
  readonly whole?: true;
  readonly unit: 'mm' | 'deg' | 'kg' | 'N' | 'N/mm' | 'N mm' | 'kg mm^2' | 'mm/s' | 'mm/s^2' | 'm/s^2' | 'W' | '';
  /** One sentence for the schema and for whoever edits the file by hand. */
  readonly says: string;
}

/**
 * Numbers nearer to 0 than this, and not 0, are in no range. No measurement comes near it; their products and squares lose digits or
 * vanish, and their reciprocals are infinite, below some 1e-154.
 */
export const TINIEST = 1e-100;

/** Whether a number is too near to 0 to be computed with, and not 0. */
export const isTiny = (value: number): boolean => value !== 0 && Math.abs(value) < TINIEST;

/** Whether a number lies in a range. */
export function inRange(value: number, range: NumberRange): boolean {
  if (!Number.isFinite(value) || isTiny(value)) return false;
  if (range.whole && !Number.isInteger(value)) return false;
  if (value < range.min || value > range.max) return false;
  return !(range.aboveMin && value === range.min) && !(range.belowMax && value === range.max);
}
