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

/**
 * Four corners hold the origin only if the weights found for them really put it there: those of a flat tetrahedron are
 * mostly rounding. Bodies nearer than this share of their coordinates count as touching.
 */
const TOUCHING = 1e-11;

/** The subset of all four points. */
const ALL_FOUR = 15;

/** All subsets of four points with at least one member, small ones first. */
const SUBSETS = [1, 2, 4, 8, 3, 5, 6, 9, 10, 12, 7, 11, 13, 14, ALL_FOUR];

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
      if (subset === ALL_FOUR && square > this.touchingSquare()) continue;
      if (square < best) {
        best = square;
        bestSubset = subset;
        weights.set(trial);
        v.set(next);
      }
    }
    this.keep(bestSubset);
    return bestSubset === ALL_FOUR ? 0 : best;
  }

  /** A combination of corners nearer to the origin than this (squared) is at it. */
  private touchingSquare(): number {
    let largest = 0;
    for (const entry of this.W) largest = Math.max(largest, Math.abs(entry));
    return (TOUCHING * largest) ** 2;
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
      const solved = size === 2 ? this.onLine(o, 3 * corners[1]) : size === 3 ? this.onPlane(corners) : this.inside();
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

  /** Normal equations of the two edges from the first of three corners, by Cramer's rule. */
  private onPlane(corners: readonly number[]): boolean {
    const { W } = this;
    const o = 3 * corners[0];
    const p = 3 * corners[1];
    const q = 3 * corners[2];
    let pp = 0;
    let pq = 0;
    let qq = 0;
    let po = 0;
    let qo = 0;
    for (let axis = 0; axis < 3; axis++) {
      const toP = W[p + axis] - W[o + axis];
      const toQ = W[q + axis] - W[o + axis];
      pp += toP * toP;
      pq += toP * toQ;
      qq += toQ * toQ;
      po -= toP * W[o + axis];
      qo -= toQ * W[o + axis];
    }
    const determinant = pp * qq - pq * pq;
    if (!(determinant > 0)) return false;
    solution[0] = (po * qq - qo * pq) / determinant;
    solution[1] = (qo * pp - po * pq) / determinant;
    return true;
  }

  /** Weights that put all four corners at the origin: volumes of the tetrahedra that it makes with three of them. */
  private inside(): boolean {
    const { W } = this;
    const a = triple(W, 3, 6, 9);
    const b = -triple(W, 0, 6, 9);
    const c = triple(W, 0, 3, 9);
    const d = -triple(W, 0, 3, 6);
    const whole = a + b + c + d;
    if (whole === 0) return false;
    solution[0] = b / whole;
    solution[1] = c / whole;
    solution[2] = d / whole;
    return true;
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

/** Weights of all corners of a subset but the first. */
const solution = new Float64Array(3);

const dot3 = (a: Float64Array, b: Float64Array): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Six times the signed volume spanned by three of the vectors in W. */
const triple = (W: Float64Array, a: number, b: number, c: number): number =>
  W[a] * (W[b + 1] * W[c + 2] - W[b + 2] * W[c + 1]) -
  W[a + 1] * (W[b] * W[c + 2] - W[b + 2] * W[c]) +
  W[a + 2] * (W[b] * W[c + 1] - W[b + 1] * W[c]);
