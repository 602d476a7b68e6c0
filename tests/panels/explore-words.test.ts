import { describe, expect, it } from 'vitest';
import { kneeOf, type Objective } from '../../src/explore/pareto.ts';
import { columnNumber } from '../../src/panels/explore/explore-numbers.ts';
import { kneeWords } from '../../src/panels/explore/knee-words.ts';
import { objective } from '../../src/state/explore/explore-columns.ts';
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
