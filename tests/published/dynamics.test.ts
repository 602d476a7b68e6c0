import { describe, expect, it } from 'vitest';
import { InverseDynamics, type Moment } from '../../src/kinematics/dynamics.ts';
import { type LegMasses, MASSLESS } from '../../src/kinematics/leg-masses.ts';
import { legLengths } from '../../src/kinematics/legs.ts';
import { type Load, payloadOnly } from '../../src/kinematics/load.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { assessForces } from '../../src/kinematics/statics.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { identity3, multiply3, rotate, rotationFromAngles } from '../../src/math/rotation.ts';
import { add, at, cross, dot, scale, subtract, unit, type Vec3 } from '../../src/math/vec3.ts';
import { mechanismOf, points, referenceLayout } from '../kinematics/designs.ts';
import tsai from './data/inverse-dynamics.json' with { type: 'json' };

/*
 * Source of data/inverse-dynamics.json: geometry after L.-W. Tsai, J. Mech. Des. 122(1), 2000, 3-9 (recalled from memory); the
 * forces were computed beforehand by virtual work and, independently, by a general physics engine (agreement 1.4e-8 N).
 */
const metres = (flat: readonly (readonly number[])[]) => flat.flat().map((entry) => entry * 1000);
const legs: LegMasses = {
  barrelMass: tsai.mCylinder,
  barrelCentre: 1000 * tsai.e1,
  barrelInertia: 1e6 * tsai.Itransverse,
  rodMass: tsai.mPiston,
  rodCentre: 1000 * tsai.e2,
  rodInertia: 1e6 * tsai.Itransverse,
};
const load: Load = {
  ...payloadOnly({
    mass: tsai.mPlatform,
    centre: [0, 0, 0],
    inertia: [1e6 * tsai.Iplatform[0], 1e6 * tsai.Iplatform[1], 1e6 * tsai.Iplatform[2]],
  }),
  gravity: [0, 0, -tsai.g],
};
const mechanism = mechanismOf(points(metres(tsai.base)), points(metres(tsai.platform)), 1000);

/** p = (-1.5 + 0.2 sin wt, 0.2 sin wt, 1 + 0.2 sin wt) m, not turning. */
function straight(t: number): Moment {
  const w = tsai.omega;
  const [s, c] = [200 * Math.sin(w * t), 200 * Math.cos(w * t)];
  return {
    pose: { p_BoTo_B: [-1500 + s, s, 1000 + s], R_BP: identity3() },
    velocity: [w * c, w * c, w * c],
    acceleration: [-w * w * s, -w * w * s, -w * w * s],
    turning: [0, 0, 0],
    turningAcceleration: [0, 0, 0],
  };
}

const still = (pose: Pose): Moment => ({
  pose,
  velocity: [0, 0, 0],
  acceleration: [0, 0, 0],
  turning: [0, 0, 0],
  turningAcceleration: [0, 0, 0],
});

function expectForces(moment: Moment, expected: readonly number[]): void {
  const dynamics = new InverseDynamics(mechanism, load, legs);
  expect(dynamics.at(moment)).toBe(true);
  for (const [leg, force] of expected.entries()) expect(Math.abs(dynamics.forces[leg] - force)).toBeLessThan(1e-6);
}

describe('leg forces on the move', () => {
  for (const [time, forces] of Object.entries(tsai.T1))
    it(`agree with virtual work and a physics engine at ${time} s of the worked straight motion`, () => {
      expectForces(straight(Number(time)), forces);
    });

  it('agree with them at rest', () => {
    expectForces(still({ p_BoTo_B: [-1500, 0, 1000], R_BP: identity3() }), tsai.static);
  });
});

/** A smooth motion with all six coordinates busy, by plain functions of time. */
function busy(t: number): { readonly pose: Pose; readonly angles: Vec3 } {
  const angles: Vec3 = [0.2 * Math.sin(3 * t), 0.15 * Math.cos(2 * t + 0.3), 0.3 * Math.sin(1.7 * t - 0.4)];
  return {
    pose: {
      p_BoTo_B: [12 * Math.sin(2 * t), 9 * Math.cos(3 * t), 180 + 14 * Math.sin(4 * t + 1)],
      R_BP: rotationFromAngles({ roll: angles[0], pitch: angles[1], yaw: angles[2] }),
    },
    angles,
  };
}

