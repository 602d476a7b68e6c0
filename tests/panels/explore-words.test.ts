import { describe, expect, it } from 'vitest';
import { kneeOf, type Objective } from '../../src/explore/pareto.ts';
import { columnNumber } from '../../src/panels/explore/explore-numbers.ts';
import { isInSlice } from '../../src/panels/explore/HeatMarks.tsx';
import { kneeWords } from '../../src/panels/explore/knee-words.ts';
import { objective } from '../../src/state/explore/explore-columns.ts';
import { createExploreStore, cutsThrough, withRange } from '../../src/state/explore/explore-store.ts';
import { aboutTime, timeWords } from '../../src/words/amounts.ts';
import { tickText } from '../../src/words/numbers.ts';

describe('the words of the knee', () => {
  // by hand: from the end of most reach, 100 and 0.1, to the bend, 75 and 0.6: a quarter less for six times as much
  it('say what is traded, and against which layout of the front', () => {
    const reach: Objective = { values: [100, 75, 60], better: 'more' };
    const firmness: Objective = { values: [0.1, 0.6, 0.62], better: 'more' };
    const knee = kneeOf([0, 1, 2], reach, firmness);
    if (!knee) throw new Error('the front bends');
    expect(kneeWords(knee, objective('reach'), objective('homeFirmness'))).toBe(
      '25 % less reach buys 6.00 times the firmness at home, compared with the front’s layout of most reach.',
    );
    expect(kneeWords({ ...knee, givenUp: -0.25 }, objective('forceFactor'), objective('homeFirmness'))).toMatch(
      /^25 % more leg force buys .* compared with the front’s layout of least leg force\.$/,
    );
  });
});

describe('a front that hardly bends', () => {
  it('is said to, instead of selling what is nothing', () => {
    const words = kneeWords({ place: 1, givenUp: 0.008, gain: 1.02 }, objective('reach'), objective('homeFirmness'));
    expect(words).toBe(
      'The front hardly bends: where it bends most, 0.8 % less reach goes with 2 % more firmness at home, compared with its layout of most reach.',
    );
  });
});

describe('the slice of the heat map', () => {
  const grid = [
    { name: 'baseGap', values: Float64Array.of(0.1, 0.2, 0.3) },
    { name: 'platformGap', values: Float64Array.of(0.1, 0.2, 0.3) },
    { name: 'radiusRatio', values: Float64Array.of(0.4, 0.6, 0.8, 1) },
  ] as const;

  it('goes through the design, and follows the brush', () => {
    expect(cutsThrough(grid, { radiusRatio: 0.63, baseGap: 5 })).toEqual({ radiusRatio: 1 / 3, baseGap: 1 });
    const view = { ...createExploreStore().getState().view, cuts: { radiusRatio: 1 / 3 } };
    const higher = { ...view, ...withRange(view, grid, 'radiusRatio', [0.75, 1]) };
    expect(higher.cuts.radiusRatio).toBeCloseTo(2 / 3, 12);
    for (const range of [[0.3, 0.9], null] as const)
      expect(withRange(higher, grid, 'radiusRatio', range).cuts.radiusRatio).toBeCloseTo(2 / 3, 12);
  });

  it('marks the present design only where it lies in it', () => {
    const question = { x: 'baseGap', y: 'platformGap', figure: 'reach', places: [0, 0, 1] } as const;
    const at = (radiusRatio: number) => ({
      ...{ baseGap: 10, platformGap: 12, turn: 0, homeHeight: 150, baseRadius: 100, platformRadius: 70, mountLean: 0 },
      radiusRatio,
    });
    expect(isInSlice(grid, question, at(0.63))).toBe(true);
    expect(isInSlice(grid, question, at(0.7))).toBe(true);
    expect(isInSlice(grid, question, at(0.8))).toBe(false);
  });
});

describe('numbers of columns', () => {
  it('say that there is no bound where only rounding keeps a figure from infinity', () => {
    for (const value of [30.2e12, Number.POSITIVE_INFINITY]) {
      expect(columnNumber('forceFactor', value)).toBe('no bound');
      expect(columnNumber('homeCondition', value)).toBe('no bound');
    }
    expect(columnNumber('forceFactor', 6.494)).toBe('6.49');
  });

  it('have the minus sign of print', () => {
    expect(columnNumber('spareStroke', -12.34)).toBe('−12.3');
    expect(tickText(-20, [-20, -10, 0])).toBe('−20');
  });
});

describe('words for a length of time', () => {
  it('forecast it as about so long, or as less than a second', () => {
    expect(aboutTime(0.4)).toBe('less than a second');
    expect(aboutTime(9.2)).toBe('about 9 s');
    expect(aboutTime(600)).toBe('about 10 min');
    expect(timeWords(9.2)).toBe('9 s');
  });
});
