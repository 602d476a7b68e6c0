/**
 * Inverse of a small square matrix by Gauss-Jordan elimination with partial pivoting, without allocation.
 * Golub and Van Loan, Matrix Computations, section 3.4 (pivoting); the inverse itself is wanted here, since every entry
 * of it is shown or bounded.
 *
 * @param n size
 * @param matrix row-major n x n; destroyed
 * @param inverse row-major n x n; receives the inverse
 * @returns false when a pivot is zero or not a number; `inverse` then is meaningless
 */
export function invertInto(n: number, matrix: Float64Array, inverse: Float64Array): boolean {
  inverse.fill(0);
  for (let i = 0; i < n; i++) inverse[i * n + i] = 1;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let row = k + 1; row < n; row++) {
      if (Math.abs(matrix[row * n + k]) > Math.abs(matrix[pivot * n + k])) pivot = row;
    }
    if (pivot !== k) {
      swapRows(matrix, n, k, pivot);
      swapRows(inverse, n, k, pivot);
    }
    const diagonal = matrix[k * n + k];
    if (!(diagonal !== 0)) return false;
    const factor = 1 / diagonal;
    if (!Number.isFinite(factor)) return false;
    for (let column = 0; column < n; column++) {
      matrix[k * n + column] *= factor;
      inverse[k * n + column] *= factor;
    }
    for (let row = 0; row < n; row++) {
      if (row === k) continue;
      const multiple = matrix[row * n + k];
      if (multiple === 0) continue;
      for (let column = 0; column < n; column++) {
        matrix[row * n + column] -= multiple * matrix[k * n + column];
        inverse[row * n + column] -= multiple * inverse[k * n + column];
      }
    }
  }
  return true;
}

function swapRows(M: Float64Array, n: number, a: number, b: number): void {
  for (let column = 0; column < n; column++) {
    const swap = M[a * n + column];
    M[a * n + column] = M[b * n + column];
    M[b * n + column] = swap;
  }
}
