import { svd } from './svd.ts';

/**
 * Smallest singular value of 6x6 matrices, many of them: J^T J is brought to tridiagonal form by Householder reflections, and
 * its smallest eigenvalue found by Laguerre's iteration from below, which for a polynomial with real roots only rises
 * towards the smallest one and never passes it (B. N. Parlett, The Symmetric Eigenvalue Problem, ch. 8-10: from memory).
 * Squaring costs accuracy when the matrix is ill-conditioned; those few go to the one-sided Jacobi routine instead.
 */
const N = 6;

/**
 * Squaring leaves a relative error of about epsilon * condition^2 in the small singular value. Up to this ratio of squares the
 * result keeps 1e-10; beyond it the slower routine takes over.
 */
export const SQUARING_LIMIT = 4e5;

/** Laguerre's iteration triples the good digits a step; four steps are usual, the limit only stops a non-finite input. */
const STEP_LIMIT = 60;

/** A step this small relative to the largest eigenvalue no longer changes the result: a rounding error. */
const STEP_SETTLED = 2 * Number.EPSILON;

/** Reusable workspace; one per thread of work. */
export class SmallestSingular {
  private readonly A = new Float64Array(N * N);
  private readonly diagonal = new Float64Array(N);
  private readonly beside = new Float64Array(N);
  private readonly v = new Float64Array(N);
  private readonly p = new Float64Array(N);

  /** @param J row-major 6x6, finite. @returns its smallest singular value, to about 1e-10 of it. */
  of(J: Float64Array): number {
    this.square(J);
    this.tridiagonalise();
    const smallest = this.smallestEigenvalue();
    const bound = this.largestBound();
    if (smallest * SQUARING_LIMIT < bound) return svd(J, N).values[N - 1];
    return Math.sqrt(smallest);
  }

  /** Largest singular value of the matrix last given to {@link of}, to rounding. */
  largestOfLast(): number {
    return Math.sqrt(this.largestEigenvalue());
  }

  /** A = J^T J. */
  private square(J: Float64Array): void {
    const { A } = this;
    for (let a = 0; a < N; a++) {
      for (let b = a; b < N; b++) {
        A[N * a + b] = A[N * b + a] =
          J[a] * J[b] +
          J[6 + a] * J[6 + b] +
          J[12 + a] * J[12 + b] +
          J[18 + a] * J[18 + b] +
          J[24 + a] * J[24 + b] +
          J[30 + a] * J[30 + b];
      }
    }
  }

  /** Householder reduction, column by column; Golub and Van Loan, Matrix Computations, algorithm 8.3.1. */
  private tridiagonalise(): void {
    const { A, v, p, diagonal, beside } = this;
    for (let k = 0; k < N - 2; k++) {
      let norm = 0;
      for (let i = k + 1; i < N; i++) norm += A[N * i + k] * A[N * i + k];
      diagonal[k] = A[N * k + k];
      const head = A[N * (k + 1) + k];
      const alpha = head > 0 ? -Math.sqrt(norm) : Math.sqrt(norm);
      beside[k] = alpha;
      const half = norm - alpha * head;
      if (half <= 0) continue;
      for (let i = k + 1; i < N; i++) v[i] = A[N * i + k];
      v[k + 1] = head - alpha;
      const beta = 1 / half;
      let vp = 0;
      for (let i = k + 1; i < N; i++) {
        let sum = 0;
        for (let j = k + 1; j < N; j++) sum += A[N * i + j] * v[j];
        p[i] = beta * sum;
        vp += p[i] * v[i];
      }
      const share = (beta * vp) / 2;
      for (let i = k + 1; i < N; i++) p[i] -= share * v[i];
      for (let i = k + 1; i < N; i++) {
        for (let j = k + 1; j < N; j++) A[N * i + j] -= v[i] * p[j] + p[i] * v[j];
      }
    }
    diagonal[4] = A[28];
    diagonal[5] = A[35];
    beside[4] = A[34];
  }

  private smallestEigenvalue(): number {
    return this.extremeEigenvalue(0, 1);
  }

  private largestEigenvalue(): number {
    return this.extremeEigenvalue(this.largestBound(), -1);
  }

  /**
   * Laguerre on det(T - x I) from outside of all roots towards the nearest one, with f, f' and f'' from the three-term recurrence
   * of the leading minors. Step = N / (G +- sqrt((N-1)(N H - G^2))), G = -f'/f, H = G^2 - f''/f.
   * @param start below all eigenvalues (heading 1) or above (heading -1)
   */
  private extremeEigenvalue(start: number, heading: 1 | -1): number {
    const { diagonal: d, beside: e } = this;
    const settled = STEP_SETTLED * this.largestBound();
    let x = start;
    for (let step = 0; step < STEP_LIMIT; step++) {
      let f0 = 1;
      let g0 = 0;
      let h0 = 0;
      let f1 = d[0] - x;
      let g1 = -1;
      let h1 = 0;
      for (let k = 1; k < N; k++) {
        const a = d[k] - x;
        const b = e[k - 1] * e[k - 1];
        const f = a * f1 - b * f0;
        const g = a * g1 - f1 - b * g0;
        const h = a * h1 - 2 * g1 - b * h0;
        f0 = f1;
        g0 = g1;
        h0 = h1;
        f1 = f;
        g1 = g;
        h1 = h;
      }
      // the determinant of an even order is positive on both sides outside of all roots
      if (f1 <= 0) return x;
      const G = -g1 / f1;
      const H = G * G - h1 / f1;
      const spread = (N - 1) * (N * H - G * G);
      const advance = N / (heading * G + Math.sqrt(Math.max(spread, 0)));
      x += heading * advance;
      if (!(advance > settled)) return x;
    }
    return x;
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
