import { rotateBack } from '../math/rotation.ts';
import { cross, dot, length, scale, type Vec3 } from '../math/vec3.ts';
import { jointShapes } from './joint-limits.ts';
import { boltTilt, type JointShape, universalAngles } from './joint-shapes.ts';
import { legStates } from './legs.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** What an angle of a joint is measured from or about. */
export type MeasuredAbout =
  /** Ball: from the mount axis. */
  | 'mount'
  /** Rod end: out of the plane square to its bolt. */
  | 'bolt'
  /** Universal joint: about its first or its second axis. */
  | 'first'
  | 'second';

/** One limited angle of a joint, with its limit [rad]; the room left is `limit - angle`. */
export interface JointReading {
  readonly about: MeasuredAbout;
  /** At least 0: both ways count alike. */
  readonly angle: number;
  readonly limit: number;
}

/** The limited angles of a joint whose leg points along the unit vector `d`, plate axes: one, or two of a universal joint. */
export function shapeReadings(shape: JointShape, d: Vec3): readonly JointReading[] {
  switch (shape.kind) {
    case 'ball': {
      const angle = Math.atan2(length(cross(d, shape.axis)), dot(d, shape.axis));
      return [{ about: 'mount', angle, limit: shape.limit }];
    }
    case 'rodEnd':
      return [{ about: 'bolt', angle: boltTilt(shape.bolt, d), limit: shape.limit }];
    case 'universal': {
      const { first, second } = universalAngles(shape.axis, shape.first, d);
      return [
        { about: 'first', angle: Math.abs(first), limit: shape.firstLimit },
        { about: 'second', angle: Math.abs(second), limit: shape.secondLimit },
      ];
    }
  }
}

/** Limited angles at both ends of one leg. */
export interface LegJointReadings {
  /** 1 to 6. */
  readonly leg: number;
  readonly base: readonly JointReading[];
  readonly platform: readonly JointReading[];
}

/** Limited angles of the twelve joints at a pose. */
export function jointReadings(mechanism: Mechanism, pose: Pose): readonly LegJointReadings[] {
  const shapes = jointShapes(mechanism);
  return legStates(mechanism, pose).map(({ leg, u_B }, index) => ({
    leg,
    base: shapeReadings(shapes.base[index], u_B),
    platform: shapeReadings(shapes.platform[index], rotateBack(pose.R_BP, scale(u_B, -1))),
  }));
}

/** The reading with the least room left. */
export const tightest = (readings: readonly JointReading[]): JointReading =>
  readings.reduce((worst, reading) => (reading.limit - reading.angle < worst.limit - worst.angle ? reading : worst));
