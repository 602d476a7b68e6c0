import { describe, expect, it } from 'vitest';
import { segmentDistance } from '../../src/math/capsule.ts';
import { type Random, seededRandom, uniform } from '../../src/math/random.ts';

/** Smallest value of a convex function on [0, 1] by golden section, to the last bits that values allow. */
function minimise(f: (x: number) => number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [0, 1];
  let [a, b] = [high - ratio * (high - low), low + ratio * (high - low)];
  let [fa, fb] = [f(a), f(b)];
  for (let n = 0; n < 60; n++) {
    if (fa < fb) {
      high = b;
      [b, fb] = [a, fa];
      a = high - ratio * (high - low);
      fa = f(a);
    } else {
      low = a;
      [a, fa] = [b, fb];
      b = low + ratio * (high - low);
      fb = f(b);
    }
  }
  return Math.min(fa, fb, f(0), f(1));
}

/** Brute force: the inner minimum over one segment as a function of the place on the other. */
function bruteDistance(P: Float64Array, Q: Float64Array): number {
  const point = (S: Float64Array, s: number) => [0, 1, 2].map((axis) => S[axis] + s * (S[3 + axis] - S[axis]));
  return Math.sqrt(
    minimise((s) => {
      const p = point(P, s);
      return minimise((t) => point(Q, t).reduce((sum, entry, axis) => sum + (entry - p[axis]) ** 2, 0));
    }),
  );
}

const segment = (random: Random) => Float64Array.from({ length: 6 }, () => uniform(random, -1, 1));

describe('distance of two segments', () => {
  it('is what brute-force minimisation finds, for 400 random pairs (seed 81)', () => {
    const random = seededRandom(81);
    for (let n = 0; n < 400; n++) {
      const [P, Q] = [segment(random), segment(random)];
      expect(Math.abs(segmentDistance(P, 0, Q, 0) - bruteDistance(P, Q))).toBeLessThan(1e-7);
    }
  });

  it('holds for parallel, nearly parallel, crossing, touching and point-like segments (seed 82)', () => {
    const random = seededRandom(82);
    for (let n = 0; n < 300; n++) {
      const P = segment(random);
      const Q = Float64Array.from(P);
      const tilt = [0, 1e-14, 1e-11, 1e-8, 1e-5][n % 5];
      const shift = [uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)];
      for (let axis = 0; axis < 3; axis++) {
        Q[axis] += shift[axis];
        Q[3 + axis] += shift[axis] + tilt * uniform(random, -1, 1);
      }
      if (n % 7 === 0) Q.set(Q.subarray(0, 3), 3);
      if (n % 11 === 0) P.set(P.subarray(0, 3), 3);
      expect(Math.abs(segmentDistance(P, 0, Q, 0) - bruteDistance(P, Q))).toBeLessThan(1e-7);
    }
    const across = Float64Array.of(-1, 0, 0, 1, 0, 0);
    expect(segmentDistance(across, 0, Float64Array.of(0.3, -1, 0, 0.3, 2, 0), 0)).toBe(0);
    expect(segmentDistance(across, 0, Float64Array.of(0.3, -1, 0.25, 0.3, 2, 0.25), 0)).toBe(0.25);
    // ends 3 and 4 apart: a right triangle
    expect(segmentDistance(across, 0, Float64Array.of(4, 4, 0, 9, 9, 0), 0)).toBeCloseTo(5, 15);
  });

  it('gives the closest points, reads at offsets and does not care about order (seed 83)', () => {
    const random = seededRandom(83);
    for (let n = 0; n < 100; n++) {
      const both = Float64Array.of(...segment(random), ...segment(random));
      const closest = new Float64Array(6);
      const distance = segmentDistance(both, 0, both, 6, closest);
      const gap = Math.hypot(closest[0] - closest[3], closest[1] - closest[4], closest[2] - closest[5]);
      expect(gap).toBeCloseTo(distance, 14);
      expect(segmentDistance(both, 6, both, 0)).toBeCloseTo(distance, 14);
    }
  });

  for (const size of [1e-3, 1, 1e3])
    it(`scales (x${size})`, () => {
      const random = seededRandom(84);
      for (let n = 0; n < 50; n++) {
        const [P, Q] = [segment(random), segment(random)];
        const scaled = (S: Float64Array) => S.map((entry) => entry * size);
        const ratio = segmentDistance(scaled(P), 0, scaled(Q), 0) / size / segmentDistance(P, 0, Q, 0);
        expect(ratio).toBeCloseTo(1, 11);
      }
    });
});
