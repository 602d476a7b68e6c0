/**
 * LU factors with partial pivoting of a small square matrix, made in place and reused without allocation.
 * Golub and Van Loan, Matrix Computations, algorithm 3.4.1 (outer-product form).
 */
export class Lu {
  readonly n: number;
  private readonly factors: Float64Array;
  private readonly pivots: Int32Array;
  private sign = 1;

  constructor(n: number) {
    this.n = n;
    this.factors = new Float64Array(n * n);
    this.pivots = new Int32Array(n);
  }

  /** Factors a row-major n x n matrix; false when a pivot is exactly zero. */
  factor(matrix: ArrayLike<number>): boolean {
    const { n, factors: A } = this;
    A.set(matrix);
    this.sign = 1;
    let regular = true;
    for (let k = 0; k < n; k++) {
      let pivot = k;
      for (let row = k + 1; row < n; row++) {
        if (Math.abs(A[row * n + k]) > Math.abs(A[pivot * n + k])) pivot = row;
      }
      this.pivots[k] = pivot;
      if (pivot !== k) this.swapRows(k, pivot);
      const diagonal = A[k * n + k];
      if (diagonal === 0) {
        regular = false;
        continue;
      }
      for (let row = k + 1; row < n; row++) {
        const factor = A[row * n + k] / diagonal;
        A[row * n + k] = factor;
        for (let column = k + 1; column < n; column++) A[row * n + column] -= factor * A[k * n + column];
      }
    }
    return regular;
  }

  /** Determinant of the matrix last factored. */
  determinant(): number {
    let product = this.sign;
    for (let k = 0; k < this.n; k++) product *= this.factors[k * this.n + k];
    return product;
  }

  /** Solves M x = b in place: `b` becomes x. */
  solve(b: Float64Array): void {
    const { n, factors: A, pivots } = this;
    for (let k = 0; k < n; k++) {
      const from = pivots[k];
      if (from !== k) {
        const swap = b[k];
        b[k] = b[from];
        b[from] = swap;
      }
    }
    for (let row = 1; row < n; row++) {
      let sum = b[row];
      for (let column = 0; column < row; column++) sum -= A[row * n + column] * b[column];
      b[row] = sum;
    }
    for (let row = n - 1; row >= 0; row--) {
      let sum = b[row];
      for (let column = row + 1; column < n; column++) sum -= A[row * n + column] * b[column];
      b[row] = sum / A[row * n + row];
    }
  }

  /** Solves M^T x = b in place: `b` becomes x. */
  solveTransposed(b: Float64Array): void {
    const { n, factors: A, pivots } = this;
    for (let row = 0; row < n; row++) {
      let sum = b[row];
      for (let column = 0; column < row; column++) sum -= A[column * n + row] * b[column];
      b[row] = sum / A[row * n + row];
    }
    for (let row = n - 2; row >= 0; row--) {
      let sum = b[row];
      for (let column = row + 1; column < n; column++) sum -= A[column * n + row] * b[column];
      b[row] = sum;
    }
    for (let k = n - 1; k >= 0; k--) {
      const from = pivots[k];
      if (from !== k) {
        const swap = b[k];
        b[k] = b[from];
        b[from] = swap;
      }
    }
  }

  private swapRows(a: number, b: number): void {
    const { n, factors: A } = this;
    for (let column = 0; column < n; column++) {
      const swap = A[a * n + column];
      A[a * n + column] = A[b * n + column];
      A[b * n + column] = swap;
    }
    this.sign = -this.sign;
  }
}
