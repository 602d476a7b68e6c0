import { describe, expect, it } from 'vitest';
import { legLengths } from '../../src/kinematics/legs.ts';
import { type Balance, type Load, payloadOnly } from '../../src/kinematics/load.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { type Pose, platformOrigin, poseFromAngles } from '../../src/kinematics/pose.ts';
import { assessForces } from '../../src/kinematics/statics.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { multiply3, rotate, rotationAbout } from '../../src/math/rotation.ts';
import { add, dot, length, scale, subtract, unit, type Vec3 } from '../../src/math/vec3.ts';
import { DEG, mechanismOf, randomPose, referenceLayout, ring } from './designs.ts';

function forcesOf(mechanism: Mechanism, pose: Pose, load: Load) {
  const result = assessForces(mechanism, pose, load);
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
}

const place = (mechanism: Mechanism, pose: Pose, point: Vec3): Vec3 =>
  add(platformOrigin(pose, mechanism.p_PoTo_P), rotate(pose.R_BP, point));

/** Potential energy of payload and balances [N mm]; an outside force and torque are left out. */
function potential(mechanism: Mechanism, pose: Pose, { payload, gravity, balances }: Load): number {
  let energy = -payload.mass * dot(gravity, place(mechanism, pose, payload.centre));
  for (const balance of balances) {
    const stretch = length(subtract(balance.anchor_B, place(mechanism, pose, balance.attach_P)));
    energy +=
      balance.kind === 'counterweight'
        ? balance.pull * stretch
        : 0.5 * balance.rate * (stretch - balance.freeLength) ** 2;
  }
  return energy;
}

