import { describe, expect, it } from 'vitest';
import { LEG_COUNT } from '../../src/kinematics/layout.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { type PoseAngles, poseFromAngles } from '../../src/kinematics/pose.ts';
import { rotateBack } from '../../src/math/rotation.ts';
import type { PoseBox } from '../../src/reach/pose-box.ts';
import { boxDemands } from '../../src/reach/prove/box-demands.ts';
import { DEG, mechanismOf, referenceLayout, ring, withKinds } from '../kinematics/designs.ts';

const level = (x: number, y: number, z: number): PoseAngles => ({ position: [x, y, z], roll: 0, pitch: 0, yaw: 0 });

const boxOf = (travel: number, angle_deg: number, centre = level(0, 0, 150)): PoseBox => {
  const angle = angle_deg * DEG;
  return { centre, half: { position: [travel, travel, travel], roll: angle, pitch: angle, yaw: angle } };
};

const joints = (kind: 'square' | 'aimed', base_deg: number, platform_deg: number) => ({
  base: { tiltLimit: base_deg * DEG, mount: { kind } },
  platform: { tiltLimit: platform_deg * DEG, mount: { kind } },
});

describe('a box of 20 mm and 10 deg asks of the reference layout', () => {
  // Worked figures of the trade for rings of 100 and 70 mm, gaps 20/20 deg, 150 mm up, computed outside this program: legs from
  // 116.5 to 214.8 mm at the 64 corners. The tilts at the corners were computed there as well with a general-purpose array library, from
  // the joint angles and R = Rz Ry Rx alone: 43.092415 and 53.831267 deg square, 19.809634 and 31.875071 deg aimed. No mid-point
  // of this box asks for more.
  it.each([
    ['square', 43.092415, 53.831267],
    ['aimed', 19.809634, 31.875071],
  ] as const)('legs from 116.5 to 214.8 mm, and %s joints of %d and %d deg', (mount, base, platform) => {
    const demands = boxDemands(referenceLayout({ joints: joints(mount, 90, 90) }), boxOf(20, 10));
    expect([demands.shortest.length.toFixed(1), demands.longest.length.toFixed(1)]).toEqual(['116.5', '214.8']);
    expect((demands.joints.base.tilt ?? 0) / DEG).toBeCloseTo(base, 6);
    expect((demands.joints.platform.tilt ?? 0) / DEG).toBeCloseTo(platform, 6);
    expect(demands.poses).toBe(729);
  });

  it('more than limits just short of it allow, and no more than limits just past it', () => {
    const holds = (min: number, max: number, base_deg: number, platform_deg: number) => {
      const legs = { min, max, barrelDiameter: 22, rodDiameter: 10 };
      const mechanism = referenceLayout({ legs, joints: joints('aimed', base_deg, platform_deg) });
      const { shortest, longest, joints: found } = boxDemands(mechanism, boxOf(20, 10));
      return [shortest.holds, longest.holds, found.base.holds, found.platform.holds];
    };
    expect(holds(116.4, 214.9, 19.9, 31.9)).toEqual([true, true, true, true]);
    expect(holds(116.6, 214.7, 19.8, 31.8)).toEqual([false, false, false, false]);
  });
});

