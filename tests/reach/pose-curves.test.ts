import { describe, expect, it } from 'vitest';
import { freeTravel } from '../../src/kinematics/free-travel.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import { anglesFromPose, type PoseAngles } from '../../src/kinematics/pose.ts';
import { seededRandom } from '../../src/math/random.ts';
import type { FieldSettings } from '../../src/reach/field/field-settings.ts';
import { knownQuantities, poseCurves } from '../../src/reach/field/pose-curves.ts';
import type { Floor } from '../../src/terms/quantities.ts';
import { DEG, referenceLayout } from '../kinematics/designs.ts';
import { kindsReach } from './random-layouts.ts';

const settings: FieldSettings = {
  errors: null,
  stiffness: null,
  load: payloadOnly({ mass: 2, centre: [0, 0, 0] }),
  clearance: null,
};

const home: PoseAngles = { position: [0, 0, 150], roll: 0, pitch: 0, yaw: 0 };
const legs = { min: 130, max: 190, barrelDiameter: 22, rodDiameter: 10 };
const freeJoints = referenceLayout({ legs });

function curvesOf(mechanism = freeJoints, pose = home, floors: readonly Floor[] = []) {
  const found = poseCurves(mechanism, pose, settings, floors);
  if (!found.ok) throw new Error(found.fault.message);
  return found.value;
}

describe('curves along all six numbers of a pose', () => {
  it('hold every quantity that can be computed, and no other', () => {
    const { curves, quantities } = curvesOf();
    expect(quantities).toEqual(knownQuantities(settings));
    expect(quantities).not.toContain('stiffness');
    expect(quantities).toContain('legForce');
    for (const curve of curves) expect(Object.keys(curve.quantities)).toEqual([...quantities]);
  });

  it('show the usable stretch whole, with room on either side of it', () => {
    for (const { at, usable } of curvesOf().curves) {
      if (!usable) throw new Error('home is usable');
      expect(at[0]).toBeLessThan(usable.low);
      expect(at[at.length - 1]).toBeGreaterThan(usable.high);
    }
  });

  it('name every leg at both ends of the height: h^2 = L^2 - rho^2 (derived)', () => {
    const rho2 = 100 ** 2 + 70 ** 2 - 2 * 100 * 70 * Math.cos(40 * DEG);
    const { ends } = curvesOf().curves[2];
    expect(ends?.low.at).toBeCloseTo(Math.sqrt(130 ** 2 - rho2), 8);
    expect(ends?.high.at).toBeCloseTo(Math.sqrt(190 ** 2 - rho2), 8);
    const six = [1, 2, 3, 4, 5, 6];
    expect(ends?.low.causes).toEqual(six.map((leg) => ({ kind: 'limit', limit: { limit: 'legTooShort', leg } })));
    expect(ends?.high.causes).toEqual(six.map((leg) => ({ kind: 'limit', limit: { limit: 'legTooLong', leg } })));
  });

  it('show the singular poses at a yaw of +-90 deg, also where joints stop it long before (derived: cos yaw in det J)', () => {
    const joints = { tiltLimit: 20 * DEG, mount: { kind: 'aimed' } } as const;
    const tight = referenceLayout({ legs: { ...legs, max: 230 }, joints: { base: joints, platform: joints } });
    const { walls, ends, at } = curvesOf(tight).curves[5];
    const singular = walls.filter(({ cause }) => cause.kind === 'singular');
    expect(singular.map((wall) => wall.at / DEG)).toEqual([expect.closeTo(-90, 8), expect.closeTo(90, 8)]);
    expect(at[0]).toBeLessThan(-90 * DEG);
    expect(at[at.length - 1]).toBeGreaterThan(90 * DEG);
    expect((ends?.high.at ?? 0) / DEG).toBeLessThan(60);
    expect(ends?.high.causes[0]).toMatchObject({ kind: 'limit', limit: { limit: 'platformJoint' } });
  });

  it('name the floor that ends a stretch', () => {
    const { ends } = curvesOf(referenceLayout(), home, [{ quantity: 'legForce', value: 10 }]).curves[5];
    expect(ends?.low.causes).toEqual([{ kind: 'floor', quantity: 'legForce' }]);
    expect(ends?.high.causes).toEqual([{ kind: 'floor', quantity: 'legForce' }]);
  });

  it('have no usable stretch from a pose that breaks a limit, and show all that was searched', () => {
    const { curves } = curvesOf(freeJoints, { ...home, position: [0, 0, 250] });
    for (const { usable, ends } of curves) {
      expect(usable).toBeNull();
      expect(ends).toBeNull();
    }
    expect(curves[5].at[0]).toBeCloseTo((-2 * Math.PI) / 3, 12);
  });

  it('end where free travel ends, whatever the joints: two searches of one limit (seed 151)', () => {
    const random = seededRandom(151);
    let compared = 0;
    const stopped = new Set<string>();
    for (let n = 0; n < 40; n++) {
      const { mechanism } = kindsReach(random);
      const from = anglesFromPose(mechanism.home);
      const travels = freeTravel(mechanism, from);
      if (!travels.ok) continue;
      travels.value.forEach(({ down, up, step }, number) => {
        const { ends, walls } = curvesOf(mechanism, from).curves[number];
        // a singular pose ends a usable stretch and no travel
        if (!ends || walls.some(({ cause }) => cause.kind === 'singular')) return;
        for (const [stop, end] of [
          [down, ends.low],
          [up, ends.high],
        ] as const) {
          if (!stop || end.causes.length === 0) continue;
          expect(Math.abs(stop.at - end.at), `draw ${n}, number ${number}`).toBeLessThan(1e-5 * step);
          const limits = end.causes.flatMap((cause) => (cause.kind === 'limit' ? [cause.limit] : []));
          expect(limits).toContainEqual({ limit: stop.limit, leg: stop.leg });
          stopped.add(stop.limit);
          compared++;
        }
      });
    }
    expect(compared).toBeGreaterThan(100);
    expect([...stopped].sort()).toEqual(['baseJoint', 'legTooLong', 'legTooShort', 'platformJoint']);
  });
});
