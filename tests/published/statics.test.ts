import { describe, expect, it } from 'vitest';
import { type Load, payloadOnly } from '../../src/kinematics/load.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { type Pose, poseFromAngles } from '../../src/kinematics/pose.ts';
import { assessForces } from '../../src/kinematics/statics.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { rotate } from '../../src/math/rotation.ts';
import { add, cross, subtract } from '../../src/math/vec3.ts';
import { DEG, mechanismOf, referenceLayout, ring } from '../kinematics/designs.ts';
import { type ModelLoad, restInEngine } from './closed-loop-model.ts';

function forcesOf(mechanism: Mechanism, pose: Pose, load: Load) {
  const result = assessForces(mechanism, pose, load);
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
}

describe('leg forces', () => {
  it('of a level platform with the load on its axis are W L / (6 h) (derived; seed 10)', () => {
    const random = seededRandom(10);
    for (let n = 0; n < 50; n++) {
      const [R, r, h] = [uniform(random, 50, 150), uniform(random, 30, 150), uniform(random, 50, 250)];
      const [baseGap, platformGap] = [uniform(random, 0, 55), uniform(random, 0, 55)];
      const mechanism = mechanismOf(ring(R, baseGap), ring(r, platformGap), h);
      const d = (60 - (baseGap + platformGap) / 2) * DEG;
      const L = Math.sqrt(R * R + r * r - 2 * R * r * Math.cos(d) + h * h);
      const mass = uniform(random, 0.1, 30);
      const load = payloadOnly({ mass, centre: [0, 0, uniform(random, 0, 80)] });
      const { forces } = forcesOf(mechanism, mechanism.home, load);
      const expected = (mass * 9.80665 * L) / (6 * h);
      for (const force of forces) expect(Math.abs(force / expected - 1)).toBeLessThan(1e-10);
    }
  });

  it('of the reference layout under 2 kg are 3.6 N at home, and +19 and -16 N at yaw 75 deg', () => {
    // trade figures computed for this layout beforehand by a separate script
    const mechanism = referenceLayout();
    const load = payloadOnly({ mass: 2, centre: [0, 0, 0] });
    for (const force of forcesOf(mechanism, mechanism.home, load).forces) expect(force).toBeCloseTo(3.6, 1);
    const turned = poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 75 * DEG });
    const { forces, largestPush, largestPull } = forcesOf(mechanism, turned, load);
    expect(Math.round(largestPush?.force ?? 0)).toBe(19);
    expect(Math.round(largestPull?.force ?? 0)).toBe(-16);
    for (let leg = 1; leg < 6; leg++) expect(Math.sign(forces[leg])).toBe(-Math.sign(forces[leg - 1]));
  });
});

describe('leg forces against a general physics engine with closed loops', () => {
  // The engine's loop closures are soft: at rest they stay open by less than GAP mm, which over legs some 150 mm long bends
  // directions by less than 1e-5. Its legs are springs of 100 N/mm, so it rests up to 0.3 mm lower; the forces are compared
  // at the pose in which it rests.
  const GAP = 5e-4;
  const TOLERANCE = 1e-4;

  const cases: readonly { name: string; pose: Pose; load: Omit<ModelLoad, 'stiffness' | 'inertia'> }[] = [
    {
      name: 'at home, centre of mass off the axis',
      pose: poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 0 }),
      load: { mass: 2, centre: [15, -10, 30], gravity: [0, 0, -9.80665], force: [0, 0, 0], torque: [0, 0, 0] },
    },
    {
      name: 'tilted and shifted, with outside force and torque',
      pose: poseFromAngles({ position: [10, 15, 160], roll: 9 * DEG, pitch: -7 * DEG, yaw: 12 * DEG }),
      load: { mass: 3, centre: [5, 8, 40], gravity: [0, 0, -9.80665], force: [6, -4, 3], torque: [200, -300, 400] },
    },
    {
      name: 'mounted on a wall, gravity along x',
      pose: poseFromAngles({ position: [0, -8, 145], roll: -5 * DEG, pitch: 6 * DEG, yaw: 30 * DEG }),
      load: { mass: 1.5, centre: [0, 0, 25], gravity: [9.80665, 0, 0], force: [0, 0, 0], torque: [0, 0, 0] },
    },
  ];

  for (const { name, pose, load } of cases)
    it(name, async () => {
      const mechanism = referenceLayout({ tool: [5, -10, 35] });
      const rest = await restInEngine(mechanism, pose, { ...load, inertia: [2000, 2000, 2000], stiffness: 100 });
      expect(rest.gap).toBeLessThan(GAP);
      expect(rest.speed).toBeLessThan(1e-6);
      const tool = rotate(rest.R_BP, mechanism.p_PoTo_P);
      const resting: Pose = { p_BoTo_B: add(rest.platformOrigin, tool), R_BP: rest.R_BP };
      // the engine's outside force acts at the centre of mass; ours at the tool point
      const arm = rotate(rest.R_BP, subtract(load.centre, mechanism.p_PoTo_P));
      const { forces } = forcesOf(mechanism, resting, {
        payload: { mass: load.mass, centre: load.centre },
        gravity: load.gravity,
        force: load.force,
        torque: add(load.torque, cross(arm, load.force)),
        balances: [],
      });
      const largest = Math.max(...forces.map(Math.abs));
      rest.forces.forEach((force, leg) => expect(Math.abs(force - forces[leg])).toBeLessThan(TOLERANCE * largest));
    });
});