/** Step of central differences [s]: their error goes with its square, rounding with its inverse square; both near 1e-7 here. */
const STEP = 2e-4;

/** Velocities and accelerations of a motion by central differences, turning from the rotation matrices alone. */
function differenced(t: number): Moment {
  const [before, now, after] = [busy(t - STEP).pose, busy(t).pose, busy(t + STEP).pose];
  const spin = (from: Pose, to: Pose, h: number): Vec3 => {
    const R = multiply3(to.R_BP, transposed(from.R_BP));
    const half: Vec3 = [(R[7] - R[5]) / 2, (R[2] - R[6]) / 2, (R[3] - R[1]) / 2];
    const sine = Math.hypot(...half);
    return scale(half, Math.asin(sine) / sine / h);
  };
  const velocity = scale(subtract(after.p_BoTo_B, before.p_BoTo_B), 1 / (2 * STEP));
  const acceleration = scale(
    subtract(subtract(after.p_BoTo_B, now.p_BoTo_B), subtract(now.p_BoTo_B, before.p_BoTo_B)),
    1 / (STEP * STEP),
  );
  const turning = spin(before, after, 2 * STEP);
  const turningAcceleration = scale(subtract(spin(now, after, STEP), spin(before, now, STEP)), 1 / STEP);
  return { pose: now, velocity, acceleration, turning, turningAcceleration };
}

const transposed = (R: Float64Array) => Float64Array.of(R[0], R[3], R[6], R[1], R[4], R[7], R[2], R[5], R[8]);

const demoLegs: LegMasses = {
  barrelMass: 0.4,
  barrelCentre: 55,
  barrelInertia: 420,
  rodMass: 0.15,
  rodCentre: 40,
  rodInertia: 160,
};
const demoLoad: Load = {
  ...payloadOnly({ mass: 2.5, centre: [6, -4, 30], inertia: [9000, 7000, 11000, -500, 800, 300] }),
  force: [0, 0, 0],
};
const off = (): Mechanism => referenceLayout({ tool: [4, -7, 25] });

/** Kinetic and potential energy [N mm] of payload and legs, each body by its own moving mass centre: the test's own bookkeeping. */
function energy(layout: Mechanism, t: number): number {
  const h = STEP;
  const g = 9.80665;
  const { mass, centre, inertia = [0, 0, 0] } = demoLoad.payload;
  const centreAt = (time: number): Vec3 => {
    const { pose } = busy(time);
    return add(pose.p_BoTo_B, rotate(pose.R_BP, subtract(centre, layout.p_PoTo_P)));
  };
  const rate = (f: (time: number) => Vec3): Vec3 => scale(subtract(f(t + h), f(t - h)), 1 / (2 * h));
  const speed2 = (f: (time: number) => Vec3): number => dot(rate(f), rate(f));
  const { pose, turning } = differenced(t);
  const spinP: Vec3 = [0, 1, 2].map((k) => [0, 1, 2].reduce((s, n) => s + pose.R_BP[3 * n + k] * turning[n], 0)) as [
    number,
    number,
    number,
  ];
  const [xx, yy, zz, xy = 0, xz = 0, yz = 0] = inertia;
  const spin: Vec3 = [
    xx * spinP[0] + xy * spinP[1] + xz * spinP[2],
    xy * spinP[0] + yy * spinP[1] + yz * spinP[2],
    xz * spinP[0] + yz * spinP[1] + zz * spinP[2],
  ];
  let sum = (mass * speed2(centreAt) + dot(spinP, spin)) / 2000 + mass * g * centreAt(t)[2];
  for (let leg = 0; leg < 6; leg++) {
    const base = at(layout.centres.base, leg);
    const joint = (time: number): Vec3 => {
      const moved = busy(time).pose;
      return add(moved.p_BoTo_B, rotate(moved.R_BP, at(layout.p_ToBi_P, leg)));
    };
    const u = (time: number): Vec3 => unit(subtract(joint(time), base));
    const barrel = (time: number): Vec3 => add(base, scale(u(time), demoLegs.barrelCentre));
    const rod = (time: number): Vec3 => subtract(joint(time), scale(u(time), demoLegs.rodCentre));
    const spin2 = dot(cross(u(t), rate(u)), cross(u(t), rate(u)));
    sum += (demoLegs.barrelMass * speed2(barrel) + demoLegs.rodMass * speed2(rod)) / 2000;
    sum += ((demoLegs.barrelInertia + demoLegs.rodInertia) * spin2) / 2000;
    sum += demoLegs.barrelMass * g * barrel(t)[2] + demoLegs.rodMass * g * rod(t)[2];
  }
  return sum;
}

