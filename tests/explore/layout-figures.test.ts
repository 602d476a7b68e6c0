import { describe, expect, it } from 'vitest';
import { FIGURE_COUNT, LayoutFigures } from '../../src/explore/layout-figures.ts';
import { symmetryOf } from '../../src/explore/symmetry.ts';
import { assessArchitecture } from '../../src/kinematics/architecture.ts';
import { assessIndependence } from '../../src/kinematics/independence.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { compileMechanism, type Mechanism } from '../../src/kinematics/mechanism.ts';
import { seededRandom } from '../../src/math/random.ts';
import type { Mat3 } from '../../src/math/rotation.ts';
import { FIGURE_NAMES, type FigureName } from '../../src/terms/figures.ts';
import { DEG } from '../kinematics/designs.ts';
import { randomRingSpec, ringPlate, tableSpec, tiltsAbout } from './layouts.ts';

const SEED = 72;
const TILT = 8 * DEG;
const figures = new LayoutFigures({ tilt: TILT, firmnessFloor: 0.25, deadLength: 30 });

function figuresOf(mechanism: Mechanism): Record<FigureName, number> {
  const row = new Float64Array(FIGURE_COUNT);
  figures.measure(mechanism, row);
  const named = Object.fromEntries(FIGURE_NAMES.map((name, n) => [name, row[n]]));
  return named as Record<FigureName, number>;
}

/**
 * Referee: a plain count over points of a grid, every limit tested as it is defined (a platform joint above its base joint, leg
 * lengths, angles to the mount axes), no formula shared with the program.
 */
function countedReach(mechanism: Mechanism, orientations: readonly Mat3[], side: number): number {
  const { legs, tiltLimit } = mechanism;
  const needUp = Math.cos(tiltLimit.base);
  const needDown = Math.cos(tiltLimit.platform);
  // apex and the two mount axes of every leg at every orientation, nine numbers each
  const limits = orientations.flatMap((R) => legLimits(mechanism, R));
  const allowed = (x: number, y: number, z: number): boolean =>
    limits.every(([cx, cy, cz, ux, uy, uz, dx, dy, dz]) => {
      const vx = x - cx;
      const vy = y - cy;
      const vz = z - cz;
      const length = Math.sqrt(vx * vx + vy * vy + vz * vz);
      return (
        vz >= 0 &&
        length >= legs.min &&
        length <= legs.max &&
        vx * ux + vy * uy + vz * uz >= needUp * length &&
        vx * dx + vy * dy + vz * dz >= needDown * length
      );
    });
  // first a coarse look for where the reach lies, then the fine count there
  const look = legs.max / 50;
  const seen = countIn(allowed, [-legs.max, -legs.max, 0], [legs.max, legs.max, legs.max], look);
  if (seen.hits === 0) return 0;
  const low = seen.low.map((value) => value - look);
  const high = seen.high.map((value) => value + look);
  const step = Math.cbrt(((high[0] - low[0]) * (high[1] - low[1]) * (high[2] - low[2])) / side ** 3);
  return countIn(allowed, low, high, step).hits * step ** 3;
}

function legLimits({ centres, p_ToBi_P, baseAxes_B, platformAxes_P }: Mechanism, R: Mat3): number[][] {
  const turned = (flat: Float64Array, i: number) =>
    [0, 3, 6].map((r) => R[r] * flat[i] + R[r + 1] * flat[i + 1] + R[r + 2] * flat[i + 2]);
  return [0, 3, 6, 9, 12, 15].map((i) => {
    const arm = turned(p_ToBi_P, i);
    const apex = arm.map((value, axis) => centres.base[i + axis] - value);
    return [...apex, ...baseAxes_B.subarray(i, i + 3), ...turned(platformAxes_P, i).map((value) => -value)];
  });
}

