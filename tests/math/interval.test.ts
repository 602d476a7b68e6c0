import { type BigNumber, bignumber } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { Intervals } from '../../src/math/interval.ts';
import { type Random, seededRandom, uniform } from '../../src/math/random.ts';

/**
 * Referee: a general library's numbers of 64 decimal digits. They are made from whole mantissa and power of two, since the
 * library itself reads a number by its shortest decimal form, which is not exactly that number.
 */
function exact(x: number): BigNumber {
  if (x === 0) return bignumber(0);
  const power = Math.floor(Math.log2(Math.abs(x))) - 52;
  return bignumber(x / 2 ** power).times(bignumber(2).pow(power));
}

/** Numbers of very different sizes. */
const anyNumber = (random: Random) => uniform(random, -1, 1) * 10 ** Math.floor(uniform(random, -8, 8));

const radiusFor = (random: Random, mid: number) =>
  random() < 0.3 ? 0 : Math.abs(mid) * 10 ** uniform(random, -18, 0.3);

describe('interval arithmetic', () => {
  it('encloses the exact result of every operation, radius zero included, 800 rounds (seed 121)', () => {
    const random = seededRandom(121);
    const I = new Intervals(8);
    const holds = (register: number, value: BigNumber) => {
      // no claim made, as near 1/0
      if (I.rad[register] === Number.POSITIVE_INFINITY) return;
      const off = value.minus(exact(I.mid[register])).abs();
      expect(off.lte(exact(I.rad[register]))).toBe(true);
      expect(value.lte(exact(I.high(register)))).toBe(true);
      expect(value.gte(exact(I.low(register)))).toBe(true);
      expect(value.abs().lte(exact(I.magnitude(register)))).toBe(true);
    };
    for (let n = 0; n < 800; n++) {
      const picks = [0, 1].map((register) => {
        const mid = anyNumber(random);
        const rad = radiusFor(random, mid);
        I.set(register, mid, rad);
        // the ends as often as the inside
        const share = random() < 0.5 ? Math.sign(random() - 0.5) : uniform(random, -1, 1);
        return exact(mid).plus(exact(share).times(exact(rad)));
      });
      const [a, b] = picks;
      const factor = anyNumber(random);
      I.add(2, 0, 1);
      holds(2, a.plus(b));
      I.subtract(2, 0, 1);
      holds(2, a.minus(b));
      I.multiply(2, 0, 1);
      holds(2, a.times(b));
      I.scale(2, 0, factor);
      holds(2, a.times(exact(factor)));
      I.copy(2, 0);
      I.addScaled(2, 1, factor);
      holds(2, a.plus(b.times(exact(factor))));
      I.square(2, 0);
      holds(2, a.times(a));
      if (a.gt(0)) {
        I.squareRoot(2, 0);
        holds(2, a.sqrt());
        I.reciprocal(2, 0);
        holds(2, exact(1).div(a));
      }
    }
  });

  it('encloses dot and cross products, cancelling ones too, 500 rounds (seed 122)', () => {
    const random = seededRandom(122);
    const I = new Intervals(12);
    for (let n = 0; n < 500; n++) {
      const picks = Array.from({ length: 6 }, (_, register) => {
        // nearly parallel vectors every other time
        const mid = n % 2 === 0 || register < 3 ? anyNumber(random) : I.mid[register - 3] * (1 + 1e-12 * random());
        const rad = radiusFor(random, mid);
        I.set(register, mid, rad);
        return exact(mid).plus(exact(uniform(random, -1, 1)).times(exact(rad)));
      });
      const [a0, a1, a2, b0, b1, b2] = picks;
      const within = (register: number, value: BigNumber) =>
        value.minus(exact(I.mid[register])).abs().lte(exact(I.rad[register]));
      I.dot(6, 0, 3);
      expect(within(6, a0.times(b0).plus(a1.times(b1)).plus(a2.times(b2)))).toBe(true);
      const along = exact(I.mid[3]).times(a0).plus(exact(I.mid[4]).times(a1)).plus(exact(I.mid[5]).times(a2));
      expect(along.abs().lte(exact(I.magnitudeAlong(0, I.mid[3], I.mid[4], I.mid[5])))).toBe(true);
      I.cross(6, 0, 3);
      expect(within(6, a1.times(b2).minus(a2.times(b1)))).toBe(true);
      expect(within(7, a2.times(b0).minus(a0.times(b2)))).toBe(true);
      expect(within(8, a0.times(b1).minus(a1.times(b0)))).toBe(true);
    }
  });

  it('encloses sines and cosines of a range, and not much more (seed 123)', () => {
    const random = seededRandom(123);
    const I = new Intervals(2);
    for (let n = 0; n < 150; n++) {
      const [centre, half] = [uniform(random, -4, 4), random() < 0.2 ? 0 : uniform(random, 0, 1)];
      I.cosine(0, centre, half);
      I.sine(1, centre, half);
      for (let k = 0; k <= 4; k++) {
        const angle = exact(centre).plus(exact(half).times(exact((k - 2) / 2)));
        expect(angle.cos().minus(exact(I.mid[0])).abs().lte(exact(I.rad[0]))).toBe(true);
        expect(angle.sin().minus(exact(I.mid[1])).abs().lte(exact(I.rad[1]))).toBe(true);
      }
      // never wider than the angle range itself, plus second order
      expect(I.rad[0]).toBeLessThan(half + half * half + 1e-14);
    }
  });

  it('makes no claim about 1/0', () => {
    const I = new Intervals(2);
    I.set(0, 0.5, 1);
    I.reciprocal(1, 0);
    expect(I.magnitude(1)).toBe(Number.POSITIVE_INFINITY);
  });
});
