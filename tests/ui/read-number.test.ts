import { unit as referee } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { readNumber, readPlainNumber } from '../../src/ui/read-number.ts';
import { isPlain, NAMED } from '../../src/ui/unit-table.ts';
import type { FieldUnit } from '../../src/words/units.ts';

const value = async (text: string, unit: FieldUnit) => {
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
    expect(await value('2 * (100 + 2.5 mm) - 1', 'mm')).toBe(204);
    expect(await value('100 + 2.5 N mm', 'N mm')).toBe(102.5);
    expect(await value('100 + 1 in', 'mm')).toBe(
      '"100 + 1 in" adds 100, which has no unit, to what has one; write its unit, or leave all out.',
    );
    expect(await value('1 + 3 mm', '')).toBe('"1 + 3 mm" cannot be turned into a plain number.');
    expect(await value('1 deg + 3 mm', 'mm')).toBe('"1 deg + 3 mm" adds quantities of different kinds.');
  });

  // an inch is 25.4 mm by definition (international yard and pound agreement of 1959); a full turn is 2 pi rad
  it('turns other units into those of the field', async () => {
    expect(await value('2.75in', 'mm')).toBeCloseTo(2.75 * 25.4, 12);
    expect(await value('1 cm + 3 mm', 'mm')).toBeCloseTo(13, 12);
    expect(await value('1/3 rad', 'deg')).toBeCloseTo(180 / Math.PI / 3, 12);
    expect(await value('(pi/2) rad', 'deg')).toBeCloseTo(90, 12);
    expect(await value('12.5°', 'deg')).toBeCloseTo(12.5, 12);
  });

  // the unit tables of mathjs, which the fields do not use, are the second opinion on every factor
  it('knows every unit of its list by the same factor as an independent table', () => {
    const base = ['mm', 'kg', 's', 'deg'];
    for (const [name, one] of NAMED) {
      if (isPlain(one)) continue;
      const written = one.powers.map((power, index) => `${base[index]}^${power}`).join(' ');
      const theirs = referee(1, name.replace('µ', 'u')).toNumber(written);
      expect(one.value / theirs, name).toBeCloseTo(1, 14);
    }
  });

  it('works out products, quotients, powers and roots of units', async () => {
    expect(await value('2 kg * 9.80665 m/s^2', 'N')).toBeCloseTo(2 * 9.80665, 12);
    expect(await value('10 N/mm', 'N/mm')).toBe(10);
    expect(await value('1 lbf/in', 'N/mm')).toBeCloseTo(4.4482216152605 / 25.4, 12);
    expect(await value('sqrt(9 cm^2)', 'mm')).toBeCloseTo(30, 12);
    expect(await value('3 kg * (20 mm)^2 / 2', 'kg mm^2')).toBe(600);
    expect(await value('6 kg / 2 kg', 'mm')).toBe(3);
  });

  it('says why a text is no number for the field', async () => {
    expect(await value('1+', 'mm')).toBe('"1+" is not a number or a sum with units.');
    expect(await value('abc', 'mm')).toBe(
      '"abc" is not a number or a sum with units: abc is no unit that is known here.',
    );
    expect(await value('2^(1/0)', 'mm')).toBe('"2^(1/0)" has no finite value.');
    expect(await value('2^(1 mm)', 'mm')).toBe('"2^(1 mm)" has an exponent with a unit.');
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

  it.each([
    ['f(n)=n?f(n-1)+f(n-1):1;f(60)', 'something that sets or compares a name (=)'],
    ['pi=4', 'something that sets or compares a name (=)'],
    ['{a:1}.a', 'a condition or a range (:)'],
    ['{}', 'a list or an object ({)'],
    ['1 # hi', 'a remark (#)'],
    ['1;2', 'several sums (;)'],
    ['1\n2', 'several sums (a new line)'],
    ['1 ? 2 : 3', 'a condition or a range (?)'],
    ['2 > 1', 'a sign (>)'],
    ['5 %', 'a sign (%)'],
    ['5!', 'a sign (!)'],
    ['"1"', 'text in quotes (")'],
    ['5 mod 3', '"5 mod 3" in it'],
    ['3 mm to cm', '"3 mm to cm" in it'],
    ['true', '"true" in it'],
    ['sin(1)', '"sin(1)" in it'],
    ['pi.constructor', '"pi.constructor" in it'],
  ])('refuses %j at once with a reason', async (text, reason) => {
    const before = performance.now();
    const reading = await readNumber(text, 'mm');
    const fault = `"${text}" has ${reason}; a number field takes numbers, units, pi, sqrt, + − * / ^ and brackets.`;
    expect(reading).toEqual({ ok: false, fault });
    expect(performance.now() - before).toBeLessThan(5000);
  });

  it('sets nothing that a later entry would see', async () => {
    await readNumber('pi=4', 'mm');
    await readNumber('mm=3', 'mm');
    expect(await value('pi', '')).toBe(Math.PI);
    expect(await value('2 mm', 'mm')).toBe(2);
  });
});
