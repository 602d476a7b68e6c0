import { determinant, EigenvalueDecomposition, Matrix, SingularValueDecomposition, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { dualBuffer, largestOfDual } from '../../src/math/dual-column.ts';
import { Lu } from '../../src/math/lu.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { svd } from '../../src/math/svd.ts';

const SEED = 6;
const N = 6;
const SCALES = [1e-3, 1, 1e3];

const randomMatrix = (random: () => number, scale: number): Float64Array =>
  Float64Array.from({ length: N * N }, () => uniform(random, -scale, scale));

const asMatrix = (flat: Float64Array): Matrix => Matrix.from1DArray(N, N, Array.from(flat));

const largest = (values: Iterable<number>): number => Math.max(...Array.from(values, Math.abs));

// Referee: ml-matrix, a general-purpose library.
describe.each(SCALES)(`6x6 matrices with entries up to %d against ml-matrix (seed ${SEED})`, (scale) => {
  it('singular values, and the factors give the matrix back', () => {
    const random = seededRandom(SEED);
    for (let i = 0; i < 200; i++) {
      const flat = randomMatrix(random, scale);
      const { values, U, V } = svd(flat, N);
      const theirs = new SingularValueDecomposition(asMatrix(flat)).diagonal;
      // Singular values are perfectly conditioned: both libraries stay within rounding errors of the largest.
      expect(largest(theirs.map((value, k) => value - values[k]))).toBeLessThan(1e-14 * theirs[0] * N);

      const product = asMatrix(U)
        .mmul(Matrix.diag(Array.from(values)))
        .mmul(asMatrix(V).transpose());
      expect(largest(Matrix.sub(product, asMatrix(flat)).to1DArray())).toBeLessThan(1e-14 * theirs[0] * N);
      const gram = asMatrix(V).transpose().mmul(asMatrix(V));
      expect(largest(Matrix.sub(gram, Matrix.eye(N)).to1DArray())).toBeLessThan(1e-14 * N);
    }
  });

  it('squares of the singular values are the eigenvalues of M^T M', () => {
    const random = seededRandom(SEED + 1);
    for (let i = 0; i < 50; i++) {
      const M = asMatrix(randomMatrix(random, scale));
      const { values } = svd(M.to1DArray(), N);
      const eigenvalues = new EigenvalueDecomposition(M.transpose().mmul(M), { assumeSymmetric: true }).realEigenvalues;
      const descending = Array.from(eigenvalues).sort((a, b) => b - a);
      expect(largest(descending.map((value, k) => value - values[k] ** 2))).toBeLessThan(1e-13 * descending[0]);
    }
  });

  it('determinant and both solves', () => {
    const random = seededRandom(SEED + 2);
    const lu = new Lu(N);
    for (let i = 0; i < 200; i++) {
      const flat = randomMatrix(random, scale);
      const M = asMatrix(flat);
      const b = Float64Array.from({ length: N }, () => uniform(random, -1, 1));
      expect(lu.factor(flat)).toBe(true);
      expect(Math.abs(lu.determinant() - determinant(M))).toBeLessThan(1e-12 * scale ** N);

      const { values } = svd(flat, N);
      const tolerance = (x: ArrayLike<number>) => 1e-14 * N * (values[0] / values[N - 1]) * largest(Array.from(x));
      const x = Float64Array.from(b);
      lu.solve(x);
      const expected = solve(M, Matrix.columnVector(Array.from(b))).to1DArray();
      expect(largest(expected.map((value, k) => value - x[k]))).toBeLessThan(tolerance(expected));

      const y = Float64Array.from(b);
      lu.solveTransposed(y);
      const expectedTransposed = solve(M.transpose(), Matrix.columnVector(Array.from(b))).to1DArray();
      expect(largest(expectedTransposed.map((value, k) => value - y[k]))).toBeLessThan(tolerance(expectedTransposed));
    }
  });
});

describe('dual of a column against ml-matrix', () => {
  it(`solves J^T f = e_k for every k (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    const work = dualBuffer();
    for (let i = 0; i < 100; i++) {
      const flat = randomMatrix(random, 10 ** uniform(random, -3, 3));
      const { values } = svd(flat, N);
      const identity = Matrix.eye(N);
      for (let k = 0; k < N; k++) {
        const theirs = solve(asMatrix(flat).transpose(), identity.getColumnVector(k)).to1DArray();
        const ours = largestOfDual(flat, k, work);
        // both lose what the condition takes
        const rounding = 1e-14 * (values[0] / values[N - 1]);
        expect(Math.abs(ours / largest(theirs) - 1)).toBeLessThan(rounding);
        const found = work.subarray(N * (N - 1));
        expect(largest(theirs.map((value, row) => value - found[row]))).toBeLessThan(rounding * ours);
      }
    }
  });

  it('has no bound where the column is made of the others', () => {
    const flat = new Float64Array(N * N);
    for (let row = 0; row < N; row++) flat[N * row + row] = row === 2 ? 0 : 1;
    expect(largestOfDual(flat, 2, dualBuffer())).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('matrices without full rank', () => {
  it('a zero column is a zero pivot, a zero determinant and a zero singular value', () => {
    const flat = randomMatrix(seededRandom(SEED + 3), 1);
    for (let row = 0; row < N; row++) flat[row * N + 2] = 0;
    const lu = new Lu(N);
    expect(lu.factor(flat)).toBe(false);
    expect(Math.abs(lu.determinant())).toBe(0);
    expect(svd(flat, N).values[N - 1]).toBe(0);
  });

  it('a repeated row leaves a smallest singular value of rounding size only', () => {
    const flat = randomMatrix(seededRandom(SEED + 4), 1);
    flat.copyWithin(5 * N, 0, N);
    const { values } = svd(flat, N);
    expect(values[N - 1]).toBeLessThan(1e-15 * values[0] * N);
    expect(values[N - 2]).toBeGreaterThan(1e-3 * values[0]);
  });

  it('the smallest singular value is right to all digits, however small', () => {
    // Columns of an orthogonal matrix times 1, 1e-3, ..., 1e-15: their lengths are the singular values (closed form).
    const { U } = svd(randomMatrix(seededRandom(SEED + 5), 1), N);
    const lengths = [1, 1e-3, 1e-6, 1e-9, 1e-12, 1e-15];
    const scaled = U.map((entry, index) => entry * lengths[index % N]);
    const { values } = svd(scaled, N);
    for (let k = 0; k < N; k++) expect(values[k] / lengths[k]).toBeCloseTo(1, 13);
  });
});
