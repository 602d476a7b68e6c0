const N = 6;

/** Workspace: the columns one after the other. */
export const dualBuffer = (): Float64Array => new Float64Array(N * N);

/**
 * The vector f with J^T f = e_k, e_k the k-th unit vector: what is left of column k of J once the other columns are taken out of it,
 * divided by its own square. By modified Gram-Schmidt, which loses of f's relative accuracy what the condition of J takes, as
 * solving does (Golub and Van Loan, Matrix Computations, section 5.2.8: from memory), at a third of the cost.
 *
 * @param J row-major 6x6
 * @param k 0 to 5
 * @param work from {@link dualBuffer}; its last six numbers hold f afterwards
 * @returns the largest absolute entry of f; infinite when column k depends on the others exactly
 */
export function largestOfDual(J: Float64Array, k: number, work: Float64Array): number {
  // column k comes last
  for (let column = 0, from = k; column < N; column++) {
    from = from === N - 1 ? 0 : from + 1;
    const at = N * column;
    work[at] = J[from];
    work[at + 1] = J[from + 6];
    work[at + 2] = J[from + 12];
    work[at + 3] = J[from + 18];
    work[at + 4] = J[from + 24];
    work[at + 5] = J[from + 30];
  }
  for (let column = 0; column < N - 1; column++) {
    const at = N * column;
    const c0 = work[at];
    const c1 = work[at + 1];
    const c2 = work[at + 2];
    const c3 = work[at + 3];
    const c4 = work[at + 4];
    const c5 = work[at + 5];
    const square = c0 * c0 + c1 * c1 + c2 * c2 + c3 * c3 + c4 * c4 + c5 * c5;
    if (square === 0) continue;
    const inverse = 1 / square;
    for (let i = at + N; i < N * N; i += N) {
      const share =
        inverse *
        (c0 * work[i] + c1 * work[i + 1] + c2 * work[i + 2] + c3 * work[i + 3] + c4 * work[i + 4] + c5 * work[i + 5]);
      work[i] -= share * c0;
      work[i + 1] -= share * c1;
      work[i + 2] -= share * c2;
      work[i + 3] -= share * c3;
      work[i + 4] -= share * c4;
      work[i + 5] -= share * c5;
    }
  }
  const last = N * (N - 1);
  let square = 0;
  for (let i = last; i < N * N; i++) square += work[i] * work[i];
  let largest = 0;
  for (let i = last; i < N * N; i++) {
    work[i] /= square;
    largest = Math.max(largest, Math.abs(work[i]));
  }
  return square > 0 ? largest : Number.POSITIVE_INFINITY;
}
