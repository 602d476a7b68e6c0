import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { ComplexLu } from '../../src/math/complex-linear.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';

/** Referee: the real system of twice the size, [[A, -B], [B, A]] [x; y] = [c; d], by ml-matrix. */
function solveAsReal(n: number, re: Float64Array, im: Float64Array, right: number[]): number[] {
  const big = new Matrix(2 * n, 2 * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      big.set(i, j, re[n * i + j]);
      big.set(i, n + j, -im[n * i + j]);
      big.set(n + i, j, im[n * i + j]);
      big.set(n + i, n + j, re[n * i + j]);
    }
  }
  return solve(big, Matrix.columnVector(right)).to1DArray();
}

describe('complex LU', () => {
  it.each([1, 2, 5, 8])('solves random %d x %d systems as a real solver does', (n) => {
    const random = seededRandom(80 + n);
    for (let round = 0; round < 20; round++) {
      const lu = new ComplexLu(n);
      for (let i = 0; i < n * n; i++) {
        lu.re[i] = uniform(random, -1, 1);
        lu.im[i] = uniform(random, -1, 1);
      }
      // a zero in the corner forces a row exchange
      if (n > 1) lu.re[0] = lu.im[0] = 0;
      const right = Array.from({ length: 2 * n }, () => uniform(random, -1, 1));
      const expected = solveAsReal(n, lu.re.slice(), lu.im.slice(), right);
      const re = Float64Array.from(right.slice(0, n));
      const im = Float64Array.from(right.slice(n));
      expect(lu.factor()).toBe(true);
      lu.solve(re, im);
      const scale = Math.max(...expected.map(Math.abs));
      expected.forEach((value, i) => {
        expect(Math.abs((i < n ? re[i] : im[i - n]) - value), `seed ${80 + n}`).toBeLessThan(1e-10 * scale);
      });
    }
  });

  it('says when a matrix is singular or not a number', () => {
    const lu = new ComplexLu(2);
    lu.re.set([1, 2, 2, 4]);
    expect(lu.factor()).toBe(false);
    lu.re.set([Number.NaN, 2, 2, 4]);
    expect(lu.factor()).toBe(false);
  });
});
