import { describe, expect, it } from 'vitest';
import { type FastestLaw, fastestLaw, PlayedLaw, type WayLimits } from '../../src/motion/fastest/fastest.ts';

/** Limits of coordinates q(s) with |q'_i s'| <= v and |q'_i a + q''_i b| <= A, as anyone would write them. */
function limitsOf(
  way: Float64Array,
  slope: (s: number) => readonly number[],
  curve: (s: number) => readonly number[],
  speed: number | readonly number[],
  acceleration: number | readonly number[],
): readonly WayLimits[] {
  const of = (limit: number | readonly number[], n: number) => (typeof limit === 'number' ? limit : limit[n]);
  return Array.from(way, (s) => {
    const [d, dd] = [slope(s), curve(s)];
    return {
      most: Math.min(...d.map((entry, n) => (of(speed, n) / entry) ** 2)),
      rows: Float64Array.from(
        d.flatMap((entry, n) => [entry, dd[n], of(acceleration, n), -entry, -dd[n], of(acceleration, n)]),
      ),
    };
  });
}

const grid = (count: number, from: number, to: number) =>
  Float64Array.from({ length: count + 1 }, (_, n) => from + ((to - from) * n) / count);

function solved(way: Float64Array, limits: readonly WayLimits[]): FastestLaw {
  const law = fastestLaw(way, limits);
  if (!law.ok) throw new Error(`stuck at ${law.fault.at}`);
  return law.value;
}

describe('fastest law along a way', () => {
  it('of a straight way within (1, 1.2) and (2, 3) is a trapezoid of 2.0667 s (closed form)', () => {
    // q = (s, 2 s): v = 0.6, a = 1.5 on a way of 1
    const times = [100, 400].map((count) => {
      const way = grid(count, 0, 1);
      return solved(
        way,
        limitsOf(
          way,
          () => [1, 2],
          () => [0, 0],
          [1, 1.2],
          [2, 3],
        ),
      ).duration;
    });
    // exact where a grid point lies at the end of each ramp, v^2 / 2 a = 0.12
    for (const duration of times) expect(Math.abs(duration - 2.066666666666667)).toBeLessThan(1e-9);
  });

  it('round a circle with |q"| <= 1 takes some 7.1431 s (linear programs of scipy, HiGHS, computed beforehand)', () => {
    const way = grid(1600, 0, 2 * Math.PI);
    const law = solved(
      way,
      limitsOf(
        way,
        (s) => [-Math.sin(s), Math.cos(s)],
        (s) => [-Math.cos(s), -Math.sin(s)],
        Number.POSITIVE_INFINITY,
        1,
      ),
    );
    expect(Math.abs(law.duration - 7.1431)).toBeLessThan(2e-3);
    expect(law.squares[400]).toBeCloseTo(1, 3);
  });

  it('of a leg that is heaved is the trapezoid of its length, and never too fast (closed form)', () => {
    // rho 100, h 150 to 200: l = sqrt(rho^2 + h^2)
    const length = (h: number) => Math.hypot(100, h);
    const errors = [200, 1600].map((count) => {
      const way = grid(count, 150, 200);
      const limits = limitsOf(
        way,
        (h) => [h / length(h)],
        (h) => [100 ** 2 / length(h) ** 3],
        50,
        200,
      );
      return solved(way, limits).duration - 1.11658467953559;
    });
    for (const error of errors) expect(error).toBeGreaterThan(-1e-5);
    expect(Math.abs(errors[0])).toBeLessThan(1e-3);
    expect(Math.abs(errors[1])).toBeLessThan(1e-4);
  });

  it('is followed in time as it says (inverse pair)', () => {
    const way = grid(300, 0, 1);
    const law = solved(
      way,
      limitsOf(
        way,
        () => [1],
        () => [0],
        0.7,
        2,
      ),
    );
    const played = new PlayedLaw(law);
    expect(played.at(0).at).toBe(0);
    expect(played.at(law.duration).at).toBeCloseTo(1, 9);
    for (let n = 0; n < way.length; n += 17) {
      const state = played.at(law.times[n]);
      expect(state.at).toBeCloseTo(way[n], 9);
      expect(state.speed).toBeCloseTo(Math.sqrt(law.squares[n]), 9);
    }
  });

  it('adds its way up over time (midpoint sums)', () => {
    const way = grid(100, 0, 1);
    const played = new PlayedLaw(
      solved(
        way,
        limitsOf(
          way,
          () => [1],
          () => [0],
          0.7,
          2,
        ),
      ),
    );
    let sum = 0;
    const count = 20_000;
    for (let n = 0; n < count; n++)
      sum += (played.at(((n + 0.5) * played.duration) / count).at * played.duration) / count;
    expect(played.sum(played.duration)).toBeCloseTo(sum, 7);
  });

  it('does not exist where a force alone at rest is too much, and says where', () => {
    const way = grid(10, 0, 1);
    const limits = Array.from(way, (s) => ({ most: 1, rows: Float64Array.of(1, 0, s < 0.45 ? 1 : -1) }));
    const law = fastestLaw(way, limits);
    // from 0.45 on the motion must slow down by 1: with b at most 1 that is a way of 0.5 at the most (derived)
    expect(law.ok ? null : law.fault.at).toBeCloseTo(0.4, 12);
  });
});
