import { describe, expect, it } from 'vitest';
import { jacobian, scaledJacobian } from '../../src/kinematics/jacobian.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { LIMIT_NAMES } from '../../src/kinematics/limits.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { seededRandom } from '../../src/math/random.ts';
import { identity3 } from '../../src/math/rotation.ts';
import { svd } from '../../src/math/svd.ts';
import { measureReach } from '../../src/reach/columns/meter.ts';
import { reachCloud } from '../../src/reach/shell/cloud.ts';
import { DEG, mechanismOf, ring } from '../kinematics/designs.ts';
import { tiltedReach } from './random-layouts.ts';

const SEED = 3;

describe('the cloud', () => {
  it(`lies within all limits, about as many points as asked (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    let clouds = 0;
    for (let n = 0; n < 12; n++) {
      const { mechanism, R_BP } = tiltedReach(random);
      const cloud = reachCloud(mechanism, R_BP, { points: 800 });
      if (cloud.count === 0) continue;
      clouds++;
      expect(Math.abs(cloud.count / 800 - 1)).toBeLessThan(0.05);
      expect(cloud.positions.length).toBe(3 * cloud.count);
      for (let i = 0; i < cloud.count; i += 7) {
        const [x, y, z] = cloud.positions.subarray(3 * i, 3 * i + 3);
        const states = legStates(mechanism, { p_BoTo_B: [x, y, z], R_BP });
        expect(states.flatMap(({ violations }) => violations)).toEqual([]);
      }
    }
    expect(clouds).toBeGreaterThan(5);
  });

  it(`knows the independence of the legs at each point (seed ${SEED})`, () => {
    const { mechanism, R_BP } = tiltedReach(seededRandom(SEED));
    const cloud = reachCloud(mechanism, R_BP, { points: 300 });
    expect(cloud.count).toBeGreaterThan(250);
    for (let i = 0; i < cloud.count; i++) {
      const [x, y, z] = cloud.positions.subarray(3 * i, 3 * i + 3);
      const J = scaledJacobian(jacobian(mechanism, { p_BoTo_B: [x, y, z], R_BP }), mechanism.characteristicLength);
      const { values } = svd(J, 6);
      expect(cloud.smallest[i]).toBeCloseTo(values[5], 9);
      expect(cloud.condition[i] / (values[0] / values[5])).toBeCloseTo(1, 8);
    }
  });

  it('calls every point of a layout singular everywhere singular', () => {
    const joint = { tiltLimit: 30 * DEG, mount: { kind: 'square' } } as const;
    const mechanism = mechanismOf(ring(100, 60), ring(80, 60), 150, {
      legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 },
      joints: { base: joint, platform: joint },
    });
    const cloud = reachCloud(mechanism, identity3(), { points: 200 });
    expect(cloud.count).toBeGreaterThan(150);
    expect(cloud.smallest.every((value) => value === 0)).toBe(true);
    expect(cloud.condition.every((value) => value === Number.POSITIVE_INFINITY)).toBe(true);
  });

  // All apexes in one point, so the reach is a spherical sector, in which the share above a height is known.
  it('fills the volume evenly', () => {
    const tilt = 40 * DEG;
    const joint = { tiltLimit: tilt, mount: { kind: 'square' } } as const;
    const mechanism = mechanismOf(ring(100, 40), ring(100, 80), 170, {
      legs: { min: 1, max: 200, barrelDiameter: 22, rodDiameter: 10 },
      joints: { base: joint, platform: joint },
    });
    const cloud = reachCloud(mechanism, identity3(), { points: 6000 });
    const share = (within: (x: number, y: number, z: number) => boolean) => {
      let sum = 0;
      for (let i = 0; i < cloud.count; i++) {
        const [x, y, z] = cloud.positions.subarray(3 * i, 3 * i + 3);
        if (within(x, y, z)) sum++;
      }
      return sum / cloud.count;
    };
    expect(share((x, y, z) => Math.hypot(x, y, z) < 150)).toBeCloseTo(0.75 ** 3, 2);
    expect(share((x) => x < 0)).toBeCloseTo(0.5, 2);
    expect(share((x, y) => x < 0 && y > 0)).toBeCloseTo(0.25, 2);
    const narrow = 20 * DEG;
    const cap = (1 - Math.cos(narrow)) / (1 - Math.cos(tilt));
    expect(share((x, y, z) => Math.hypot(x, y) < z * Math.tan(narrow))).toBeCloseTo(cap, 2);
    const near = cloud.limits.every((limit) => limit < LIMIT_NAMES.length);
    expect(near).toBe(true);
  });

  it('tells home from the mirror image below the base', () => {
    const joint = { tiltLimit: Math.PI, mount: { kind: 'square' } } as const;
    const mechanism = mechanismOf(ring(100, 20), ring(50, 20), 110, {
      legs: { min: 120, max: 150, barrelDiameter: 22, rodDiameter: 10 },
      joints: { base: joint, platform: joint },
      home: poseFromAngles({ position: [0, 0, 110], roll: 0, pitch: 0, yaw: 0 }),
    });
    const all = reachCloud(mechanism, identity3(), { points: 2000 });
    for (let i = 0; i < all.count; i++) expect(all.home[i]).toBe(all.positions[3 * i + 2] > 0 ? 1 : 0);
    const upper = reachCloud(mechanism, identity3(), { points: 2000, homeOnly: true });
    // as many points, in half of the volume
    expect(upper.count / all.count).toBeCloseTo(1, 1);
    for (let i = 0; i < upper.count; i++) expect(upper.positions[3 * i + 2]).toBeGreaterThan(0);
    expect(measureReach(mechanism, identity3()).home.islands).toBe(1);
  });

  it('is the same every time', () => {
    const { mechanism, R_BP } = tiltedReach(seededRandom(SEED));
    expect(reachCloud(mechanism, R_BP, { points: 500 })).toEqual(reachCloud(mechanism, R_BP, { points: 500 }));
  });
});
