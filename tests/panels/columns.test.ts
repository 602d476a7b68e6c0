import { describe, expect, it } from 'vitest';
import { SWEEP_VARIABLES, sweepAxes, validateSweep } from '../../src/document/sweep-file.ts';
import type { Grid } from '../../src/explore/grid.ts';
import { figureColumns, tableLines } from '../../src/headless/explore/table-lines.ts';
import { columnNumber } from '../../src/panels/explore/explore-numbers.ts';
import { AMOUNTS, betterOf } from '../../src/state/explore/explore-columns.ts';
import { DIMENSION_NAMES, DIMENSIONS } from '../../src/terms/dimensions.ts';
import { FIGURE_NAMES, FIGURES, type FigureName } from '../../src/terms/figures.ts';

/** Inside units in one of a name's unit, by the ending of the name alone: degrees to a radian, cm3 to a mm3. */
function factorOf(header: string): number {
  if (header.endsWith('_deg')) return 180 / Math.PI;
  return header.endsWith('_cm3') ? 1e-3 : 1;
}

const GRID: Grid = [{ name: 'baseGap', values: Float64Array.of(0.1) }];

/**
 * Figures of which less is better, by what they are: a condition is 1 at best; legs that carry more, joints that tilt more
 * and legs that are dependent are worse.
 */
const LESS: readonly FigureName[] = ['homeCondition', 'forceFactor', 'jointTilt', 'singularEverywhere'];

describe.each(FIGURE_NAMES.map((name, place) => [name, place] as const))('the figure %s', (name, place) => {
  const { header, scale, kind, unit } = FIGURES[name];

  it('is written to tables in the unit of its name', () => {
    const row = new Float64Array(FIGURE_NAMES.length).fill(Number.NaN);
    row[place] = 1;
    const text = tableLines(
      'csv',
      { names: ['layout', 'baseGap_deg', ...figureColumns()], values: [[6]] },
      GRID,
      0,
      row,
    );
    const cell = text.trimEnd().split(',')[2 + place];
    expect(figureColumns()[place]).toBe(header);
    if (kind === 'yesNo') expect(cell).toBe('true');
    else expect(Number(cell)).toBeCloseTo(factorOf(header), 12);
  });

  it('is shown on screen in the same unit', () => {
    expect(scale).toBeCloseTo(factorOf(header), 12);
    expect(header.endsWith('_deg')).toBe(unit === 'deg');
    expect(header.endsWith('_mm')).toBe(unit === 'mm');
    expect(header.endsWith('_cm3')).toBe(unit === 'cm³');
    expect(columnNumber(name, kind === 'yesNo' ? 1 : 100 / scale)).toMatch(kind === 'yesNo' ? /^yes$/ : /^100/);
  });

  it('is better the way it is meant', () => {
    expect(betterOf(name)).toBe(LESS.includes(name) ? 'less' : 'more');
    expect(AMOUNTS.includes(name)).toBe(kind === 'amount');
  });
});

describe.each(DIMENSION_NAMES)('the dimension %s', (name) => {
  const { header, scale } = DIMENSIONS[name];

  it('varies in a sweep under its own name and in its unit', () => {
    expect(header.replace(/_(deg|mm)$/, '')).toBe(name);
    expect(scale).toBeCloseTo(factorOf(header), 12);
    expect(SWEEP_VARIABLES[header].dimension).toBe(name);
    const sweep = validateSweep({
      format: 'legroom-sweep',
      version: 1,
      variables: [{ name: header, from: 10, to: 20, count: 2 }],
    });
    expect(sweep.ok && sweepAxes(sweep.value)[0].name).toBe(name);
    expect(sweep.ok && sweepAxes(sweep.value)[0].values[1]).toBeCloseTo(20 / factorOf(header), 12);
  });
});
