/**
 * A small convex polygon that half planes cut down, kept in two flat arrays; no allocation after it is made.
 * Corners run round; an empty polygon has none. (Sutherland and Hodgman's clipping, for one convex polygon.)
 */
export class Polygon {
  private xs: Float64Array;
  private ys: Float64Array;
  private nextX: Float64Array;
  private nextY: Float64Array;
  private count = 0;

  /** @param most corners it may get: four and one for every half plane */
  constructor(most: number) {
    this.xs = new Float64Array(most);
    this.ys = new Float64Array(most);
    this.nextX = new Float64Array(most);
    this.nextY = new Float64Array(most);
  }

  /** Starts anew from a rectangle. */
  reset(x0: number, x1: number, y0: number, y1: number): void {
    this.count = 4;
    [this.xs[0], this.ys[0]] = [x0, y0];
    [this.xs[1], this.ys[1]] = [x1, y0];
    [this.xs[2], this.ys[2]] = [x1, y1];
    [this.xs[3], this.ys[3]] = [x0, y1];
  }

  /** Keeps what has `a x + b y <= c`. */
  cut(a: number, b: number, c: number): void {
    const { xs, ys, nextX, nextY, count } = this;
    let kept = 0;
    let over = 0;
    for (let n = 0; n < count; n++) over = Math.max(over, a * xs[n] + b * ys[n] - c);
    if (!(over > 0)) return;
    for (let n = 0; n < count; n++) {
      const m = n + 1 === count ? 0 : n + 1;
      const here = a * xs[n] + b * ys[n] - c;
      const there = a * xs[m] + b * ys[m] - c;
      if (here <= 0) {
        nextX[kept] = xs[n];
        nextY[kept++] = ys[n];
      }
      if (here < 0 !== there < 0 && here !== 0 && there !== 0) {
        const share = here / (here - there);
        nextX[kept] = xs[n] + share * (xs[m] - xs[n]);
        nextY[kept++] = ys[n] + share * (ys[m] - ys[n]);
      }
    }
    this.count = kept;
    [this.xs, this.nextX] = [nextX, xs];
    [this.ys, this.nextY] = [nextY, ys];
  }

  /** Least and largest x; null when nothing is left. */
  rangeOfX(): readonly [number, number] | null {
    if (this.count === 0) return null;
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let n = 0; n < this.count; n++) {
      low = Math.min(low, this.xs[n]);
      high = Math.max(high, this.xs[n]);
    }
    return [low, high];
  }
}
