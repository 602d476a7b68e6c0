/**
 * Distance between two convex bodies that are known by their support points.
 *
 * Method of E. G. Gilbert, D. W. Johnson and S. S. Keerthi, IEEE J. Robotics and Automation 4(2), 1988 (from memory): walk a
 * simplex of up to four points of the difference of the two bodies toward the origin. Every step also gives a lower bound
 * (the plane through the newest support point), so the answer comes with its own error.
 */

/** A convex body by its farthest point in a direction. */
export interface Convex {
  /** Writes the farthest point along (dx, dy, dz), of any length but zero, to `to[offset..offset+2]`. */
  support(dx: number, dy: number, dz: number, to: Float64Array, offset: number): void;
}

/** The walk stops when upper and lower bound agree to this share of the bodies' distance. */
export const CONVEX_TOLERANCE = 1e-10;

/** Steps allowed: polytopes need some ten; round bodies seen nearly edge on some thirty. */
const STEP_LIMIT = 200;

/** Barycentric weights this far below zero are rounding. */
const WEIGHT_SLACK = 1e-14;

/** All subsets of four points with at least one member, small ones first. */
const SUBSETS = [1, 2, 4, 8, 3, 5, 6, 9, 10, 12, 7, 11, 13, 14, 15];

/** Reusable walker: nothing is allocated per query. */
export class ConvexDistance {
  /** Closest points of the two bodies after {@link between}, three numbers each; equal when they overlap. */
  readonly onA = new Float64Array(3);
  readonly onB = new Float64Array(3);
  /** The true distance is at least this. */
  lowerBound = 0;

  private readonly W = new Float64Array(12);
  private readonly PA = new Float64Array(12);
  private readonly PB = new Float64Array(12);
  private readonly weights = new Float64Array(4);
  private readonly trial = new Float64Array(4);
  private readonly v = new Float64Array(3);
  private readonly next = new Float64Array(3);
  private count = 0;

  /**
   * Distance between two bodies, 0 when they touch or overlap.
   * @param enough stops early when the distance is known to be at least this much, and returns that lower bound
   */
  between(A: Convex, B: Convex, enough = Number.POSITIVE_INFINITY): number {
    const { v, W } = this;
    this.count = 0;
    this.lowerBound = 0;
    this.addSupport(A, B, 1, 0, 0);
    v.set(W.subarray(0, 3));
    this.weights[0] = 1;
    let square = dot3(v, v);
    for (let step = 0; step < STEP_LIMIT && square > 0; step++) {
      const slot = this.count;
      this.addSupport(A, B, v[0], v[1], v[2]);
      const toward = v[0] * W[3 * slot] + v[1] * W[3 * slot + 1] + v[2] * W[3 * slot + 2];
      const distance = Math.sqrt(square);
      this.lowerBound = Math.max(this.lowerBound, toward / distance);
      if (this.lowerBound >= enough) return this.lowerBound;
      if (distance - this.lowerBound <= CONVEX_TOLERANCE * distance) {
        this.count = slot;
        break;
      }
      const before = square;
      square = this.reduce();
      if (square >= before) break;
    }
    this.writeClosest();
    return Math.sqrt(square);
  }

  /** Adds the point of A - B that lies farthest against (dx, dy, dz). */
  private addSupport(A: Convex, B: Convex, dx: number, dy: number, dz: number): void {
    const { W, PA, PB } = this;
    const at = 3 * this.count;
    A.support(-dx, -dy, -dz, PA, at);
    B.support(dx, dy, dz, PB, at);
    for (let axis = at; axis < at + 3; axis++) W[axis] = PA[axis] - PB[axis];
    this.count++;
  }

  /** Finds the point of the simplex nearest to the origin, keeps only the corners that carry it; its squared distance. */
  private reduce(): number {
    const { weights, trial, v, next } = this;
    let best = Number.POSITIVE_INFINITY;
    let bestSubset = 0;
    for (const subset of SUBSETS) {
      if (subset >> this.count || !this.nearest(subset)) continue;
      const square = dot3(next, next);
      if (square < best) {
        best = square;
        bestSubset = subset;
        weights.set(trial);
        v.set(next);
      }
    }
    this.keep(bestSubset);
    // all four corners are needed only when the origin lies inside of them
    return bestSubset === 15 ? 0 : best;
  }

