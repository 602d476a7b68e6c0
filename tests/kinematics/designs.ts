import type { JointKind } from '../../src/kinematics/joint-kinds.ts';
import type { MechanismSpec, PlateLayout } from '../../src/kinematics/mechanism.ts';
import { compileMechanism, type Mechanism } from '../../src/kinematics/mechanism.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import type { Random } from '../../src/math/random.ts';
import { uniform } from '../../src/math/random.ts';
import type { Vec3 } from '../../src/math/vec3.ts';

export const DEG = Math.PI / 180;

/** Radius [mm], pair gap [deg], turn [deg]. */
export const ring = (radius: number, gap_deg: number, turn_deg = 0): PlateLayout => ({
  kind: 'ring',
  ring: { radius, gap: gap_deg * DEG, turn: turn_deg * DEG, jointHeight: 0 },
});

export const points = (flat: ArrayLike<number>): PlateLayout => ({
  kind: 'points',
  points: Float64Array.from(flat),
});

/** A mechanism from its two plates, with wide limits unless others are given. */
export function mechanismOf(
  base: PlateLayout,
  platform: PlateLayout,
  height: number,
  more: Partial<MechanismSpec> = {},
): Mechanism {
  return compileMechanism({
    base,
    platform,
    legs: {
      min: 1e-6 * height,
      max: 1e6 * height,
      barrelDiameter: 22,
      rodDiameter: 10,
    },
    joints: {
      base: { tiltLimit: Math.PI, mount: { kind: 'square' } },
      platform: { tiltLimit: Math.PI, mount: { kind: 'square' } },
    },
    tool: [0, 0, 0],
    home: poseFromAngles({
      position: [0, 0, height],
      roll: 0,
      pitch: 0,
      yaw: 0,
    }),
    ...more,
  });
}

/** The layout on which the trade's worked figures rest: rings 100 and 70 mm, gaps 20/20 deg, 150 mm up. */
export const referenceLayout = (more: Partial<MechanismSpec> = {}): Mechanism =>
  mechanismOf(ring(100, 20), ring(70, 20), 150, more);

/** Six random points per plate, no symmetry at all; sizes about 1. */
export function randomGeneralLayout(random: Random): Mechanism {
  const cloud = (size: number) => Array.from({ length: 18 }, () => uniform(random, -size, size));
  return mechanismOf(points(cloud(1)), points(cloud(0.7)), 1.5);
}

/** A random pose about `height`, up to `shift` away and `turn` [rad] about each axis. */
export function randomPose(random: Random, height: number, shift: number, turn: number) {
  const around = (centre: number, half: number) => uniform(random, centre - half, centre + half);
  const position: Vec3 = [around(0, shift), around(0, shift), around(height, shift)];
  return poseFromAngles({
    position,
    roll: around(0, turn),
    pitch: around(0, turn),
    yaw: around(0, turn),
  });
}

/** The same mechanism with joints of other kinds; the limits of its joints stay the (first) limits. */
export const withKinds = ({ spec }: Mechanism, base: JointKind, platform: JointKind): Mechanism =>
  compileMechanism({
    ...spec,
    joints: { base: { ...spec.joints.base, kind: base }, platform: { ...spec.joints.platform, kind: platform } },
  });
