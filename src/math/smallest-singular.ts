import { Lu } from './lu.ts';
import { svd } from './svd.ts';
import { tridiagonalOfSquare } from './tridiagonal.ts';

/**
 * Smallest singular value of 6x6 matrices, many of them: J^T J is brought to tridiagonal form by Householder reflections, and
 * its smallest eigenvalue found by Laguerre's iteration from below, which for a polynomial with real roots only rises
 * towards the smallest one and never passes it (B. N. Parlett, The Symmetric Eigenvalue Problem, ch. 8-10: from memory).
 * Squaring costs accuracy when the matrix is ill-conditioned. Those few are found by inverse iteration on factors of J itself,
 * which settles at once when one value alone is small, and by one-sided Jacobi rotations when it does not.
 */
const N = 6;

/**
 * Squaring leaves a relative error of about epsilon * condition^2 in the small singular value. Up to this ratio of squares the
 * result keeps 1e-10; beyond it J itself is worked on.
 */
export const SQUARING_LIMIT = 4e5;

/** Laguerre's iteration triples the good digits a step; four steps are usual, beside equal roots some tens. */
const STEP_LIMIT = 60;

/** A step this small relative to the largest eigenvalue no longer changes the result: a rounding error. */
const STEP_SETTLED = 2 * Number.EPSILON;

/** Steps of inverse iteration; its estimate gains the fourth power of the ratio of the two smallest values a step. */
const INVERSE_STEPS = 8;

/**
 * Start of the inverse iteration: powers of the golden section's lesser part, a direction that no symmetric layout has anything to do
 * with. Even numbers would be square to the loosest motions of many three-fold layouts, and a firmer motion would be found.
 */
const INVERSE_START = Float64Array.from({ length: N }, (_, n) => 0.6180339887498949 ** n);

/** Two estimates this near to each other, relatively, have settled: what rounding leaves of an ill-conditioned matrix is more. */
const INVERSE_SETTLED = 1e-12;

/** Reusable workspace; one per thread of work. */
export class SmallestSingular {
  private readonly diagonal = new Float64Array(N);
  private readonly beside = new Float64Array(N);
  private readonly squares = new Float64Array(N);
  private readonly v = new Float64Array(N);
  private readonly lu = new Lu(N);

  /** @param J row-major 6x6, finite. @returns its smallest singular value, to about 1e-10 of it. */
  of(J: Float64Array): number {
    tridiagonalOfSquare(J, this.diagonal, this.beside);
    const smallest = this.smallestEigenvalue();
    const bound = this.largestBound();
    if (smallest * SQUARING_LIMIT < bound) return this.byInverse(J) ?? svd(J, N).values[N - 1];
    return Math.sqrt(smallest);
  }

  /** Largest singular value of the matrix last given to {@link of}, to rounding. */
  largestOfLast(): number {
    return Math.sqrt(this.largestEigenvalue());
  }

  /**
   * With v a unit vector and u = J^-T v, |u|^2 is the Rayleigh quotient of (J^T J)^-1, so 1/|u| nears the smallest singular value
   * while J^-1 u nears its right vector. Null when it does not settle.
   */
  private byInverse(J: Float64Array): number | null {
    const { lu, v } = this;
    if (!lu.factor(J)) return null;
    v.set(INVERSE_START);
    let last = 0;
    for (let step = 0; step < INVERSE_STEPS; step++) {
      lu.solveTransposed(v);
      const found = 1 / norm(v);
      if (Math.abs(found - last) <= INVERSE_SETTLED * found) return found;
      last = found;
      lu.solve(v);
      const scale = 1 / norm(v);
      for (let i = 0; i < N; i++) v[i] *= scale;
    }
    return null;
  }

  private smallestEigenvalue(): number {
    return this.extremeEigenvalue(0, 1);
  }

  private largestEigenvalue(): number {
    return -this.extremeEigenvalue(-this.largestBound(), -1);
  }

  /**
   * Laguerre on det(sign T - x I) from below all roots towards the least, with f, f' and f'' from the three-term recurrence of the
   * leading minors. Step = N / (G + sqrt((N-1)(N H - G^2))), G = -f'/f, H = G^2 - f''/f. Below all roots every leading minor is
   * positive (Sturm). Near two equal roots, as three-fold layouts have them, f is mostly rounding and a step may pass them: then
   * the last place below them and the one above are halved until nothing is left between.
   * @param start below all eigenvalues of sign T
   */
  private extremeEigenvalue(start: number, sign: 1 | -1): number {
    const { diagonal: d, squares: s } = this;
    for (let k = 0; k < N - 1; k++) s[k] = this.beside[k] * this.beside[k];
    const settled = STEP_SETTLED * this.largestBound();
    let below = start;
    let above = Number.POSITIVE_INFINITY;
    let passed = false;
    let x = start;
    for (let step = 0; step < STEP_LIMIT; step++) {
      let f0 = 1;
      let g0 = 0;
      let h0 = 0;
      let f1 = sign * d[0] - x;
      let g1 = -1;
      let h1 = 0;
      let allAbove = f1 > 0;
      for (let k = 1; allAbove && k < N; k++) {
        const a = sign * d[k] - x;
        const b = s[k - 1];
        const f = a * f1 - b * f0;
        const g = a * g1 - f1 - b * g0;
        const h = a * h1 - 2 * g1 - b * h0;
        f0 = f1;
        g0 = g1;
        h0 = h1;
        f1 = f;
        g1 = g;
        h1 = h;
        allAbove = f > 0;
      }
      if (!allAbove) {
        above = x;
        // mostly the root itself was passed, by rounding: a look just before it tells
        const just = above - 2 * settled;
        x = passed || just < below ? (below + above) / 2 : just;
        passed = true;
      } else below = x;
      if (!(above - below > 3 * settled)) return (below + above) / 2;
      if (!allAbove) continue;
      const G = -g1 / f1;
      const H = G * G - h1 / f1;
      const spread = (N - 1) * (N * H - G * G);
      const advance = N / (G + Math.sqrt(Math.max(spread, 0)));
      if (!(advance > settled)) return x + advance;
      x = x + advance < above ? x + advance : (below + above) / 2;
    }
    return below;
  }

  /** Gershgorin's bound on the largest eigenvalue: no more than twice too large here. */
  private largestBound(): number {
    const { diagonal: d, beside: e } = this;
    let largest = 0;
    for (let k = 0; k < N; k++) {
      const row = d[k] + (k > 0 ? Math.abs(e[k - 1]) : 0) + (k < N - 1 ? Math.abs(e[k]) : 0);
      if (row > largest) largest = row;
    }
    return largest;
  }
}

const norm = (v: Float64Array): number =>
  Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2] + v[3] * v[3] + v[4] * v[4] + v[5] * v[5]);
