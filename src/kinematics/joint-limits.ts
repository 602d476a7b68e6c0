import { rotate, rotateBack } from '../math/rotation.ts';
import { at, cross, dot, scale, type Vec3 } from '../math/vec3.ts';
import { type JointShape, jointMargin, type UniversalAngles, universalAngles } from './joint-shapes.ts';
import { LEG_COUNT, type PlateName } from './layout.ts';
import { legStates } from './legs.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** Limits of the twelve joints, base joints in base axes and platform joints in platform axes. */
export type JointShapes = Readonly<Record<PlateName, readonly JointShape[]>>;

/** The limits of the joints of a mechanism, balls in sockets included. */
export function jointShapes({ crossJoints, baseAxes_B, platformAxes_P, tiltLimit }: Mechanism): JointShapes {
  const shapesOf = (plate: PlateName, axes: Float64Array): readonly JointShape[] =>
    crossJoints[plate]?.map(({ shape }) => shape) ??
    Array.from({ length: LEG_COUNT }, (_, leg) => ({ kind: 'ball', axis: at(axes, leg), limit: tiltLimit[plate] }));
  return { base: shapesOf('base', baseAxes_B), platform: shapesOf('platform', platformAxes_P) };
}

/** Where one leg stands in its two joints at a pose. */
export interface JointState {
  /** 1 to 6. */
  readonly leg: number;
  /** Room left at either end [rad], negative past the limit. */
  readonly baseMargin: number;
  readonly platformMargin: number;
  /** Angles of universal joints; null for other kinds. */
  readonly baseAngles: UniversalAngles | null;
  readonly platformAngles: UniversalAngles | null;
}

/** Joint margins of the six legs at a pose. */
export function jointStates(mechanism: Mechanism, pose: Pose): readonly JointState[] {
  const { crossJoints, tiltLimit } = mechanism;
  return legStates(mechanism, pose).map(({ leg, u_B, baseTilt, platformTilt }, index) => {
    const d_P = rotateBack(pose.R_BP, scale(u_B, -1));
    const base = crossJoints.base?.[index].shape;
    const platform = crossJoints.platform?.[index].shape;
    return {
      leg,
      baseMargin: base ? jointMargin(base, u_B) : tiltLimit.base - baseTilt,
      platformMargin: platform ? jointMargin(platform, d_P) : tiltLimit.platform - platformTilt,
      baseAngles: anglesOf(base, u_B),
      platformAngles: anglesOf(platform, d_P),
    };
  });
}

const anglesOf = (shape: JointShape | undefined, d: Vec3): UniversalAngles | null =>
  shape?.kind === 'universal' ? universalAngles(shape.axis, shape.first, d) : null;

/** How far a leg's rod has turned against its barrel since the home pose, and what that does to a screw's length. */
export interface LegTwist {
  readonly leg: number;
  /** [rad, -pi to pi], seen from the platform joint counter-clockwise. */
  readonly twist: number;
  /** Change of the leg's length [mm] for a right-hand screw of the given lead when nothing else stops the turning. */
  readonly lengthChange: number;
}

/**
 * Twist of legs with a universal joint at both ends, from the home pose; null when either end is of another kind, since a
 * ball joint and a rod end let the leg turn about itself.
 *
 * Each joint's second axis stays square to its first axis and to the leg, and turns with its half of the leg; the twist is
 * the angle between the two second axes about the leg.
 * @param lead advance of the screw in one turn [mm]
 */
export function legTwists(mechanism: Mechanism, pose: Pose, lead: number): readonly LegTwist[] | null {
  const now = twistAngles(mechanism, pose);
  const home = twistAngles(mechanism, mechanism.home);
  if (!now || !home) return null;
  return now.map((angle, index) => {
    const turned = angle - home[index];
    const twist = turned - 2 * Math.PI * Math.round(turned / (2 * Math.PI));
    return { leg: index + 1, twist, lengthChange: (twist * lead) / (2 * Math.PI) };
  });
}

function twistAngles(mechanism: Mechanism, pose: Pose): readonly number[] | null {
  const { crossJoints } = mechanism;
  const legs = legStates(mechanism, pose);
  const angles: number[] = [];
  for (let index = 0; index < LEG_COUNT; index++) {
    const base = crossJoints.base?.[index].shape;
    const platform = crossJoints.platform?.[index].shape;
    if (base?.kind !== 'universal' || platform?.kind !== 'universal') return null;
    const { u_B } = legs[index];
    const secondBase = cross(base.first, u_B);
    const secondPlatform = cross(rotate(pose.R_BP, platform.first), u_B);
    angles.push(Math.atan2(dot(u_B, cross(secondBase, secondPlatform)), dot(secondBase, secondPlatform)));
  }
  return angles;
}