function countIn(allowed: (x: number, y: number, z: number) => boolean, from: number[], to: number[], step: number) {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  let hits = 0;
  for (let x = from[0] + step / 2; x < to[0]; x += step) {
    for (let y = from[1] + step / 2; y < to[1]; y += step) {
      for (let z = from[2] + step / 2; z < to[2]; z += step) {
        if (!allowed(x, y, z)) continue;
        hits++;
        [x, y, z].forEach((value, axis) => {
          low[axis] = Math.min(low[axis], value);
          high[axis] = Math.max(high[axis], value);
        });
      }
    }
  }
  return { hits, low, high };
}

describe('figures of one layout', () => {
  it(`has the reach of a point count at random layouts (seed ${SEED})`, { timeout: 120_000 }, () => {
    const random = seededRandom(SEED);
    const errors: number[] = [];
    for (let n = 0; n < 25; n++) {
      const mechanism = compileMechanism(randomRingSpec(random));
      const counted = countedReach(mechanism, [mechanism.home.R_BP], 90);
      const { reach } = figuresOf(mechanism);
      if (counted > 10_000) errors.push(Math.abs(reach / counted - 1));
    }
    errors.sort((a, b) => a - b);
    expect(errors.length).toBeGreaterThan(12);
    // the count itself is good to about half a percent of a compact volume at 90 points a side
    expect(errors[errors.length >> 1]).toBeLessThan(0.005);
    expect(errors[errors.length - 1]).toBeLessThan(0.02);
  });

  it(`has the tilt reach of a point count over tilts toward 24 directions (seed ${SEED})`, { timeout: 120_000 }, () => {
    const random = seededRandom(SEED + 1);
    const errors: number[] = [];
    for (let n = 0; n < 25; n++) {
      const mechanism = compileMechanism(randomRingSpec(random));
      const R = mechanism.home.R_BP;
      const counted = countedReach(mechanism, tiltsAbout(R, TILT, 24), 70);
      const { tiltReach } = figuresOf(mechanism);
      if (counted > 10_000) errors.push(Math.abs(tiltReach / counted - 1));
    }
    errors.sort((a, b) => a - b);
    expect(errors.length).toBeGreaterThan(8);
    expect(errors[errors.length >> 1]).toBeLessThan(0.01);
    expect(errors[errors.length - 1]).toBeLessThan(0.02);
  });

  it('has the firmness at home of the single-pose judgement', () => {
    const random = seededRandom(SEED);
    for (let n = 0; n < 50; n++) {
      const mechanism = compileMechanism(randomRingSpec(random));
      const { singularValues } = assessIndependence(mechanism, mechanism.home, assessArchitecture(mechanism));
      expect(Math.abs(figuresOf(mechanism).homeFirmness / singularValues[5] - 1)).toBeLessThan(1e-9);
    }
  });

  it(`has its worst figures near those of many random poses of the reach, judged one by one (seed ${SEED})`, () => {
    const random = seededRandom(SEED + 2);
    let compared = 0;
    for (let n = 0; n < 24; n++) {
      const mechanism = compileMechanism(randomRingSpec(random));
      const { legs, home } = mechanism;
      const architecture = assessArchitecture(mechanism);
      let [worst, tilt, met] = [Number.POSITIVE_INFINITY, 0, 0];
      for (let k = 0; k < 40_000 && met < 1500; k++) {
        const [x, y, z] = [-0.5, -0.5, 0].map((low) => (low + random()) * legs.max);
        const pose = { p_BoTo_B: [x, y, z], R_BP: home.R_BP } as const;
        const states = legStates(mechanism, pose);
        if (states.some(({ violations, u_B }) => violations.length > 0 || u_B[2] < 0)) continue;
        met++;
        const { singularValues } = assessIndependence(mechanism, pose, architecture);
        worst = Math.min(worst, singularValues[5]);
        tilt = Math.max(tilt, ...states.map(({ baseTilt, platformTilt }) => Math.max(baseTilt, platformTilt)));
      }
      if (met < 500) continue;
      compared++;
      const { worstFirmness, jointTilt } = figuresOf(mechanism);
      // random poses seldom meet the very ends, so that the figures may be worse, and by some percent better: up to a tenth with parts as random as these
      expect(worstFirmness, `layout ${n}`).toBeLessThan(1.1 * worst + 0.002);
      expect(jointTilt, `layout ${n}`).toBeGreaterThan(tilt - 0.5 * DEG);
    }
    expect(compared).toBeGreaterThan(8);
  });

  it('gives the vertical load shared by six leaning legs: L / (6 h) a leg at home', () => {
    // derived: every leg of a level symmetric platform carries W L / (6 h); here the reach is squeezed onto home
    const L = Math.sqrt(100 ** 2 + 70 ** 2 - 2 * 100 * 70 * Math.cos(40 * DEG) + 150 ** 2);
    const legs = { min: L - 0.01, max: L + 0.01, barrelDiameter: 22, rodDiameter: 10 };
    const { forceFactor, reach } = figuresOf(compileMechanism(tableSpec({ legs })));
    expect(reach).toBeGreaterThan(0);
    expect(forceFactor).toBeCloseTo(L / (6 * 150), 3);
  });

  it('says which layouts are singular at every pose, and leaves no usable reach there', () => {
    const even = figuresOf(compileMechanism(tableSpec({ base: ringPlate(100, 60), platform: ringPlate(70, 60) })));
    expect(even).toMatchObject({ singularEverywhere: 1, usableReach: 0, homeFirmness: 0, meanFirmness: 0 });
    expect(even.forceFactor).toBe(Number.POSITIVE_INFINITY);
    expect(even.reach).toBeGreaterThan(0);
    expect(figuresOf(compileMechanism(tableSpec())).singularEverywhere).toBe(0);
  });

  it('agrees between the wedge of a symmetric layout and the whole circle', () => {
    // a hair of asymmetry in one mount makes the layout go the long way round
    const toward = Float64Array.of(0, 0, 120, 120, 240, 240).map((azimuth) => azimuth * DEG);
    const leaning = (lastly: number) => {
      const mount = {
        kind: 'leaning' as const,
        lean: 10 * DEG,
        toward: toward.map((a, n) => (n === 5 ? a + lastly : a)),
      };
      const joint = { tiltLimit: 35 * DEG, mount };
      return compileMechanism(tableSpec({ joints: { base: joint, platform: joint } }));
    };
    expect(symmetryOf(leaning(0)).copies).toBe(6);
    expect(symmetryOf(leaning(1e-6)).copies).toBe(1);
    const wedge = figuresOf(leaning(0));
    const whole = figuresOf(leaning(1e-6));
    for (const name of ['reach', 'tiltReach', 'usableReach', 'meanFirmness', 'worstFirmness', 'forceFactor'] as const) {
      expect(Math.abs(whole[name] / wedge[name] - 1)).toBeLessThan(1e-4);
    }
  });

  it('recognises three-fold symmetry without a mirror, and a common turn as no loss of it', () => {
    expect(symmetryOf(compileMechanism(tableSpec({ platform: ringPlate(70, 20, 7) }))).copies).toBe(3);
    const turned = compileMechanism(tableSpec({ base: ringPlate(100, 20, 7), platform: ringPlate(70, 20, 7) }));
    expect(symmetryOf(turned).copies).toBe(6);
    expect(figuresOf(turned).reach / figuresOf(compileMechanism(tableSpec())).reach).toBeCloseTo(1, 6);
    expect(symmetryOf(compileMechanism(tableSpec({ tool: [5, 0, 20] }))).copies).toBe(1);
  });

  it.each([1e-3, 1, 1e3])('scales (factor %d)', (factor) => {
    const spec = tableSpec();
    const { reach, worstFirmness, forceFactor } = figuresOf(
      compileMechanism({
        ...spec,
        base: ringPlate(100 * factor, 20),
        platform: ringPlate(70 * factor, 20),
        legs: { ...spec.legs, min: 120 * factor, max: 200 * factor },
        home: { ...spec.home, p_BoTo_B: [0, 0, 150 * factor] },
      }),
    );
    const plain = figuresOf(compileMechanism(spec));
    expect(reach / factor ** 3 / plain.reach).toBeCloseTo(1, 9);
    expect(worstFirmness).toBeCloseTo(plain.worstFirmness, 9);
    expect(forceFactor).toBeCloseTo(plain.forceFactor, 9);
  });
});