describe('upright legs', () => {
  // joints over each other: every leg is as long as the platform is high and leans by atan(shift / height)
  const height = 150;
  const upright = mechanismOf(ring(100, 20), ring(100, 100), height);
  const shift = 30;
  const alongX: PoseBox = { centre: level(0, 0, height), half: level(shift, 0, 0) };

  it('are shortest at the mid-point of a box along x and lean most at its ends', () => {
    const { shortest, longest, joints: found, poses } = boxDemands(upright, alongX);
    expect(poses).toBe(3);
    expect(shortest.length).toBeCloseTo(height, 10);
    expect(shortest.pose.position[0]).toBe(0);
    expect(longest.length).toBeCloseTo(Math.hypot(height, shift), 10);
    expect(Math.abs(longest.pose.position[0])).toBe(shift);
    for (const plate of ['base', 'platform'] as const) {
      expect(found[plate].tilt).toBeCloseTo(Math.atan2(shift, height), 12);
      expect(Math.abs(found[plate].pose.position[0])).toBe(shift);
    }
  });

  it('leave rod ends the room that is left across their bolts', () => {
    // bolts along x: a leg that leans along x goes out of the plane square to them by the whole of its lean, along y not at all
    const bolt = { kind: 'angles', toward: new Float64Array(LEG_COUNT), rise: 0 } as const;
    const limited = mechanismOf(ring(100, 20), ring(100, 100), height, { joints: joints('square', 10, 14) });
    const mechanism = withKinds(limited, { kind: 'rodEnd', bolt }, { kind: 'rodEnd', bolt });
    const lean = Math.atan2(shift, height);
    const across = boxDemands(mechanism, alongX).joints;
    expect(across.base).toMatchObject({ kind: 'rodEnd', tilt: null, holds: false });
    expect(across.base.room).toBeCloseTo(10 * DEG - lean, 12);
    expect(across.platform.room).toBeCloseTo(14 * DEG - lean, 12);
    const round = boxDemands(mechanism, { centre: level(0, 0, height), half: level(0, shift, 0) }).joints;
    expect(round.base).toMatchObject({ holds: true });
    expect(round.base.room).toBeCloseTo(10 * DEG, 12);
  });

  it('leave universal joints the room about the axis that is turned furthest', () => {
    // first axes along x: a leg that leans along x turns about the second axis, along y about the first
    const first = { kind: 'angles', toward: new Float64Array(LEG_COUNT), rise: 0 } as const;
    const universal = { kind: 'universal', first, secondLimit: 12 * DEG } as const;
    const limited = mechanismOf(ring(100, 20), ring(100, 100), height, { joints: joints('square', 20, 20) });
    const mechanism = withKinds(limited, universal, universal);
    const lean = Math.atan2(shift, height);
    const { base, platform } = boxDemands(mechanism, alongX).joints;
    expect(base.room).toBeCloseTo(12 * DEG - lean, 12);
    expect(platform.room).toBeCloseTo(12 * DEG - lean, 12);
    const other = boxDemands(mechanism, { centre: level(0, 0, height), half: level(0, shift, 0) }).joints;
    expect(other.base.room).toBeCloseTo(20 * DEG - lean, 12);
  });
});

describe('joints that are no balls, on a platform that turns', () => {
  /** A second way to the least room: angles between the leg and the joint's axes as they stand in the design, pose by pose. */
  function leastRoom(
    mechanism: Mechanism,
    { centre, half }: PoseBox,
    bolt_P: readonly number[],
    limit: number,
  ): number {
    let least = Number.POSITIVE_INFINITY;
    for (let n = 0; n < 729; n++) {
      const [a, b, c, d, e, f] = [0, 1, 2, 3, 4, 5].map((axis) => (Math.floor(n / 3 ** axis) % 3) - 1);
      const pose = poseFromAngles({
        position: [
          centre.position[0] + a * half.position[0],
          centre.position[1] + b * half.position[1],
          centre.position[2] + c * half.position[2],
        ],
        roll: centre.roll + d * half.roll,
        pitch: centre.pitch + e * half.pitch,
        yaw: centre.yaw + f * half.yaw,
      });
      for (const { u_B } of legStates(mechanism, pose)) {
        const u_P = rotateBack(pose.R_BP, u_B);
        const cosine = Math.abs(u_P[0] * bolt_P[0] + u_P[1] * bolt_P[1] + u_P[2] * bolt_P[2]);
        least = Math.min(least, limit - (Math.PI / 2 - Math.acos(cosine)));
      }
    }
    return least;
  }

  it('turn with it: the bolts of the platform are those of the turned platform', () => {
    const bolt = { kind: 'angles', toward: new Float64Array(LEG_COUNT).fill(0.7), rise: 0.3 } as const;
    const rodEnd = { kind: 'rodEnd', bolt } as const;
    const mechanism = withKinds(
      referenceLayout({ joints: joints('square', 60, 60), tool: [5, -8, 20] }),
      rodEnd,
      rodEnd,
    );
    const box = boxOf(15, 20, { position: [10, -5, 170], roll: 0.1, pitch: -0.2, yaw: 0.3 });
    const bolt_P = [Math.cos(0.3) * Math.cos(0.7), Math.cos(0.3) * Math.sin(0.7), Math.sin(0.3)];
    const expected = leastRoom(mechanism, box, bolt_P, 60 * DEG);
    expect(boxDemands(mechanism, box).joints.platform.room).toBeCloseTo(expected, 10);
  });
});
