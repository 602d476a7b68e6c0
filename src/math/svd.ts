/**
 * Singular value decomposition of a small square matrix by one-sided Jacobi rotations: slow for large
 * matrices, but accurate to the last bits for the smallest singular value, which is the one that decides
 * whether a platform can hold itself still.
 */
export interface Svd {
  readonly size: number;
  /** Descending, length n. */
  readonly values: Float64Array;
  /** Left vectors as columns, row-major n x n. Columns of vanishing values are zero. */
  readonly U: Float64Array;
  /** Right vectors as columns, row-major n x n. */
  readonly V: Float64Array;
}

/** Columns are taken as orthogonal below this cosine: a few rounding errors of a double. */
const ORTHOGONAL_COSINE = 4 * Number.EPSILON;

/** Sweeps over all column pairs; 6x6 converges in 4 to 8, the limit only stops a non-finite input. */
const SWEEP_LIMIT = 40;

/**
 * M = U diag(values) V^T.
 * @param matrix row-major n x n, finite
 * @param n size
 */
export function svd(matrix: ArrayLike<number>, n: number): Svd {
  const W = Float64Array.from(matrix);
  const V = new Float64Array(n * n);
  for (let i = 0; i < n; i++) V[i * n + i] = 1;
  for (let sweep = 0; sweep < SWEEP_LIMIT && rotateAllPairs(W, V, n); sweep++);
  return sortedFactors(W, V, n);
}

/** One sweep; says whether any pair still needed turning. */
function rotateAllPairs(W: Float64Array, V: Float64Array, n: number): boolean {
  let turned = false;
  for (let p = 0; p < n - 1; p++) {
    for (let q = p + 1; q < n; q++) {
      let pp = 0;
      let qq = 0;
      let pq = 0;
      for (let row = 0; row < n * n; row += n) {
        pp += W[row + p] * W[row + p];
        qq += W[row + q] * W[row + q];
        pq += W[row + p] * W[row + q];
      }
      if (Math.abs(pq) <= ORTHOGONAL_COSINE * Math.sqrt(pp * qq)) continue;
      turned = true;
      const zeta = (qq - pp) / (2 * pq);
      const t = Math.sign(zeta || 1) / (Math.abs(zeta) + Math.sqrt(1 + zeta * zeta));
      const c = 1 / Math.sqrt(1 + t * t);
      const s = c * t;
      turnColumns(W, n, p, q, c, s);
      turnColumns(V, n, p, q, c, s);
    }
  }
  return turned;
}

function turnColumns(M: Float64Array, n: number, p: number, q: number, c: number, s: number): void {
  for (let row = 0; row < n * n; row += n) {
    const a = M[row + p];
    const b = M[row + q];
    M[row + p] = c * a - s * b;
    M[row + q] = s * a + c * b;
  }
}

function sortedFactors(W: Float64Array, V: Float64Array, n: number): Svd {
  const norms = new Float64Array(n);
  for (let column = 0; column < n; column++) {
    let sum = 0;
    for (let row = 0; row < n; row++) sum += W[row * n + column] ** 2;
    norms[column] = Math.sqrt(sum);
  }
  const order = Array.from(norms.keys()).sort((a, b) => norms[b] - norms[a]);
  const values = Float64Array.from(order, (column) => norms[column]);
  const U = new Float64Array(n * n);
  const sortedV = new Float64Array(n * n);
  order.forEach((from, to) => {
    for (let row = 0; row < n; row++) {
      U[row * n + to] = norms[from] > 0 ? W[row * n + from] / norms[from] : 0;
      sortedV[row * n + to] = V[row * n + from];
    }
  });
  return { size: n, values, U, V: sortedV };
}
