import { scaleLinear } from 'd3-scale';
import { describe, expect, it } from 'vitest';
import { FIGURE_COUNT } from '../../src/explore/layout-figures.ts';
import type { ColumnName } from '../../src/explore/layout-table.ts';
import {
  acrossPath,
  frontAcross,
  lineAcross,
  nearestLine,
  type RangeAxis,
} from '../../src/panels/explore/across-lines.ts';
import { frontStep } from '../../src/panels/explore/front-step.ts';
import { FIGURE_NAMES } from '../../src/terms/figures.ts';

/** Axes 100 px apart and 200 px high from a column's low to its high end. */
const axis = (name: ColumnName, n: number, low: number, high: number): RangeAxis => ({
  column: { name, domain: { low, high, open: false }, known: new Uint32Array(4), passing: new Uint32Array(4) },
  x: 50 + 100 * n,
  y: scaleLinear([low, high], [200, 0]).clamp(true),
});

const axes = [axis('baseGap', 0, 0, 1), axis('platformGap', 1, 0, 1), axis('reach', 2, 0, 10)];
const grid = [
  { name: 'baseGap', values: Float64Array.of(0, 0.5, 1) },
  { name: 'platformGap', values: Float64Array.of(0, 1) },
] as const;

const rowWithReach = (reach: number): Float64Array => {
  const row = new Float64Array(FIGURE_COUNT);
  row[FIGURE_NAMES.indexOf('reach')] = reach;
  return row;
};

describe('lines across the ranges', () => {
  it('stand at the heights of a layout on every axis, and pass over what is not known', () => {
    // index 3: the second base gap and the second platform gap
    const line = lineAcross(axes, grid, 3, rowWithReach(2.5));
    expect([...line.heights]).toEqual([100, 0, 150]);
    expect(acrossPath(axes, line)).toBe('M50.0 100.0L150.0 0.0L250.0 150.0');
    expect(acrossPath(axes, lineAcross(axes, grid, 3, null))).toBe('M50.0 100.0L150.0 0.0');
  });

  it('are found by a pointer on them, the nearest first, and by none beside them', () => {
    const lines = [lineAcross(axes, grid, 0, rowWithReach(0)), lineAcross(axes, grid, 3, rowWithReach(10))];
    // layout 0 runs along the bottom, layout 3 from the middle to the top
    expect(nearestLine(axes, lines, [100, 196])?.index).toBe(0);
    expect(nearestLine(axes, lines, [100, 50])?.index).toBe(3);
    expect(nearestLine(axes, lines, [200, 3])?.index).toBe(3);
    expect(nearestLine(axes, lines, [100, 125])).toBeNull();
    // before the first axis and after the last a line goes on level
    expect(nearestLine(axes, lines, [10, 104])?.index).toBe(3);
    expect(nearestLine(axes, lines, [290, 1])?.index).toBe(3);
    expect(nearestLine([], lines, [10, 10])).toBeNull();
  });

  it('measure square to a steep line, as a hand does', () => {
    const lines = [lineAcross(axes, grid, 1, rowWithReach(0))];
    // from (50, 200) to (150, 0): 15 px to the right of its middle is 15 * 200 / hypot(100, 200) = 13.4 px off, 9 is 8
    expect(nearestLine(axes, lines, [115, 100])).toBeNull();
    expect(nearestLine(axes, lines, [109, 100])?.index).toBe(1);
  });

  it('of a long front are thinned evenly', () => {
    const indices = Uint32Array.from({ length: 500 }, (_, n) => n % 6);
    const front = { indices, rows: new Float64Array(500 * FIGURE_COUNT), count: 500, knee: null, objectives: [] };
    expect(frontAcross(axes, grid, front)).toHaveLength(100);
  });
});

describe('a key on a picture of the front', () => {
  const front = { indices: Uint32Array.of(40, 7, 19, 3), knee: null };

  it('goes from layout to layout and stays at the ends', () => {
    expect(frontStep('ArrowUp', front, 7)).toBe(19);
    expect(frontStep('ArrowRight', front, 7)).toBe(40);
    expect(frontStep('ArrowRight', front, 40)).toBe(40);
    expect(frontStep('PageUp', front, 40)).toBe(3);
  });

  it('starts at the bend, or else at the first', () => {
    expect(frontStep('ArrowUp', front, null)).toBe(40);
    const knee = { place: 19, givenUp: 0.1, gain: 2 };
    expect(frontStep('ArrowUp', { ...front, knee }, 999)).toBe(19);
  });

  it('does nothing for other keys and without a front', () => {
    expect(frontStep('x', front, 7)).toBeNull();
    expect(frontStep('ArrowUp', null, 7)).toBeNull();
    expect(frontStep('ArrowUp', { indices: new Uint32Array(), knee: null }, 7)).toBeNull();
  });
});
