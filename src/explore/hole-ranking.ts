import { FIGURE_NAMES, type FigureName } from '../terms/figures.ts';
import { FIGURE_COUNT } from './layout-figures.ts';
import { withTies } from './ties.ts';

/** A figure that counts in a ranking, which way is better, and how much it weighs against the others. */
export interface Weight {
  readonly figure: FigureName;
  readonly better: 'more' | 'less';
  readonly weight: number;
}

/** Layouts in order of preference. */
export interface Ranking {
  /** Places of the rows, best first. */
  readonly order: Uint32Array;
  /** Score of each row by its place, 0 to 100: 100 is the best of the list in every figure that weighs. */
  readonly scores: Float64Array;
}

const BUILDABLE = FIGURE_NAMES.indexOf('buildable');
const REACHABLE = FIGURE_NAMES.indexOf('homeReachable');
const SINGULAR = FIGURE_NAMES.indexOf('singularEverywhere');

/** Scores, of 100, this near to each other are equal: what rounding of figures that differ little in the whole list can make. */
const SAME_SCORE = 1e-6;

/**
 * Ranks rows of figures by weights. Each figure counts from 0 (worst finite value of the list) to 1 (best); a value without bound
 * counts 0. Layouts that cannot be built or stand at home, or are singular at every pose, come last whatever their score. Scores that are equal
 * but for rounding keep the order of the list.
 */
export function rankRows(rows: Float64Array, weights: readonly Weight[]): Ranking {
  const count = rows.length / FIGURE_COUNT;
  const scores = new Float64Array(count);
  const total = weights.reduce((sum, { weight }) => sum + weight, 0);
  for (const { figure, better, weight } of weights) {
    if (weight === 0) continue;
    const column = FIGURE_NAMES.indexOf(figure);
    const [low, high] = spreadOf(rows, column);
    if (!(high > low)) continue;
    for (let n = 0; n < count; n++) {
      const value = rows[n * FIGURE_COUNT + column];
      if (!Number.isFinite(value)) continue;
      const share = (value - low) / (high - low);
      scores[n] += ((better === 'more' ? share : 1 - share) * weight * 100) / total;
    }
  }
  const usable = (n: number) =>
    rows[n * FIGURE_COUNT + BUILDABLE] === 1 &&
    rows[n * FIGURE_COUNT + REACHABLE] === 1 &&
    rows[n * FIGURE_COUNT + SINGULAR] === 0;
  const tied = withTies(scores, SAME_SCORE);
  const order = Uint32Array.from({ length: count }, (_, n) => n);
  order.sort((a, b) => Number(usable(b)) - Number(usable(a)) || tied[b] - tied[a] || a - b);
  return { order, scores };
}

/** Smallest and largest finite value of a column. */
function spreadOf(rows: Float64Array, column: number): readonly [low: number, high: number] {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let at = column; at < rows.length; at += FIGURE_COUNT) {
    const value = rows[at];
    if (!Number.isFinite(value)) continue;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}
