/** What is left of a limit, without unit: at least 0 where the limit is kept, at most 1. */

/**
 * Margins this near to 0 count as 0: asked figures carry some rounding errors of coordinates a few strokes large, 1e-14 of a
 * stroke, and a climb that ends a share of 1e-8 beside a smooth extreme loses less than 1e-12 of it.
 */
export const MARGIN_SLACK = 1e-9;

const clipped = (margin: number): number => (Math.abs(margin) < MARGIN_SLACK ? 0 : Math.min(margin, 1));

/** Of a value that may be at most the limit: what is left of it as a share of `scale`. With a scale of 0: 0 when nothing is asked. */
export function marginAtMost(asked: number, limit: number, scale = limit): number {
  if (scale === 0) return asked <= limit ? 0 : Number.NEGATIVE_INFINITY;
  return clipped((limit - asked) / scale);
}

/** Of a value that must be at least the limit. */
export function marginAtLeast(asked: number, limit: number, scale: number): number {
  if (scale === 0) return asked >= limit ? 0 : Number.NEGATIVE_INFINITY;
  return clipped((asked - limit) / scale);
}

/** The same of stiffness, frequency, firmness: that of the reciprocal, which may be at most 1/limit. */
export function marginOfReciprocal(asked: number, limit: number): number {
  if (!(asked > 0)) return Number.NEGATIVE_INFINITY;
  return clipped(1 - limit / asked);
}

/** Compares two sorted lists of margins, least first: the next worst decides where two are the same but for rounding. */
export function compareMargins(one: readonly number[], other: readonly number[]): number {
  for (let n = 0; n < Math.min(one.length, other.length); n++) {
    const difference = one[n] - other[n];
    if (Math.abs(difference) > SAME_MARGIN || Number.isFinite(one[n]) !== Number.isFinite(other[n])) return difference;
  }
  return 0;
}

/** Margins nearer than this are the same: a millionth of a stroke is nobody's concern. */
const SAME_MARGIN = 1e-6;
