/**
 * LU factors with partial pivoting of a small square complex matrix, made in place and reused without allocation.
 * Golub and Van Loan, Matrix Computations, algorithm 3.4.1, with complex entries held as two real arrays.
 *
 * The caller writes the matrix (row-major) into `re` and `im`, calls {@link factor}, then {@link solve} as often as
 * it likes. The matrix is overwritten by its factors.
 */
export class ComplexLu {
  readonly n: number;
  readonly re: Float64Array;
  readonly im: Float64Array;
  private readonly pivots: Int32Array;
  /** Reciprocals of the diagonal of U. */
  private readonly inverseRe: Float64Array;
  private readonly inverseIm: Float64Array;

  constructor(n: number) {
    this.n = n;
    this.re = new Float64Array(n * n);
    this.im = new Float64Array(n * n);
    this.pivots = new Int32Array(n);
    this.inverseRe = new Float64Array(n);
    this.inverseIm = new Float64Array(n);
  }

  /** Factors the matrix in `re` and `im`; false when a pivot is exactly zero or not a number. */
  factor(): boolean {
    const { n, re, im } = this;
    for (let k = 0; k < n; k++) {
      const pivot = this.pivotRow(k);
      this.pivots[k] = pivot;
      if (pivot !== k) this.swapRows(k, pivot);
      const dr = re[k * n + k];
      const di = im[k * n + k];
      const size = dr * dr + di * di;
      if (!(size > 0)) return false;
      const vr = dr / size;
      const vi = -di / size;
      this.inverseRe[k] = vr;
      this.inverseIm[k] = vi;
      for (let row = k + 1; row < n; row++) this.eliminate(row * n, k * n, k, vr, vi);
    }
    return true;
  }

  /** Solves M x = b in place: `b` becomes x. */
  solve(bRe: Float64Array, bIm: Float64Array): void {
    const { n, re, im, pivots, inverseRe, inverseIm } = this;
    for (let k = 0; k < n; k++) {
      const from = pivots[k];
      if (from === k) continue;
      const swapRe = bRe[k];
      const swapIm = bIm[k];
      bRe[k] = bRe[from];
      bIm[k] = bIm[from];
      bRe[from] = swapRe;
      bIm[from] = swapIm;
    }
    for (let row = 1; row < n; row++) {
      let sumRe = bRe[row];
      let sumIm = bIm[row];
      const start = row * n;
      for (let column = 0; column < row; column++) {
        const ar = re[start + column];
        const ai = im[start + column];
        sumRe -= ar * bRe[column] - ai * bIm[column];
        sumIm -= ar * bIm[column] + ai * bRe[column];
      }
      bRe[row] = sumRe;
      bIm[row] = sumIm;
    }
    for (let row = n - 1; row >= 0; row--) {
      let sumRe = bRe[row];
      let sumIm = bIm[row];
      const start = row * n;
      for (let column = row + 1; column < n; column++) {
        const ar = re[start + column];
        const ai = im[start + column];
        sumRe -= ar * bRe[column] - ai * bIm[column];
        sumIm -= ar * bIm[column] + ai * bRe[column];
      }
      bRe[row] = sumRe * inverseRe[row] - sumIm * inverseIm[row];
      bIm[row] = sumRe * inverseIm[row] + sumIm * inverseRe[row];
    }
  }

  /** Row at or below k whose entry in column k is largest by |re| + |im|. */
  private pivotRow(k: number): number {
    const { n, re, im } = this;
    let pivot = k;
    let largest = Math.abs(re[k * n + k]) + Math.abs(im[k * n + k]);
    for (let row = k + 1; row < n; row++) {
      const size = Math.abs(re[row * n + k]) + Math.abs(im[row * n + k]);
      if (size > largest) {
        largest = size;
        pivot = row;
      }
    }
    return pivot;
  }

  /** Subtracts the multiple of the pivot row that clears column k; the multiplier stays in its place. */
  private eliminate(row: number, pivotRow: number, k: number, vr: number, vi: number): void {
    const { n, re, im } = this;
    const ar = re[row + k];
    const ai = im[row + k];
    const fr = ar * vr - ai * vi;
    const fi = ar * vi + ai * vr;
    re[row + k] = fr;
    im[row + k] = fi;
    for (let column = k + 1; column < n; column++) {
      const pr = re[pivotRow + column];
      const pi = im[pivotRow + column];
      re[row + column] -= fr * pr - fi * pi;
      im[row + column] -= fr * pi + fi * pr;
    }
  }

  private swapRows(a: number, b: number): void {
    const { n, re, im } = this;
    for (let column = 0; column < n; column++) {
      const swapRe = re[a * n + column];
      const swapIm = im[a * n + column];
      re[a * n + column] = re[b * n + column];
      im[a * n + column] = im[b * n + column];
      re[b * n + column] = swapRe;
      im[b * n + column] = swapIm;
    }
  }
}
