/**
 * Figures that differ by no more than this share tie: what is left between them is rounding. The reach of mirrored twins of the standard
 * sweep, measured each for itself, differs by up to 5e-12; counted at 1e-9, 1e-10 and 1e-11 its front is the same.
 */
const TIE_SHARE = 1e-9;

/** Near zero a share means nothing: firmness there is rounding of some 1e-16, lengths and volumes are coarser still. */
const TIE_FLOOR = 1e-12;

/** Whether two figures are the same but for rounding. */
export const ties = (one: number, other: number, floor = TIE_FLOOR): boolean =>
  one === other || Math.abs(one - other) <= Math.max(floor, TIE_SHARE * Math.max(Math.abs(one), Math.abs(other)));

/**
 * The same numbers with all that tie made equal: sorted, each that ties with its neighbour takes the neighbour's value, the least of
 * its row. Which numbers are equal then depends on no last digit, so that fronts and ranks come out alike on every machine. What
 * is not finite stays.
 * @param floor differences up to this tie too
 */
export function withTies(values: Float64Array, floor = TIE_FLOOR): Float64Array {
  const tied = values.slice();
  const sorted = values.filter(Number.isFinite).sort();
  if (sorted.length === 0) return tied;
  // the least of each row of ties, by the place of its members in the sorted list
  const least = sorted.slice();
  for (let n = 1; n < sorted.length; n++) if (ties(sorted[n - 1], sorted[n], floor)) least[n] = least[n - 1];
  for (let n = 0; n < tied.length; n++) if (Number.isFinite(tied[n])) tied[n] = least[placeOf(sorted, tied[n])];
  return tied;
}

/** First place of a value in a sorted list that holds it. */
function placeOf(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle] < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Keeps 33 of a number's 53 binary digits (T. J. Dekker, Numer. Math. 18, 1971, splits numbers so: from memory). */
const SPLIT = 2 ** 20 + 1;

/**
 * A figure to ten decimal digits: far finer than any is measured, and coarser than rounding, so that whoever compares the numbers of
 * a table plainly finds hardly a tie broken by it either. What is not finite stays.
 */
export function withoutLastDigits(value: number): number {
  const scaled = SPLIT * value;
  return Number.isFinite(scaled) ? scaled - (scaled - value) : value;
}