  /** Weights and nearest point of the flat through a subset of corners; false when it lies outside of the subset. */
  private nearest(subset: number): boolean {
    const { W, trial, next } = this;
    trial.fill(0);
    const corners: number[] = CORNERS[subset];
    const o = 3 * corners[0];
    const size = corners.length;
    if (size === 1) trial[corners[0]] = 1;
    else {
      const solved = size === 2 ? this.onLine(o, 3 * corners[1]) : this.onFlat(corners);
      if (!solved) return false;
      let rest = 1;
      for (let k = 1; k < size; k++) {
        const weight = solution[k - 1];
        if (!(weight >= -WEIGHT_SLACK)) return false;
        trial[corners[k]] = weight;
        rest -= weight;
      }
      if (!(rest >= -WEIGHT_SLACK)) return false;
      trial[corners[0]] = rest;
    }
    for (let axis = 0; axis < 3; axis++) {
      let sum = 0;
      for (let k = 0; k < size; k++) sum += trial[corners[k]] * W[3 * corners[k] + axis];
      next[axis] = sum;
    }
    return true;
  }

  private onLine(o: number, p: number): boolean {
    const { W } = this;
    let square = 0;
    let along = 0;
    for (let axis = 0; axis < 3; axis++) {
      const edge = W[p + axis] - W[o + axis];
      square += edge * edge;
      along -= edge * W[o + axis];
    }
    solution[0] = along / square;
    return square > 0;
  }

  /** Normal equations of two or three edges from the first corner, by Cramer's rule. */
  private onFlat(corners: readonly number[]): boolean {
    const { W } = this;
    const n = corners.length - 1;
    const o = 3 * corners[0];
    for (let i = 0; i < n; i++) {
      const p = 3 * corners[i + 1];
      right[i] = 0;
      for (let axis = 0; axis < 3; axis++) right[i] -= (W[p + axis] - W[o + axis]) * W[o + axis];
      for (let j = 0; j <= i; j++) {
        const q = 3 * corners[j + 1];
        let sum = 0;
        for (let axis = 0; axis < 3; axis++) sum += (W[p + axis] - W[o + axis]) * (W[q + axis] - W[o + axis]);
        gram[3 * i + j] = sum;
        gram[3 * j + i] = sum;
      }
    }
    return n === 2 ? solve2() : solve3();
  }

  private keep(subset: number): void {
    const { W, PA, PB, weights } = this;
    let kept = 0;
    for (const corner of CORNERS[subset]) {
      for (let axis = 0; axis < 3; axis++) {
        W[3 * kept + axis] = W[3 * corner + axis];
        PA[3 * kept + axis] = PA[3 * corner + axis];
        PB[3 * kept + axis] = PB[3 * corner + axis];
      }
      weights[kept] = weights[corner];
      kept++;
    }
    this.count = kept;
  }

  private writeClosest(): void {
    const { PA, PB, weights, onA, onB } = this;
    onA.fill(0);
    onB.fill(0);
    for (let corner = 0; corner < this.count; corner++) {
      for (let axis = 0; axis < 3; axis++) {
        onA[axis] += weights[corner] * PA[3 * corner + axis];
        onB[axis] += weights[corner] * PB[3 * corner + axis];
      }
    }
  }
}

const CORNERS: readonly number[][] = Array.from({ length: 16 }, (_, subset) =>
  [0, 1, 2, 3].filter((corner) => (subset >> corner) & 1),
);

const gram = new Float64Array(9);
const right = new Float64Array(3);
const solution = new Float64Array(3);

const dot3 = (a: Float64Array, b: Float64Array): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

function solve2(): boolean {
  const determinant = gram[0] * gram[4] - gram[1] * gram[3];
  if (!(determinant > 0)) return false;
  solution[0] = (right[0] * gram[4] - right[1] * gram[1]) / determinant;
  solution[1] = (right[1] * gram[0] - right[0] * gram[3]) / determinant;
  return true;
}

function solve3(): boolean {
  const [a, b, c, , e, f, , , i] = gram;
  const A = e * i - f * f;
  const B = c * f - b * i;
  const C = b * f - c * e;
  const determinant = a * A + b * B + c * C;
  if (!(determinant > 0)) return false;
  const E = a * i - c * c;
  const F = b * c - a * f;
  const I = a * e - b * b;
  solution[0] = (A * right[0] + B * right[1] + C * right[2]) / determinant;
  solution[1] = (B * right[0] + E * right[1] + F * right[2]) / determinant;
  solution[2] = (C * right[0] + F * right[1] + I * right[2]) / determinant;
  return true;
}
