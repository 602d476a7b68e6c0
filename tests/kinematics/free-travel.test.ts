import { describe, expect, it } from 'vitest';
import { freeTravel, poseNumber, withPoseNumber } from '../../src/kinematics/free-travel.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import type { MechanismSpec } from '../../src/kinematics/mechanism.ts';
import { type PoseAngles, poseFromAngles } from '../../src/kinematics/pose.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { dot, subtract, type Vec3 } from '../../src/math/vec3.ts';
import { DEG, mechanismOf, referenceLayout, ring } from './designs.ts';

const LEGS = { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 };
const home: PoseAngles = { position: [0, 0, 150], roll: 0, pitch: 0, yaw: 0 };

/** The layout of the trade's worked figures with real limits; joints aimed along the legs at home unless told. */
const limited = (tilt_deg: number, more: Partial<MechanismSpec> = {}) => {
  const joint = { tiltLimit: tilt_deg * DEG, mount: { kind: 'aimed' } } as const;
  return referenceLayout({ legs: LEGS, joints: { base: joint, platform: joint }, ...more });
};

function travelOf(mechanism: ReturnType<typeof limited>, from: PoseAngles) {
  const found = freeTravel(mechanism, from);
  if (!found.ok) throw new Error('the pose breaks a limit');
  return Object.fromEntries(found.value.map((travel) => [travel.freedom, travel]));
}

describe('free travel of one number of a pose', () => {
  // level symmetric pair of rings: L^2 = rho^2 + h^2 with rho^2 = R^2 + r^2 - 2 R r cos d, d = 60 deg - (20 + 20)/2 deg
  const rho = Math.sqrt(100 ** 2 + 70 ** 2 - 2 * 100 * 70 * Math.cos(40 * DEG));

  it('ends in height where the closed form has the legs at their limits', () => {
    const { z } = travelOf(limited(180), home);
    expect(z.up?.at).toBeCloseTo(Math.sqrt(200 ** 2 - rho ** 2), 5);
    expect(z.up?.limit).toBe('legTooLong');
    expect(z.down?.at).toBeCloseTo(Math.sqrt(120 ** 2 - rho ** 2), 5);
    expect(z.down?.limit).toBe('legTooShort');
  });

  it('ends in height where the closed form has square joints at their tilt: tan(tilt) = rho / h', () => {
    const joint = { tiltLimit: 30 * DEG, mount: { kind: 'square' } } as const;
    const mechanism = limited(0, {
      joints: { base: joint, platform: { tiltLimit: Math.PI, mount: { kind: 'square' } } },
    });
    const { z } = travelOf(mechanism, home);
    expect(z.down?.at).toBeCloseTo(rho / Math.tan(30 * DEG), 5);
    expect(z.down?.limit).toBe('baseJoint');
    const other = limited(0, { joints: { platform: joint, base: { tiltLimit: Math.PI, mount: { kind: 'square' } } } });
    expect(travelOf(other, home)['z'].down?.limit).toBe('platformJoint');
  });

  it('ends in yaw where the closed form has a leg at its longest', () => {
    // a leg between angles alpha and beta in plan: L^2 = R^2 + r^2 - 2 R r cos(beta - alpha + yaw) + h^2
    const { yaw } = travelOf(limited(180), home);
    const cosine = (100 ** 2 + 70 ** 2 + 150 ** 2 - 200 ** 2) / (2 * 100 * 70);
    expect(yaw.up?.at).toBeCloseTo(Math.acos(cosine) - 40 * DEG, 7);
    expect(yaw.down?.at).toBeCloseTo(-(Math.acos(cosine) - 40 * DEG), 7);
    expect(yaw.up?.limit).toBe('legTooLong');
  });

  it('ends in x, y, z at the nearest of the twelve spheres, solved as quadratics', () => {
    const random = seededRandom(9);
    let compared = 0;
    for (let n = 0; n < 40; n++) {
      const mechanism = mechanismOf(ring(100, uniform(random, 5, 60)), ring(70, uniform(random, 5, 60)), 150, {
        legs: LEGS,
      });
      const from: PoseAngles = {
        position: [uniform(random, -15, 15), uniform(random, -15, 15), uniform(random, 130, 170)],
        roll: uniform(random, -0.1, 0.1),
        pitch: uniform(random, -0.1, 0.1),
        yaw: uniform(random, -0.1, 0.1),
      };
      const found = freeTravel(mechanism, from);
      if (!found.ok) continue;
      for (const [index, travel] of found.value.slice(0, 3).entries()) {
        const { down, up } = nearestSpheres(mechanism, from, index);
        expect(travel.up?.at, `draw ${n} ${travel.freedom}`).toBeCloseTo(up, 4);
        expect(travel.down?.at, `draw ${n} ${travel.freedom}`).toBeCloseTo(down, 4);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(60);
  });

  it('names a leg and limit that is met at the stop, in all twelve directions', () => {
    const mechanism = limited(25);
    const from: PoseAngles = { position: [5, -8, 155], roll: 0.05, pitch: -0.08, yaw: 0.1 };
    const found = freeTravel(mechanism, from);
    expect(found.ok).toBe(true);
    for (const [index, { down, up, step }] of (found.ok ? found.value : []).entries()) {
      for (const [stop, outward] of [
        [down, -1],
        [up, 1],
      ] as const) {
        if (!stop) throw new Error('a limit is met in every direction here');
        const beyond = withPoseNumber(from, index, stop.at + outward * step * 1e-4);
        const leg = legStates(mechanism, poseFromAngles(beyond))[stop.leg - 1];
        expect(leg.violations).toContain(stop.limit);
        const inside = withPoseNumber(from, index, stop.at);
        expect(legStates(mechanism, poseFromAngles(inside)).flatMap(({ violations }) => violations)).toEqual([]);
      }
    }
  });

  it('says which legs break limits where there is no free travel', () => {
    const found = freeTravel(limited(25), { ...home, position: [0, 0, 220] });
    expect(found.ok).toBe(false);
    if (!found.ok) expect(found.fault.map(({ leg }) => leg)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('meets no stop in yaw when nothing limits it', () => {
    const wide = limited(180, { legs: { ...LEGS, min: 1, max: 1000 } });
    expect(travelOf(wide, home)['yaw']).toMatchObject({ down: null, up: null });
  });

  it('reads and replaces the six numbers of a pose', () => {
    for (let index = 0; index < 6; index++) {
      const changed = withPoseNumber(home, index, 3);
      for (let other = 0; other < 6; other++) {
        expect(poseNumber(changed, other)).toBe(other === index ? 3 : poseNumber(home, other));
      }
    }
  });
});

/** Solves |d + t e|^2 = limit^2 for every leg and both limits, and takes the nearest root either way. */
function nearestSpheres(mechanism: ReturnType<typeof limited>, from: PoseAngles, index: number) {
  const e: Vec3 = [index === 0 ? 1 : 0, index === 1 ? 1 : 0, index === 2 ? 1 : 0];
  const roots = legStates(mechanism, poseFromAngles(from)).flatMap(({ platformJoint_B, baseJoint_B }) => {
    const d = subtract(platformJoint_B, baseJoint_B);
    return [LEGS.min, LEGS.max].flatMap((limit) => {
      const half = dot(d, e);
      const square = half * half - dot(d, d) + limit * limit;
      return square < 0 ? [] : [-half - Math.sqrt(square), -half + Math.sqrt(square)];
    });
  });
  const start = from.position[index];
  return {
    up: start + Math.min(...roots.filter((root) => root > 0)),
    down: start + Math.max(...roots.filter((root) => root < 0)),
  };
}
