import { describe, expect, it } from 'vitest';
import { legStates } from '../../src/kinematics/legs.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import { type PoseAngles, poseFromAngles } from '../../src/kinematics/pose.ts';
import { assessForces } from '../../src/kinematics/statics.ts';
import { type CurveRange, curveThrough } from '../../src/reach/field/curves.ts';
import type { FieldSettings } from '../../src/reach/field/field-settings.ts';
import type { Floor } from '../../src/terms/quantities.ts';
import { DEG, referenceLayout } from '../kinematics/designs.ts';

const home: PoseAngles = { position: [0, 0, 150], roll: 0, pitch: 0, yaw: 0 };
const load = payloadOnly({ mass: 2, centre: [0, 0, 0] });
const settings: FieldSettings = { errors: null, stiffness: null, load, clearance: null };

const curve = (mechanism = referenceLayout(), range: CurveRange, pose = home, floors: readonly Floor[] = []) => {
  const result = curveThrough(mechanism, pose, range, settings, ['legForce', 'condition'], floors);
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
};

describe('a curve through a pose', () => {
  it('along yaw has its walls at +-90 deg (derived: cos yaw in the determinant)', () => {
    const { walls, usable, quantities, at } = curve(referenceLayout(), {
      number: 5,
      low: -2,
      high: 2,
      samples: 81,
    });
    expect(walls.map(({ cause }) => cause.kind)).toEqual(['singular', 'singular']);
    expect(walls[0].at / DEG).toBeCloseTo(-90, 8);
    expect(walls[1].at / DEG).toBeCloseTo(90, 8);
    expect((usable?.low ?? 0) / DEG).toBeCloseTo(-90, 8);
    expect((usable?.high ?? 0) / DEG).toBeCloseTo(90, 8);
    // the same numbers as at single poses
    const pose = poseFromAngles({ ...home, yaw: at[50] });
    const forces = assessForces(referenceLayout(), pose, load);
    if (!forces.ok) throw new Error(forces.fault.message);
    expect(quantities.legForce?.[50]).toBeCloseTo(Math.max(...forces.value.forces.map(Math.abs)), 9);
  });

  it('along height ends where the legs do: h^2 = L^2 - rho^2 (derived)', () => {
    const mechanism = referenceLayout({ legs: { min: 130, max: 190, barrelDiameter: 22, rodDiameter: 10 } });
    const rho2 = 100 ** 2 + 70 ** 2 - 2 * 100 * 70 * Math.cos(40 * DEG);
    const { walls, usable } = curve(mechanism, { number: 2, low: 90, high: 210, samples: 61 });
    expect(usable?.low).toBeCloseTo(Math.sqrt(130 ** 2 - rho2), 8);
    expect(usable?.high).toBeCloseTo(Math.sqrt(190 ** 2 - rho2), 8);
    // all six legs at once, at either end
    expect(walls).toHaveLength(12);
    expect(new Set(walls.map(({ cause }) => (cause.kind === 'limit' ? cause.limit.leg : 0)))).toEqual(
      new Set([1, 2, 3, 4, 5, 6]),
    );
  });

  it('is cut by a floor, and has no usable stretch where the pose itself breaks a limit', () => {
    const range = { number: 5, low: -1.5, high: 1.5, samples: 61 };
    const floors: readonly Floor[] = [{ quantity: 'legForce', value: 10 }];
    const { usable } = curve(referenceLayout(), range, home, floors);
    const at = (yaw: number) => {
      const forces = assessForces(referenceLayout(), poseFromAngles({ ...home, yaw }), load);
      return forces.ok ? Math.max(...forces.value.forces.map(Math.abs)) : Number.POSITIVE_INFINITY;
    };
    expect(at(usable?.high ?? 0)).toBeCloseTo(10, 6);
    expect(at(usable?.low ?? 0)).toBeCloseTo(10, 6);
    const short = referenceLayout({ legs: { min: 10, max: 100, barrelDiameter: 22, rodDiameter: 10 } });
    expect(legStates(short, short.home)[0].violations).toContain('legTooLong');
    expect(curve(short, { number: 0, low: -10, high: 10, samples: 5 }).usable).toBeNull();
  });

  it('refuses an empty range', () => {
    const result = curveThrough(referenceLayout(), home, { number: 0, low: 1, high: 1, samples: 5 }, settings, []);
    expect(!result.ok && result.fault.message).toContain('from 1 to 1');
  });
});