describe('dynamics of legs and payload, all coordinates moving', () => {
  it('does as much work as the energy of all bodies grows by (invariant; bodies counted one by one here)', () => {
    const layout = off();
    const dynamics = new InverseDynamics(layout, demoLoad, demoLegs);
    for (const t of [0, 0.21, 0.4, 0.77, 1.3]) {
      expect(dynamics.at(differenced(t))).toBe(true);
      const power = dynamics.forces.reduce((sum, force, leg) => sum + force * dynamics.speeds[leg], 0);
      const grown = (energy(layout, t + 1e-3) - energy(layout, t - 1e-3)) / 2e-3;
      // differences of differences: good to some 1e-6 of the several thousand N mm/s that the legs exchange
      expect(Math.abs(power - grown)).toBeLessThan(2e-5 * Math.max(1000, Math.abs(grown)));
    }
  });

  it('gives leg speeds and accelerations that are the differences of the lengths (finite difference)', () => {
    const layout = off();
    const dynamics = new InverseDynamics(layout, demoLoad, demoLegs);
    const lengths = (t: number) => legLengths(layout, busy(t).pose);
    for (const t of [0.1, 0.5, 0.9]) {
      dynamics.at(differenced(t));
      const [before, now, after] = [lengths(t - STEP), lengths(t), lengths(t + STEP)];
      for (let leg = 0; leg < 6; leg++) {
        expect(dynamics.speeds[leg]).toBeCloseTo((after[leg] - before[leg]) / (2 * STEP), 4);
        expect(dynamics.accelerations[leg]).toBeCloseTo((after[leg] - 2 * now[leg] + before[leg]) / STEP ** 2, 3);
      }
    }
  });

  it('at rest and with weightless legs is statics (independent path; seed 3)', () => {
    const random = seededRandom(3);
    const layout = off();
    const dynamics = new InverseDynamics(layout, demoLoad, MASSLESS);
    for (let n = 0; n < 20; n++) {
      const { pose } = busy(uniform(random, 0, 5));
      expect(dynamics.at(still(pose))).toBe(true);
      const rest = assessForces(layout, pose, demoLoad);
      if (!rest.ok) throw new Error(rest.fault.message);
      for (let leg = 0; leg < 6; leg++) expect(dynamics.forces[leg]).toBeCloseTo(rest.value.forces[leg], 9);
    }
  });

  it('holds every body in balance: joint forces carry payload and legs together (Newton for the whole)', () => {
    const layout = off();
    const dynamics = new InverseDynamics(layout, demoLoad, demoLegs);
    const moment = differenced(0.33);
    dynamics.at(moment);
    // force on the payload = m (a_c - g)
    let sum: Vec3 = [0, 0, 0];
    for (let leg = 0; leg < 6; leg++) sum = add(sum, at(dynamics.jointForces, leg));
    const h = STEP;
    const centreAt = (time: number): Vec3 => {
      const { pose } = busy(time);
      return add(pose.p_BoTo_B, rotate(pose.R_BP, subtract(demoLoad.payload.centre, layout.p_PoTo_P)));
    };
    const a = scale(add(subtract(centreAt(0.33 + h), scale(centreAt(0.33), 2)), centreAt(0.33 - h)), 1 / h ** 2 / 1000);
    for (let n = 0; n < 3; n++) expect(sum[n]).toBeCloseTo(2.5 * (a[n] + (n === 2 ? 9.80665 : 0)), 4);
  });
});
