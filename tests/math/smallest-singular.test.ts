import { Matrix, SVD } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/math/random.ts';
import { SmallestSingular } from '../../src/math/smallest-singular.ts';

const SEED = 66;
const smallest = new SmallestSingular();

/** Referee: ml-matrix. */
const referee = (J: Float64Array): number =>
  new SVD(new Matrix(Array.from({ length: 6 }, (_, row) => Array.from(J.subarray(6 * row, 6 * row + 6))))).diagonal[5];

describe('smallest singular value', () => {
  it(`agrees with ml-matrix on random matrices (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    for (let n = 0; n < 500; n++) {
      const J = Float64Array.from({ length: 36 }, () => random() - 0.5);
      expect(Math.abs(smallest.of(J) - referee(J))).toBeLessThan(1e-10 * referee(J) + 1e-15);
      const rows = Array.from({ length: 6 }, (_, row) => Array.from(J.subarray(6 * row, 6 * row + 6)));
      expect(smallest.largestOfLast()).toBeCloseTo(new SVD(new Matrix(rows)).diagonal[0], 10);
    }
  });

  it(`keeps its relative accuracy down to nearly singular matrices (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    for (let power = 1; power <= 9; power++) {
      const J = Float64Array.from({ length: 36 }, () => random() - 0.5);
      // make the last row nearly a mix of the others
      for (let k = 0; k < 6; k++) J[30 + k] = J[k] - 2 * J[6 + k] + 10 ** -power * J[30 + k];
      // a few rounding errors of the largest value are all that a double can promise
      expect(Math.abs(smallest.of(J) - referee(J))).toBeLessThan(1e-10 * referee(J) + 1e-15);
    }
  });

  it('is exact for diagonal, repeated and zero values', () => {
    const diagonal = (values: readonly number[]) =>
      Float64Array.from({ length: 36 }, (_, n) => (n % 7 === 0 ? values[n / 7] : 0));
    expect(smallest.of(diagonal([3, 1, 4, 1, 5, 9]))).toBeCloseTo(1, 12);
    expect(smallest.of(diagonal([2, 2, 2, 2, 2, 2]))).toBeCloseTo(2, 12);
    expect(smallest.of(diagonal([3, 1, 0, 1, 5, 9]))).toBe(0);
    expect(smallest.of(new Float64Array(36))).toBe(0);
  });

  it.each([1e-6, 1, 1e6])('scales (factor %d)', (factor) => {
    const random = seededRandom(SEED);
    const J = Float64Array.from({ length: 36 }, () => random() - 0.5);
    expect(smallest.of(J.map((entry) => factor * entry)) / factor).toBeCloseTo(smallest.of(J), 10);
  });
});
