import { describe, expect, it } from 'vitest';
import { kneeOf, type Objective, paretoFront } from '../../src/explore/pareto.ts';
import { seededRandom } from '../../src/math/random.ts';

const SEED = 99;

/** Referee: every layout against every other, O(n^2). Of equal layouts the lowest place stays. */
function bruteForce(count: number, objectives: readonly Objective[]): Set<number> {
  const score = (place: number) => objectives.map(({ values, better }) => (better === 'more' ? 1 : -1) * values[place]);
  const front = new Set<number>();
  for (let a = 0; a < count; a++) {
    const mine = score(a);
    let beaten = !mine.every(Number.isFinite);
    for (let b = 0; b < count && !beaten; b++) {
      const theirs = score(b);
      if (b === a || !theirs.every(Number.isFinite)) continue;
      const noWorse = theirs.every((value, n) => value >= mine[n]);
      const better = theirs.some((value, n) => value > mine[n]);
      beaten = noWorse && (better || b < a);
    }
    if (!beaten) front.add(a);
  }
  return front;
}

const all = (count: number) => Array.from({ length: count }, (_, n) => n);

describe('front', () => {
  it.each([2, 3])(
    `of %d objectives equals the brute-force filter, ties and gaps included (seed ${SEED})`,
    (dimensions) => {
      const random = seededRandom(SEED);
      for (let round = 0; round < 40; round++) {
        const count = 1 + Math.floor(random() * 300);
        // coarse values make ties frequent in some rounds
        const coarse = round % 2 === 0 ? 8 : 1e9;
        const objectives: Objective[] = all(dimensions).map((n) => ({
          values: Float64Array.from({ length: count }, () =>
            random() < 0.03 ? Number.NaN : Math.floor(random() * coarse) / coarse,
          ),
          better: n === 1 ? 'less' : 'more',
        }));
        expect(new Set(paretoFront(all(count), objectives))).toEqual(bruteForce(count, objectives));
      }
    },
  );

  it('considers only the candidates', () => {
    const values = Float64Array.of(5, 4, 3, 2);
    const other = Float64Array.of(5, 1, 2, 3);
    const objectives: Objective[] = [
      { values, better: 'more' },
      { values: other, better: 'more' },
    ];
    expect(paretoFront([0, 1, 2, 3], objectives)).toEqual([0]);
    expect(paretoFront([1, 2, 3], objectives)).toEqual([1, 2, 3]);
    expect(paretoFront([], objectives)).toEqual([]);
  });
});

describe('knee', () => {
  it('is the corner of a bent front, and says what it trades', () => {
    const reach: Objective = { values: Float64Array.of(100, 88, 50, 10), better: 'more' };
    const firmness: Objective = { values: Float64Array.of(0.1, 0.31, 0.36, 0.4), better: 'more' };
    expect(kneeOf([0, 1, 2, 3], reach, firmness)).toEqual({
      place: 1,
      givenUp: expect.closeTo(0.12, 12),
      gain: expect.closeTo(3.1, 12),
    });
  });

  it('does not exist on a straight or a short front', () => {
    const one: Objective = { values: Float64Array.of(2, 1, 0), better: 'more' };
    const other: Objective = { values: Float64Array.of(0, 1, 2), better: 'more' };
    expect(kneeOf([0, 1, 2], one, other)).toBeNull();
    expect(kneeOf([0, 2], one, other)).toBeNull();
  });
});
