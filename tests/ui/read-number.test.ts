import { describe, expect, it } from 'vitest';
import { readNumber, readPlainNumber } from '../../src/ui/read-number.ts';

const value = async (text: string, unit: 'mm' | 'deg' | '') => {
  const reading = await readNumber(text, unit);
  return reading.ok ? reading.value : reading.fault;
};

describe('numbers typed into a field', () => {
  it('reads plain numbers at once, with or without the unit of the field', () => {
    expect(readPlainNumber(' 70 ', 'mm')).toBe(70);
    expect(readPlainNumber('-.5', 'deg')).toBe(-0.5);
    expect(readPlainNumber('−3', 'deg')).toBe(-3);
    expect(readPlainNumber('1e2mm', 'mm')).toBe(100);
    expect(readPlainNumber('20 deg', 'deg')).toBe(20);
    expect(readPlainNumber('20 deg', 'mm')).toBeNull();
    expect(readPlainNumber('35*2', 'mm')).toBeNull();
    expect(readPlainNumber('', 'mm')).toBeNull();
  });

  it('reads sums', async () => {
    expect(await value('35*2', 'mm')).toBe(70);
    expect(await value('(100 - 30) / 2 + 1', 'mm')).toBe(36);
    expect(await value('-2^2', '')).toBe(-4);
  });

  it('takes bare numbers in the field’s unit beside ones that name it, and not beside other units', async () => {
    expect(await value('100+2.5 mm', 'mm')).toBe(102.5);
    expect(await value('5° + 2', 'deg')).toBe(7);
    expect(await value('100 + 1 in', 'mm')).toBe('"100 + 1 in" is not a number or a sum with units.');
  });

  // an inch is 25.4 mm by definition (international yard and pound agreement of 1959); a full turn is 2 pi rad
  it('turns other units into those of the field', async () => {
    expect(await value('2.75in', 'mm')).toBeCloseTo(2.75 * 25.4, 12);
    expect(await value('1 cm + 3 mm', 'mm')).toBeCloseTo(13, 12);
    expect(await value('1/3 rad', 'deg')).toBeCloseTo(180 / Math.PI / 3, 12);
    expect(await value('(pi/2) rad', 'deg')).toBeCloseTo(90, 12);
    expect(await value('12.5°', 'deg')).toBeCloseTo(12.5, 12);
  });

  it('says why a text is no number for the field', async () => {
    expect(await value('abc', 'mm')).toBe('"abc" is not a number or a sum with units.');
    expect(await value('3 kg', 'mm')).toBe('"3 kg" cannot be turned into mm.');
    expect(await value('3 mm', '')).toBe('"3 mm" cannot be turned into a plain number.');
    expect(await value('1/0', 'mm')).toBe('"1/0" has no finite value.');
    expect(await value('2,5', 'mm')).toBe('"2,5" has a comma; write decimals with a point.');
    expect(await value('  ', 'mm')).toBe('The field is empty.');
    expect(await value('1+'.repeat(60), 'mm')).toContain('longer than 80');
  });

  it('keeps expressions away from the evaluator and from anything large', async () => {
    for (const text of [
      'import({a: 1})',
      'evaluate("1")',
      'parse("1")',
      'createUnit("foo")',
      'config({number: "BigNumber"})',
      '1:1000000000',
      'ones(1000000)',
      '170!',
      '[1, 2]',
      'f(x) = x',
      '"text"',
    ]) {
      expect((await readNumber(text, 'mm')).ok, text).toBe(false);
    }
    expect(await value('1+1', 'mm')).toBe(2);
  });
});