describe('leg forces', () => {
  const mechanism = referenceLayout({ tool: [4, -6, 30] });
  const balances: readonly Balance[] = [
    { kind: 'counterweight', anchor_B: [0, 20, 900], attach_P: [5, 0, 10], pull: 12 },
    { kind: 'spring', anchor_B: [3, 0, 0], attach_P: [0, 2, 0], rate: 0.08, freeLength: 260 },
  ];

  it('do the work that payload and balances store, for small motions of 20 poses (seed 31)', () => {
    const random = seededRandom(31);
    for (let n = 0; n < 20; n++) {
      const pose = randomPose(random, 180, 15, 12 * DEG);
      const load: Load = {
        payload: { mass: 2.5, centre: [10, -4, 25] },
        gravity: [uniform(random, -3, 3), uniform(random, -3, 3), -9],
        force: [0, 0, 0],
        torque: [0, 0, 0],
        balances,
      };
      const { forces } = forcesOf(mechanism, pose, load);
      const step = 1e-3;
      const shift: Vec3 = [uniform(random, -step, step), uniform(random, -step, step), uniform(random, -step, step)];
      const axis = unit([uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)]);
      const turn = step / 100;
      const moved = (sign: number): Pose => ({
        p_BoTo_B: add(pose.p_BoTo_B, scale(shift, sign)),
        R_BP: multiply3(rotationAbout(axis, sign * turn), pose.R_BP),
      });
      // central differences: errors of third order in a step of 1e-3 mm
      const stored = potential(mechanism, moved(1), load) - potential(mechanism, moved(-1), load);
      const [longer, shorter] = [legLengths(mechanism, moved(1)), legLengths(mechanism, moved(-1))];
      const work = forces.reduce((sum, force, leg) => sum + force * (longer[leg] - shorter[leg]), 0);
      expect(Math.abs(work - stored)).toBeLessThan(1e-6 * step * 30);
    }
  });

  it('hold an outside force and torque: the sum of leg forces and moments is opposite', () => {
    const pose = poseFromAngles({ position: [5, 8, 190], roll: 0.1, pitch: -0.05, yaw: 0.2 });
    const load: Load = {
      payload: { mass: 0, centre: [0, 0, 0] },
      gravity: [0, 0, -9.8],
      force: [3, -2, 7],
      torque: [120, 40, -90],
      balances: [],
    };
    const { forces } = forcesOf(mechanism, pose, load);
    // written out joint by joint, without the Jacobian
    let force: Vec3 = [0, 0, 0];
    let moment: Vec3 = [0, 0, 0];
    for (let leg = 0; leg < 6; leg++) {
      const joint = mechanism.centres.platform.subarray(3 * leg, 3 * leg + 3);
      const end = place(mechanism, pose, [joint[0], joint[1], joint[2]]);
      const start = mechanism.centres.base.subarray(3 * leg, 3 * leg + 3);
      const push = scale(unit(subtract(end, [start[0], start[1], start[2]])), forces[leg]);
      const arm = subtract(end, pose.p_BoTo_B);
      force = add(force, push);
      moment = add(moment, [
        arm[1] * push[2] - arm[2] * push[1],
        arm[2] * push[0] - arm[0] * push[2],
        arm[0] * push[1] - arm[1] * push[0],
      ]);
    }
    force.forEach((entry, axis) => expect(entry).toBeCloseTo(-load.force[axis], 10));
    moment.forEach((entry, axis) => expect(entry).toBeCloseTo(-load.torque[axis], 8));
  });

  it('are all zero when a counterweight over the centre of mass carries everything', () => {
    const load: Load = {
      ...payloadOnly({ mass: 2, centre: [0, 0, 20] }),
      gravity: [0, 0, -10],
      balances: [{ kind: 'counterweight', anchor_B: [0, 0, 5000], attach_P: [0, 0, 20], pull: 20 }],
    };
    const level = referenceLayout();
    for (const force of forcesOf(level, level.home, load).forces) expect(Math.abs(force)).toBeLessThan(1e-12);
  });

  it('name the largest push and pull, and mixed signs', () => {
    const level = referenceLayout();
    const turned = poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 75 * DEG });
    const load = payloadOnly({ mass: 2, centre: [0, 0, 0] });
    const home = forcesOf(level, level.home, load);
    expect(home.largestPull).toBeNull();
    expect(home.mixedSigns).toBe(false);
    expect(home.explanation).toBeNull();
    const report = forcesOf(level, turned, load);
    expect(report.mixedSigns).toBe(true);
    expect(report.largestPush?.force).toBe(Math.max(...report.forces));
    expect(report.largestPull?.force).toBe(Math.min(...report.forces));
  });

  it('that run away are explained in words', () => {
    const level = referenceLayout();
    const load = payloadOnly({ mass: 2, centre: [0, 0, 0] });
    const turned = poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 88 * DEG });
    const { explanation, forces } = forcesOf(level, turned, load);
    expect(Math.max(...forces)).toBeGreaterThan(100);
    expect(explanation).toMatch(/^Leg \d (pushes|pulls) with \d+ N, more than the whole load of 19\.6 N/);
    expect(explanation).toContain('(a turn)');
    const wall = poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 90 * DEG });
    const singular = assessForces(level, wall, load);
    expect(!singular.ok && singular.fault.kind).toBe('singular');
  });

  for (const size of [1e-3, 1, 1e3])
    it(`do not depend on the layout's size (x${size})`, () => {
      const of = (k: number) =>
        forcesOf(
          mechanismOf(ring(100 * k, 20), ring(70 * k, 20), 150 * k),
          poseFromAngles({ position: [10 * k, 0, 150 * k], roll: 0.1, pitch: 0.1, yaw: 0.3 }),
          payloadOnly({ mass: 2, centre: [0, 0, 20 * k] }),
        ).forces;
      const [one, other] = [of(1), of(size)];
      one.forEach((force, leg) => expect(other[leg]).toBeCloseTo(force, 9));
    });

  it('refuse numbers that mean nothing, by name', () => {
    const message = (load: Partial<Load>) => {
      const result = assessForces(mechanism, mechanism.home, {
        ...payloadOnly({ mass: 1, centre: [0, 0, 0] }),
        ...load,
      });
      return result.ok ? '' : result.fault.message;
    };
    expect(message({ payload: { mass: -2, centre: [0, 0, 0] } })).toBe(
      'Payload mass: -2 kg; it must be a number of at least 0.',
    );
    expect(message({ force: [Number.NaN, 0, 0] })).toBe('Outside force: NaN, 0, 0; each must be a finite number.');
    expect(message({ balances: [{ kind: 'counterweight', anchor_B: [0, 0, 1], attach_P: [0, 0, 0], pull: -3 }] })).toBe(
      'Balance 1, pull: -3; it must be a number of at least 0.',
    );
    expect(message({ payload: { mass: 1, centre: [0, 0, 0], inertia: [-1, 0, 0] } })).toContain('inertia');
  });
});
