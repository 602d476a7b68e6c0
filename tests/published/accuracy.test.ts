import { describe, expect, it } from 'vitest';
import { assessAccuracy, offsetEffects } from '../../src/kinematics/accuracy.ts';
import { NO_ERRORS, sameErrors } from '../../src/kinematics/error-sources.ts';
import { invertedJacobian } from '../../src/kinematics/inverse-jacobian.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { DEG, mechanismOf, points, referenceLayout } from '../kinematics/designs.ts';

const level = poseFromAngles({ position: [0, 0, 0], roll: 0, pitch: 0, yaw: 0 });

describe('a published first-order error analysis', () => {
  // Kinematic Modeling, Linearization and First-Order Error Analysis, in Parallel Manipulators, Towards New Applications,
  // I-Tech 2008, Table 1 and eq. (23), metres. The x of joints 1 and 4 is read as 0.025: the stored text prints 0.250,
  // which contradicts the printed leg lengths (an inference, not confirmed against print).
  const base = [
    [0.025, 0.886, 1.221],
    [-0.78, -0.421, 1.221],
    [0.755, -0.465, 1.221],
    [-0.025, 0.886, 1.933],
    [-0.755, -0.465, 1.933],
    [0.78, -0.421, 1.933],
  ];
  const platform = [
    [-0.126, 0.18, 0.2],
    [-0.093, -0.199, 0.2],
    [0.219, 0.019, 0.2],
    [0.115, 0.164, 0.4],
    [-0.199, 0.017, 0.4],
    [0.085, -0.181, 0.4],
  ];
  const mechanism = mechanismOf(points(base.flat()), points(platform.flat()), 1, { home: level });

  it('moves 11.528 um when every leg is 10 um long', () => {
    const effects = offsetEffects(mechanism, level, 10e-6);
    if (!effects.ok) throw new Error(effects.fault.message);
    // to the last printed digit
    expect(Math.hypot(...effects.value.allLegs.translation) * 1e6).toBeCloseTo(11.528, 3);
  });

  it('has the published magnitudes of the inverse Jacobian', () => {
    const inverted = invertedJacobian(mechanism, level);
    if (!inverted.ok) throw new Error(inverted.fault.message);
    const published = [
      [0.058, 0.617, 0.558, 0.01, 0.557, 0.567],
      [0.678, 0.289, 0.39, 0.649, 0.333, 0.316],
      [0.154, 0.154, 0.154, 0.23, 0.23, 0.23],
      [0.905, 2.13, 1.22, 0.103, 2.52, 2.41],
      [1.93, 0.181, 1.75, 2.84, 1.33, 1.51],
      [2.23, 2.23, 2.23, 2.02, 2.02, 2.02],
    ].flat();
    // Translation rows: half a printed digit and the geometry's own three digits. Rotation rows: the same rounding of the
    // geometry moves them by up to 0.02, measured below, so they are held to that and no closer.
    const spread = roundingSpread(inverted.value.inverse);
    published.forEach((magnitude, n) => {
      const difference = Math.abs(Math.abs(inverted.value.inverse[n]) - magnitude);
      if (n < 18) expect(difference).toBeLessThan(0.006);
      else expect(difference).toBeLessThan(spread[n] + 0.0005);
    });
    expect(Math.max(...spread)).toBeLessThan(0.03);
  });

  /** Largest change of each entry over 500 seeded geometries that round to the printed one. */
  function roundingSpread(nominal: Float64Array): Float64Array {
    const random = seededRandom(2008);
    const jitter = (rows: number[][]) => points(rows.flat().map((entry) => entry + uniform(random, -5e-4, 5e-4)));
    const spread = new Float64Array(36);
    for (let n = 0; n < 500; n++) {
      const other = invertedJacobian(mechanismOf(jitter(base), jitter(platform), 1, { home: level }), level);
      if (!other.ok) throw new Error(other.fault.message);
      other.value.inverse.forEach((entry, k) => {
        spread[k] = Math.max(spread[k], Math.abs(entry - nominal[k]));
      });
    }
    return spread;
  }
});

describe('the reference layout at home', () => {
  // Trade figures computed for this layout beforehand, by a separate script: legs 0.05 mm off, rings 100 and 70 mm,
  // gaps 20/20 deg, 150 mm up. Printed to 1 um and 1 mdeg.
  const mechanism = referenceLayout();
  const accuracy = assessAccuracy(mechanism, mechanism.home, sameErrors({ ...NO_ERRORS, zero: 0.05 }));
  if (!accuracy.ok) throw new Error(accuracy.fault.message);
  const { worst, rss } = accuracy.value;
  const micrometres = (v: readonly number[]) => v.map((entry) => Math.round(entry * 1e3));
  const millidegrees = (v: readonly number[]) => v.map((entry) => Math.round((entry / DEG) * 1e3));

  it('errs by 159, 167, 54 um and 54, 60, 104 mdeg at worst', () => {
    expect(micrometres(worst.translation)).toEqual([159, 167, 54]);
    expect(millidegrees(worst.rotation)).toEqual([54, 60, 104]);
  });

  it('errs by 73, 73, 22 um and 26, 26, 42 mdeg as a root of summed squares', () => {
    expect(micrometres(rss.translation)).toEqual([73, 73, 22]);
    expect(millidegrees(rss.rotation)).toEqual([26, 26, 42]);
  });

  it('turns one leg 1 mm long into 0.87 mm of shift and 0.46 deg of turn', () => {
    // figures of the same page: "+1 mm on one leg shifts 0.87 mm and tilts 0.46 deg"
    const effects = offsetEffects(mechanism, mechanism.home, 1);
    if (!effects.ok) throw new Error(effects.fault.message);
    const { allLegs, oneLeg } = effects.value;
    for (const { translation, rotation } of oneLeg) {
      expect(Math.hypot(...translation)).toBeCloseTo(0.87, 2);
      expect(Math.hypot(...rotation) / DEG).toBeCloseTo(0.46, 2);
    }
    // all six: a change of height alone, by L/h (derived: dl = (h/L) dz at a level pose)
    expect(allLegs.translation[2]).toBeCloseTo(163.3258 / 150, 5);
    expect(Math.hypot(allLegs.translation[0], allLegs.translation[1])).toBeLessThan(1e-12);
    expect(Math.hypot(...allLegs.rotation)).toBeLessThan(1e-14);
  });
});
