import { describe, expect, it } from 'vitest';
import { seededRandom, uniform } from '../../src/math/random.ts';
import type { Law } from '../../src/motion/laws/law.ts';
import { jerkLimited, jerkTimes, quintic, quinticIn, trapezoid } from '../../src/motion/laws/point-to-point.ts';

const NO_LIMIT = Number.POSITIVE_INFINITY;

/** Largest |speed|, |acceleration| and |jerk| over a fine grid, and whether each is the derivative of the one before. */
function peaks(law: Law) {
  let [speed, acceleration, jerk] = [0, 0, 0];
  for (let n = 0; n <= 4000; n++) {
    const state = law.at((law.duration * n) / 4000);
    speed = Math.max(speed, Math.abs(state.speed));
    acceleration = Math.max(acceleration, Math.abs(state.acceleration));
    jerk = Math.max(jerk, Math.abs(state.jerk));
  }
  return { speed, acceleration, jerk };
}

describe('trapezoid', () => {
  it('takes h/v + v/a (closed form; a leg of a platform heaved by 50 mm)', () => {
    const law = trapezoid(43.329233976779506, { speed: 50, acceleration: 200, jerk: NO_LIMIT });
    expect(Math.abs(law.duration - 1.11658467953559)).toBeLessThan(1e-12);
    expect(law.at(law.duration).at).toBeCloseTo(43.329233976779506, 12);
  });

  it('takes 2 sqrt(h/a) where the speed is not reached (closed form)', () => {
    expect(trapezoid(2, { speed: 100, acceleration: 8, jerk: NO_LIMIT }).duration).toBeCloseTo(1, 12);
  });
});

describe('jerk-limited law', () => {
  // closed forms of the seven-piece law: h/v + v/a + a/j; no cruise; neither speed nor acceleration reached
  const CASES = [
    { way: 1, speed: 1, acceleration: 2, jerk: 10, ease: 0.2, ramp: 0.7, hold: 0.3, duration: 1.7 },
    {
      way: 0.5,
      speed: 1,
      acceleration: 2,
      jerk: 10,
      ease: 0.2,
      ramp: 0.6099019513592785,
      hold: 0,
      duration: 1.219803902718557,
    },
    {
      way: 0.01,
      speed: 1,
      acceleration: 2,
      jerk: 10,
      ease: 0.07937005259840998,
      ramp: 0.15874010519681997,
      hold: 0,
      duration: 0.31748021039363994,
    },
    {
      way: 2,
      speed: 30,
      acceleration: 120,
      jerk: 3000,
      ease: 0.04,
      ramp: 0.15063945294843617,
      hold: 0,
      duration: 0.30127890589687234,
    },
  ];
  for (const { way, speed, acceleration, jerk, ease, ramp, hold, duration } of CASES)
    it(`over ${way} within ${speed}, ${acceleration}, ${jerk} takes ${duration} s`, () => {
      const times = jerkTimes(way, speed, acceleration, jerk);
      expect(times.ease).toBeCloseTo(ease, 12);
      expect(times.ramp).toBeCloseTo(ramp, 12);
      expect(times.hold).toBeCloseTo(hold, 12);
      const law = jerkLimited(way, { speed, acceleration, jerk });
      expect(Math.abs(law.duration - duration)).toBeLessThan(1e-12);
      expect(law.at(law.duration - 1e-12).at).toBeCloseTo(way, 10);
    });

  it('keeps its limits, arrives, and is what its derivatives say (finite difference; seed 21)', () => {
    const random = seededRandom(21);
    for (let n = 0; n < 60; n++) {
      const [way, speed, acceleration, jerk] = [0, 1, 2, 3].map(() => 10 ** uniform(random, -2, 2));
      const law = jerkLimited(way, { speed, acceleration, jerk });
      const seen = peaks(law);
      expect(seen.speed).toBeLessThanOrEqual(speed * (1 + 1e-12));
      expect(seen.acceleration).toBeLessThanOrEqual(acceleration * (1 + 1e-12));
      expect(seen.jerk).toBeLessThanOrEqual(jerk * (1 + 1e-12));
      const h = law.duration * 1e-5;
      for (const share of [0.13, 0.37, 0.5, 0.71, 0.95]) {
        const t = share * law.duration;
        const [a, b, c] = [law.at(t - h), law.at(t), law.at(t + h)];
        expect(Math.abs((c.at - a.at) / (2 * h) - b.speed)).toBeLessThan(jerk * h * h + 1e-9 * speed);
        expect(Math.abs((c.speed - a.speed) / (2 * h) - b.acceleration)).toBeLessThan(jerk * h + 1e-9 * acceleration);
      }
    }
  });
});

describe('quintic', () => {
  it('has peaks of 1.875, 10/sqrt 3 and 60 on a way of 1 in a time of 1 (closed forms)', () => {
    const { speed, acceleration, jerk } = peaks(quinticIn(1, 1));
    expect(speed).toBeCloseTo(1.875, 9);
    expect(acceleration).toBeCloseTo(5.773502691896258, 5);
    // the jerk of 60 is that of the very ends, where the motion counts as standing
    expect(jerk).toBeGreaterThan(59.8);
    expect(jerk).toBeLessThan(60);
  });

  it('is as slow as its tightest limit asks', () => {
    expect(quintic(1, { speed: 1.875, acceleration: 1e9, jerk: 1e9 }).duration).toBeCloseTo(1, 12);
    expect(quintic(1, { speed: 1e9, acceleration: 10 / Math.sqrt(3), jerk: 1e9 }).duration).toBeCloseTo(1, 12);
    expect(quintic(1, { speed: 1e9, acceleration: 1e9, jerk: 60 }).duration).toBeCloseTo(1, 12);
  });
});
