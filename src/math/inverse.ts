/** Largest size {@link invertInPlace} is asked for; the record of row swaps is this long. */
const SIZE_LIMIT = 12;

const swapped = new Int32Array(SIZE_LIMIT);

/**
 * Inverse of a small square matrix in its own place, by Gauss-Jordan elimination with partial pivoting, without allocation.
 * Golub and Van Loan, Matrix Computations, section 3.4 (pivoting); the inverse itself is wanted here, since every entry
 * of it is shown or bounded.
 *
 * @param n size, at most 12
 * @param A row-major n x n; becomes its inverse
 * @returns the determinant of what A was; 0 when there is no inverse, and A then is meaningless
 */
export function invertInPlace(n: number, A: Float64Array): number {
  let determinant = 1;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let row = k + 1; row < n; row++) {
      if (Math.abs(A[row * n + k]) > Math.abs(A[pivot * n + k])) pivot = row;
    }
    swapped[k] = pivot;
    if (pivot !== k) {
      determinant = -determinant;
      for (let column = 0; column < n; column++) {
        const swap = A[k * n + column];
        A[k * n + column] = A[pivot * n + column];
        A[pivot * n + column] = swap;
      }
    }
    const diagonal = A[k * n + k];
    const factor = 1 / diagonal;
    if (!Number.isFinite(factor)) return 0;
    determinant *= diagonal;
    A[k * n + k] = 1;
    for (let column = 0; column < n; column++) A[k * n + column] *= factor;
    for (let row = 0; row < n; row++) {
      if (row === k) continue;
      const multiple = A[row * n + k];
      A[row * n + k] = 0;
      for (let column = 0; column < n; column++) A[row * n + column] -= multiple * A[k * n + column];
    }
  }
  // undo the row swaps as column swaps, last first
  for (let k = n - 1; k >= 0; k--) {
    const from = swapped[k];
    if (from === k) continue;
    for (let row = 0; row < n; row++) {
      const swap = A[row * n + k];
      A[row * n + k] = A[row * n + from];
      A[row * n + from] = swap;
    }
  }
  return determinant;
}
