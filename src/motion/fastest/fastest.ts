import { failed, ok, type Result } from '../../math/result.ts';
import { intervalOf } from '../intervals.ts';
import { Polygon } from './polygon.ts';

/**
 * What may happen at one point of a way s, in the square of the speed b = s'^2 and the acceleration a = s'':
 * `0 <= b <= most` and, for every row, `alpha a + beta b <= gamma`.
 */
export interface WayLimits {
  /** Largest b [way^2/s^2]; infinite where nothing limits the speed. */
  readonly most: number;
  /** alpha, beta, gamma of the rows, flat. */
  readonly rows: Float64Array;
}

/** A law for how a way is gone along: the square of the speed is linear in s between grid points. */
export interface FastestLaw {
  readonly duration: number;
  /** Grid of the way, and time and squared speed there. */
  readonly way: Float64Array;
  readonly times: Float64Array;
  readonly squares: Float64Array;
}

/** Where and why no law exists. */
export interface FastestFault {
  readonly kind: 'stuck';
  /** Point of the way. */
  readonly at: number;
}

/** Nothing goes along its whole way in less than this [s]; stands in where nothing limits the speed. */
const SHORTEST_TIME = 1e-4;

/** A speed may pass its limit by this share of the largest: what rounding leaves after a few hundred cuts. */
const ROUNDING = 1e-12;

/**
 * The fastest law from rest to rest that keeps every row at both ends of every interval. Between two grid points a is constant,
 * `a = (b1 - b0) / 2 h`, so that the rows are half planes in (b0, b1). Backward: from which b0 the rest of the way can still
 * be gone; forward: the largest b1 each time. (H. Pham and Q.-C. Pham, IEEE Trans. Robotics 34(3), 2018: from memory; with limits
 * at both ends, since at the grid points alone the motion comes out too fast.)
 * @param way increasing grid, at least two points
 * @param limits one a grid point
 */
export function fastestLaw(way: Float64Array, limits: readonly WayLimits[]): Result<FastestLaw, FastestFault> {
  const count = way.length;
  const cap = ((way[count - 1] - way[0]) / SHORTEST_TIME) ** 2;
  const most = limits.map((limit) => Math.min(cap, limit.most));
  const low = new Float64Array(count);
  const high = Float64Array.from(most);
  high[count - 1] = 0;
  const rows = Math.max(...limits.map((limit) => limit.rows.length / 3));
  const polygon = new Polygon(4 + 2 * rows + 4);
  for (let n = count - 2; n >= 0; n--) {
    polygon.reset(0, most[n], low[n + 1], high[n + 1]);
    cutBoth(polygon, way[n + 1] - way[n], limits[n].rows, limits[n + 1].rows);
    const range = polygon.rangeOfX();
    if (!range) return failed({ kind: 'stuck', at: way[n] });
    [low[n], high[n]] = range;
  }
  if (low[0] > ROUNDING * cap) return failed({ kind: 'stuck', at: way[0] });
  const squares = new Float64Array(count);
  for (let n = 0; n < count - 1; n++) {
    const h = way[n + 1] - way[n];
    const next = largestNext(squares[n], h, limits[n].rows, limits[n + 1].rows, high[n + 1]);
    // a reachable point always has a next one; rounding may put it a little below the lowest
    squares[n + 1] = Math.max(low[n + 1], Math.min(high[n + 1], next));
  }
  const times = new Float64Array(count);
  for (let n = 1; n < count; n++) {
    const speeds = Math.sqrt(squares[n - 1]) + Math.sqrt(squares[n]);
    if (!(speeds > 0)) return failed({ kind: 'stuck', at: way[n - 1] });
    times[n] = times[n - 1] + (2 * (way[n] - way[n - 1])) / speeds;
  }
  return ok({ duration: times[count - 1], way, times, squares });
}

/** Cuts with the rows of both ends of an interval, in x = b at its start and y = b at its end. */
function cutBoth(polygon: Polygon, h: number, start: Float64Array, end: Float64Array): void {
  for (let n = 0; n < start.length; n += 3) {
    const alpha = start[n] / (2 * h);
    polygon.cut(start[n + 1] - alpha, alpha, start[n + 2]);
  }
  for (let n = 0; n < end.length; n += 3) {
    const alpha = end[n] / (2 * h);
    polygon.cut(-alpha, end[n + 1] + alpha, end[n + 2]);
  }
}

/** Largest b at the end of an interval from a given b at its start. */
function largestNext(b: number, h: number, start: Float64Array, end: Float64Array, most: number): number {
  let best = most;
  for (let n = 0; n < start.length; n += 3) {
    const alpha = start[n] / (2 * h);
    if (alpha > 0) best = Math.min(best, (start[n + 2] - (start[n + 1] - alpha) * b) / alpha);
  }
  for (let n = 0; n < end.length; n += 3) {
    const alpha = end[n] / (2 * h);
    const slope = end[n + 1] + alpha;
    if (slope > 0) best = Math.min(best, (end[n + 2] + alpha * b) / slope);
  }
  return best;
}

/** Plays a law back: way, speed and acceleration at a time, and the integral of the way. */
export class PlayedLaw {
  readonly duration: number;
  private readonly law: FastestLaw;
  /** Integral of the way up to each grid point. */
  private readonly sums: Float64Array;

  constructor(law: FastestLaw) {
    this.law = law;
    this.duration = law.duration;
    this.sums = new Float64Array(law.way.length);
    for (let n = 1; n < law.way.length; n++) {
      const t = law.times[n] - law.times[n - 1];
      this.sums[n] = this.sums[n - 1] + this.sumWithin(n - 1, t);
    }
  }

  at(time: number): { readonly at: number; readonly speed: number; readonly acceleration: number } {
    const n = intervalOf(this.law.times, time);
    const { start, acceleration, t } = this.piece(n, time);
    return {
      at: this.law.way[n] + t * (start + (t * acceleration) / 2),
      speed: start + t * acceleration,
      acceleration,
    };
  }

  sum(time: number): number {
    const n = intervalOf(this.law.times, time);
    return this.sums[n] + this.sumWithin(n, this.piece(n, time).t);
  }

  /** Speed at the start of an interval, its acceleration, and the time since. */
  private piece(n: number, time: number) {
    const { way, times, squares } = this.law;
    const acceleration = (squares[n + 1] - squares[n]) / (2 * (way[n + 1] - way[n]));
    const t = Math.min(Math.max(0, time - times[n]), times[n + 1] - times[n]);
    return { start: Math.sqrt(squares[n]), acceleration, t };
  }

  /** Integral of a quadratic of time. */
  private sumWithin(n: number, t: number): number {
    const { start, acceleration } = this.piece(n, this.law.times[n] + t);
    return t * (this.law.way[n] + t * (start / 2 + (t * acceleration) / 6));
  }
}
