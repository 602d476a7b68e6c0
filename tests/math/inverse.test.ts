import { determinant, inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { invertInPlace } from '../../src/math/inverse.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';

describe('inverse in place', () => {
  it('is that of a general library, determinant included, for 300 random matrices (seed 41)', () => {
    const random = seededRandom(41);
    for (let n = 0; n < 300; n++) {
      const size = 1 + (n % 12);
      const A = Float64Array.from({ length: size * size }, () => uniform(random, -1, 1));
      const M = Matrix.from1DArray(size, size, Array.from(A));
      const expected = inverse(M).to1DArray();
      const largest = Math.max(...expected.map(Math.abs));
      const det = invertInPlace(size, A);
      expect(det / determinant(M)).toBeCloseTo(1, 9);
      A.forEach((entry, k) => expect(Math.abs(entry - expected[k])).toBeLessThan(1e-10 * largest * largest));
    }
  });

  it('needs its row swaps: a matrix with zeros on the diagonal', () => {
    const A = Float64Array.of(0, 2, 0, 0, 0, 3, 4, 0, 0);
    expect(invertInPlace(3, A)).toBe(24);
    expect(Array.from(A)).toEqual([0, 0, 0.25, 0.5, 0, 0, 0, 1 / 3, 0]);
  });

  it('says 0 when there is none', () => {
    expect(invertInPlace(2, Float64Array.of(1, 2, 2, 4))).toBe(0);
    expect(invertInPlace(2, Float64Array.of(0, 0, 0, 0))).toBe(0);
    expect(invertInPlace(2, Float64Array.of(Number.NaN, 0, 0, 1))).toBe(0);
  });
});
