import { describe, expect, it } from 'vitest';
import { FIGURE_COUNT, LayoutFigures } from '../../src/explore/layout-figures.ts';
import { namedFigures } from '../../src/explore/optimise.ts';
import type { RingSpec } from '../../src/kinematics/dimensions.ts';
import { compileMechanism } from '../../src/kinematics/mechanism.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { ringPlate, tableSpec } from '../explore/layouts.ts';
import { DEG } from '../kinematics/designs.ts';

// "Straight, parallel legs reach about four times the volume of legs that lean in pairs to a point, for the same parts, and equal
// rings with evenly spaced joints reach most of all, yet cannot hold themselves up." Common practice, no source.
const figures = new LayoutFigures({ tilt: 0, firmnessFloor: 0.25, deadLength: 0 });

function figuresOf(change: Partial<RingSpec>) {
  const row = new Float64Array(FIGURE_COUNT);
  figures.measure(compileMechanism(tableSpec(change)), row);
  return namedFigures(row);
}

/** The same legs and joints everywhere: 120 to 200 mm, square-mounted joints of 40 deg, home in the middle of the stroke. */
const parts = (): Partial<RingSpec> => ({
  joints: {
    base: { tiltLimit: 40 * DEG, mount: { kind: 'square' } },
    platform: { tiltLimit: 40 * DEG, mount: { kind: 'square' } },
  },
});

const at = (height: number) => poseFromAngles({ position: [0, 0, height], roll: 0, pitch: 0, yaw: 0 });

describe('straight against leaning legs', () => {
  const straight = figuresOf({ ...parts(), base: ringPlate(60, 60), platform: ringPlate(60, 60), home: at(160) });
  // both gaps closed: pairs meet in a point at either end
  const leaning = figuresOf({ ...parts(), base: ringPlate(60, 0), platform: ringPlate(60, 0), home: at(148) });

  it('reaches about four times as much (three to five counts as about four)', () => {
    expect(straight.reach / leaning.reach).toBeGreaterThan(3);
    expect(straight.reach / leaning.reach).toBeLessThan(5);
  });

  it('cannot hold itself up, and the leaning one can', () => {
    expect(straight).toMatchObject({ singularEverywhere: 1, usableReach: 0 });
    expect(leaning.singularEverywhere).toBe(0);
    expect(leaning.homeFirmness).toBeGreaterThan(0.25);
  });
});

describe('equal rings with evenly spaced joints', () => {
  it('reach most of all on a grid of gaps and ratios, and are singular at every pose', () => {
    const even = figuresOf({ ...parts(), base: ringPlate(60, 60), platform: ringPlate(60, 60) });
    expect(even.singularEverywhere).toBe(1);
    for (let base = 0; base <= 110; base += 22) {
      for (let platform = 0; platform <= 110; platform += 22) {
        for (const ratio of [0.6, 0.8, 1, 1.2]) {
          const other = figuresOf({ ...parts(), base: ringPlate(60, base), platform: ringPlate(60 * ratio, platform) });
          expect(other.reach).toBeLessThanOrEqual(even.reach * (1 + 1e-9));
        }
      }
    }
  });
});
