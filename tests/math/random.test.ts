import { describe, expect, it } from 'vitest';
import { randomQuaternion, seededRandom, uniform } from '../../src/math/random.ts';

const draw = (seed: number, count: number): number[] => {
  const random = seededRandom(seed);
  return Array.from({ length: count }, random);
};

describe('the seeded generator', () => {
  it('repeats itself for a seed and differs for another', () => {
    expect(draw(1, 100)).toEqual(draw(1, 100));
    expect(draw(1, 100)).not.toEqual(draw(2, 100));
  });

  it('stays in [0, 1) and fills it evenly (seed 3)', () => {
    const bins = new Float64Array(64);
    const count = 64_000;
    for (const value of draw(3, count)) {
      expect(value >= 0 && value < 1).toBe(true);
      bins[Math.floor(value * bins.length)]++;
    }
    const mean = count / bins.length;
    const chiSquare = bins.reduce((sum, bin) => sum + (bin - mean) ** 2 / mean, 0);
    // 63 degrees of freedom: mean 63, standard deviation sqrt(126) = 11.2; five of them on either side.
    expect(Math.abs(chiSquare - 63)).toBeLessThan(5 * Math.sqrt(126));
  });

  it('successive numbers do not hang together (seed 4)', () => {
    const values = draw(4, 20_001);
    const products = values.slice(1).map((value, i) => (value - 0.5) * (values[i] - 0.5));
    const correlation = (12 * products.reduce((sum, product) => sum + product, 0)) / products.length;
    // Independent: mean 0, standard deviation 1 / sqrt(count).
    expect(Math.abs(correlation)).toBeLessThan(5 / Math.sqrt(products.length));
  });

  it('uniform keeps to its range', () => {
    const random = seededRandom(5);
    for (let i = 0; i < 1000; i++) {
      const value = uniform(random, -3, 7);
      expect(value >= -3 && value < 7).toBe(true);
    }
  });
});

describe('random rotations (seed 6)', () => {
  it('are unit quaternions whose rotation angle follows (1 - cos a) / pi', () => {
    const random = seededRandom(6);
    const count = 20_000;
    let sum = 0;
    for (let i = 0; i < count; i++) {
      const [w, x, y, z] = randomQuaternion(random);
      expect(Math.hypot(w, x, y, z)).toBeCloseTo(1, 14);
      sum += 2 * Math.acos(Math.min(1, Math.abs(w)));
    }
    // Mean of that density over 0..pi: pi/2 + 2/pi (integrated by parts); its standard deviation is 0.65.
    expect(Math.abs(sum / count - (Math.PI / 2 + 2 / Math.PI))).toBeLessThan((5 * 0.65) / Math.sqrt(count));
  });
});
