import { describe, expect, it } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import { changeLegs } from '../../src/document/edits/edit.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { comparison, type Line } from '../../src/panels/compare/figures.ts';
import { measureReach } from '../../src/reach/columns/meter.ts';

const reachesOf = (document: typeof DEMOS.steady) => {
  const mechanism = mechanismFromDocument(document);
  return { level: measureReach(mechanism, mechanism.home.R_BP), tilted: null };
};

const line = (lines: readonly Line[], name: string): Line => {
  const found = lines.find((candidate) => candidate.name === name);
  if (!found) throw new Error(`no line ${name}`);
  return found;
};

describe('pinned against live', () => {
  const { steady, roomy, even } = DEMOS;

  it('shows no difference of a layout to itself', () => {
    const lines = comparison(steady, reachesOf(steady), steady, reachesOf(steady));
    for (const { name, difference } of lines) {
      if (name !== 'Reach at any tilt, cm³') expect(difference, name).toBe('same');
    }
  });

  it('leaves out what is not computed yet', () => {
    const lines = comparison(steady, { level: null, tilted: null }, steady, reachesOf(steady));
    expect(line(lines, 'Reach at home, cm³')).toMatchObject({ pinned: '…', difference: '' });
  });

  // by hand from 163.326 mm at home: 54.16 % of the stroke from 120 to 200 mm, 54.58 % of that from 119.5 to 199.8 mm
  it('counts differences of the shown numbers', () => {
    const shifted = changeLegs(steady, { min_mm: 119.5, max_mm: 199.8 });
    const lines = comparison(steady, reachesOf(steady), shifted, reachesOf(shifted));
    expect(line(lines, 'Stroke used at home, %')).toMatchObject({ pinned: '54', live: '55', difference: '+1' });
  });

  it('says what changed, and in which direction', () => {
    const lines = comparison(steady, reachesOf(steady), roomy, reachesOf(roomy));
    expect(line(lines, 'Reach at home, cm³').difference).toMatch(/^\+\d+ %$/);
    expect(line(lines, 'Firmness')).toEqual({
      name: 'Firmness',
      pinned: 'Firm',
      live: 'Nearly singular',
      difference: 'changed',
    });
    const singular = comparison(steady, reachesOf(steady), even, reachesOf(even));
    expect(line(singular, 'Magnification')).toMatchObject({ live: 'no bound', difference: 'see verdict' });
  });

  // 163.326 mm at home: 54.2 % of the stroke from 120 to 200 mm, and 43.3 % of that from 120 to 220 mm
  it('counts the stroke used at home', () => {
    const longer = changeLegs(steady, { max_mm: 220 });
    const lines = comparison(steady, reachesOf(steady), longer, reachesOf(longer));
    expect(line(lines, 'Stroke used at home, %')).toMatchObject({ pinned: '54', live: '43', difference: '−11' });
  });
});
