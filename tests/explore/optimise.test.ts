import { describe, expect, it } from 'vitest';
import { FIGURE_COUNT, LayoutFigures } from '../../src/explore/layout-figures.ts';
import { namedFigures, type Optimisation, optimise } from '../../src/explore/optimise.ts';
import { withDimensions } from '../../src/kinematics/dimensions.ts';
import { compileMechanism } from '../../src/kinematics/mechanism.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { DEG } from '../kinematics/designs.ts';
import { tableSpec } from './layouts.ts';

const options = { tilt: 0, firmnessFloor: 0.25, deadLength: 30 };

/** Best condition at home alone, over ring ratio, height and base gap. */
const bestCondition = (seed: number): Optimisation => ({
  design: tableSpec(),
  free: [
    { name: 'baseGap', from: 5 * DEG, to: 60 * DEG },
    { name: 'radiusRatio', from: 0.2, to: 1.4 },
    { name: 'homeHeight', from: 30, to: 250 },
  ],
  goals: [{ figure: 'homeCondition', better: 'less', weight: 1, unit: 1 }],
  bounds: [],
  options,
  seed,
  rounds: 120,
});

describe('optimiser', () => {
  it('finds condition sqrt 2 when asked for the best condition alone', { timeout: 60_000 }, () => {
    // K. H. Pittens and R. P. Podhorodeski 1993 (from memory), derived: R cos d = r, h = R sin d, length r
    const { best } = optimise(bestCondition(1), neverStop);
    expect(best.figures.homeCondition).toBeCloseTo(Math.SQRT2, 5);
    const { baseGap, radiusRatio, homeHeight } = best.dimensions;
    const d = 60 * DEG - ((baseGap ?? 0) + 20 * DEG) / 2;
    expect(radiusRatio).toBeCloseTo(Math.cos(d), 3);
    expect((homeHeight ?? 0) / 100).toBeCloseTo(Math.sin(d), 3);
  });

  it('repeats itself with the same seed and takes another way with another', () => {
    const brief = (seed: number) => optimise({ ...bestCondition(seed), rounds: 10 }, neverStop);
    expect(brief(3)).toEqual(brief(3));
    expect(brief(3).trace).not.toEqual(brief(4).trace);
  });

  it('is no worse than a fine grid, and keeps its bounds', { timeout: 60_000 }, () => {
    const search: Optimisation = {
      design: tableSpec(),
      free: [
        { name: 'baseGap', from: 5 * DEG, to: 110 * DEG },
        { name: 'homeHeight', from: 120, to: 180 },
      ],
      goals: [{ figure: 'reach', better: 'more', weight: 1, unit: 1e5 }],
      bounds: [
        { figure: 'homeFirmness', atLeast: 0.4 },
        { figure: 'homeReachable', atLeast: 1 },
      ],
      options,
      seed: 5,
      rounds: 40,
    };
    const { best, trace } = optimise(search, neverStop);
    expect(best.excess).toBe(0);
    expect(best.figures.homeFirmness).toBeGreaterThanOrEqual(0.4);
    for (let n = 1; n < trace.length; n++) {
      if (trace[n].excess === trace[n - 1].excess) expect(trace[n].merit).toBeGreaterThanOrEqual(trace[n - 1].merit);
    }
    const measure = new LayoutFigures(options);
    const row = new Float64Array(FIGURE_COUNT);
    let gridBest = 0;
    for (let gap = 5; gap <= 110; gap += 2.5) {
      for (let homeHeight = 120; homeHeight <= 180; homeHeight += 2) {
        measure.measure(compileMechanism(withDimensions(search.design, { baseGap: gap * DEG, homeHeight })), row);
        const figures = namedFigures(row);
        if (figures.homeFirmness >= 0.4 && figures.homeReachable === 1) gridBest = Math.max(gridBest, figures.reach);
      }
    }
    expect(gridBest).toBeGreaterThan(0);
    expect(best.figures.reach).toBeGreaterThanOrEqual(gridBest * (1 - 1e-3));
  });

  it('stops when told to, with what it has', () => {
    let asked = 0;
    const result = optimise(bestCondition(1), { report: () => undefined, shouldStop: () => ++asked > 3 });
    expect(result.stoppedEarly).toBe(true);
    expect(result.trace.length).toBe(4);
    expect(Number.isFinite(result.best.figures.reach)).toBe(true);
  });
});
