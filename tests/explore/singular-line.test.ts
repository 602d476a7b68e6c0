import { describe, expect, it } from 'vitest';
import { evenly, type Grid } from '../../src/explore/grid.ts';
import { singularLine } from '../../src/explore/singular-line.ts';
import { DEG } from '../kinematics/designs.ts';
import { ringPlate, tableSpec } from './layouts.ts';

const gaps: Grid = [
  { name: 'baseGap', values: evenly(1 * DEG, 119 * DEG, 60) },
  { name: 'platformGap', values: evenly(1 * DEG, 119 * DEG, 60) },
  { name: 'radiusRatio', values: evenly(0.3, 1.48, 60) },
];

describe('the line of singular layouts', () => {
  it('lies where the pair gaps add up to 120 deg, and is singular at every pose', () => {
    // equal patterns on both rings are singular everywhere (O. Ma and J. Angeles 1991: memory); derived: d = 0
    const { lines, everywhere, whole } = singularLine(tableSpec(), gaps, 'baseGap', 'platformGap', [0, 0, 30]);
    expect(whole).toBe(false);
    expect(everywhere).toBe(true);
    expect(lines).toHaveLength(1);
    const [line] = lines;
    const gapOf = (share: number) => 1 + 118 * share;
    let lowest = 1;
    let highest = 0;
    for (let n = 0; n < line.length; n += 2) {
      expect(gapOf(line[n]) + gapOf(line[n + 1])).toBeCloseTo(120, 2);
      lowest = Math.min(lowest, line[n]);
      highest = Math.max(highest, line[n]);
    }
    expect(lowest).toBeLessThan(0.03);
    expect(highest).toBeGreaterThan(0.97);
  });

  it('tells layouts that are singular only at a home yawed by 90 deg from those that are singular everywhere', () => {
    // level and yawed by psi the determinant has the factor cos psi (E. F. Fichter 1986: memory)
    const turned = tableSpec({ platform: ringPlate(70, 20, 60) });
    const grid: Grid = [
      { name: 'turn', values: evenly(60 * DEG, 110 * DEG, 51) },
      { name: 'radiusRatio', values: evenly(0.4, 0.9, 11) },
    ];
    const { lines, everywhere } = singularLine(turned, grid, 'turn', 'radiusRatio', [0, 0]);
    expect(lines).toHaveLength(1);
    for (let n = 0; n < lines[0].length; n += 2) expect(60 + 50 * lines[0][n]).toBeCloseTo(90, 2);
    expect(everywhere).toBe(false);
  });

  it('has no line where the whole plane is singular', () => {
    const even = tableSpec({ base: ringPlate(100, 60), platform: ringPlate(70, 60) });
    const grid: Grid = [
      { name: 'radiusRatio', values: evenly(0.3, 1.4, 12) },
      { name: 'homeHeight', values: evenly(100, 200, 12) },
    ];
    const { lines, whole } = singularLine(even, grid, 'radiusRatio', 'homeHeight', [0, 0]);
    expect(lines).toEqual([]);
    expect(whole).toBe(true);
  });
});
