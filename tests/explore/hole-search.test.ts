import { describe, expect, it } from 'vitest';
import { rankRows } from '../../src/explore/hole-ranking.ts';
import {
  type HoleSearch,
  type HoleSearchState,
  holeSearchRounds,
  inOrder,
  withHoles,
} from '../../src/explore/hole-search.ts';
import { FIGURE_COUNT, LayoutFigures } from '../../src/explore/layout-figures.ts';
import { compileMechanism } from '../../src/kinematics/mechanism.ts';
import { FIGURE_NAMES } from '../../src/terms/figures.ts';
import { DEG } from '../kinematics/designs.ts';
import { ringPlate, tableSpec } from './layouts.ts';

const options = { tilt: 0, firmnessFloor: 0.25, deadLength: 0 };

const search = (more: Partial<HoleSearch> = {}): HoleSearch => ({
  design: tableSpec({ base: ringPlate(100, 40), platform: ringPlate(70, 40) }),
  circles: { base: { count: 36, start: 0 }, platform: { count: 36, start: 5 * DEG } },
  goals: [{ figure: 'homeFirmness', better: 'more', weight: 1, unit: 1 }],
  bounds: [{ figure: 'homeReachable', atLeast: 1 }],
  options,
  seed: 4,
  rounds: 3,
  ...more,
});

function end(of: HoleSearch): HoleSearchState {
  const rounds = holeSearchRounds(of);
  for (;;) {
    const step = rounds.next();
    if (step.done) return step.value;
  }
}

describe('search for single holes', () => {
  it('keeps legs in order, one a hole, and reports what a fresh measurement finds', () => {
    const { best, start } = end(search());
    for (const plate of ['base', 'platform'] as const) {
      expect(inOrder(best[plate], 36)).toBe(true);
      expect(new Set(best[plate].map((hole) => hole % 36)).size).toBe(6);
    }
    const row = new Float64Array(FIGURE_COUNT);
    new LayoutFigures(options).measure(compileMechanism(withHoles(search(), best.base, best.platform)), row);
    expect(best.figures.homeFirmness).toBe(row[FIGURE_NAMES.indexOf('homeFirmness')]);
    expect(best.merit).toBeGreaterThan(start.merit);
    expect(best.excess).toBe(0);
  });

  it('cannot be bettered by any single step from where it ends', () => {
    const of = search({ rounds: 1 });
    const { best } = end(of);
    const measure = new LayoutFigures(options);
    const row = new Float64Array(FIGURE_COUNT);
    for (const plate of ['base', 'platform'] as const) {
      for (let leg = 0; leg < 6; leg++) {
        for (const steps of [-2, -1, 1, 2]) {
          const holes = { base: [...best.base], platform: [...best.platform] };
          holes[plate][leg] += steps;
          if (!inOrder(holes[plate], 36)) continue;
          measure.measure(compileMechanism(withHoles(of, holes.base, holes.platform)), row);
          if (row[FIGURE_NAMES.indexOf('homeReachable')] === 0) continue;
          expect(row[FIGURE_NAMES.indexOf('homeFirmness')]).toBeLessThanOrEqual(best.merit);
        }
      }
    }
  });

  it('repeats itself with the same seed', () => {
    expect(end(search())).toEqual(end(search()));
  });
});

describe('ranking', () => {
  it('weighs figures between the worst and the best of the list, and puts unusable layouts last', () => {
    const rows = new Float64Array(4 * FIGURE_COUNT);
    const put = (row: number, name: (typeof FIGURE_NAMES)[number], value: number) => {
      rows[row * FIGURE_COUNT + FIGURE_NAMES.indexOf(name)] = value;
    };
    [10, 20, 30, 99].forEach((reach, row) => {
      put(row, 'reach', reach);
      put(row, 'homeReachable', 1);
      put(row, 'buildable', 1);
    });
    [1, 2, Number.POSITIVE_INFINITY, 1].forEach((force, row) => {
      put(row, 'forceFactor', force);
    });
    put(3, 'singularEverywhere', 1);
    const { order, scores } = rankRows(rows, [
      { figure: 'reach', better: 'more', weight: 1 },
      { figure: 'forceFactor', better: 'less', weight: 3 },
    ]);
    // by hand: reach spans 10 to 99, force 1 to 2
    expect(scores[0]).toBeCloseTo(75, 12);
    expect(scores[1]).toBeCloseTo((25 * 10) / 89, 12);
    expect(scores[2]).toBeCloseTo((25 * 20) / 89, 12);
    expect([...order]).toEqual([0, 2, 1, 3]);
    put(0, 'buildable', 0);
    expect([...rankRows(rows, [{ figure: 'reach', better: 'more', weight: 1 }]).order]).toEqual([2, 1, 3, 0]);
  });
});
