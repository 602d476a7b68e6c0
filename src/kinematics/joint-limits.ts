import { rotate, rotateBack } from '../math/rotation.ts';
import { at, cross, dot, length, scale, unit, type Vec3 } from '../math/vec3.ts';
import { type JointShape, jointMargin, squareTo, type UniversalAngles, universalAngles } from './joint-shapes.ts';
import { LEG_COUNT, type PlateName } from './layout.ts';
import { legStates } from './legs.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** Which way a rod end's bolt, or a universal joint's first axis, lies in its plate. */
export type CrossAxis =
  /** In the plate's plane, along the joint circle or toward its centre. */
  | { readonly kind: 'tangential' }
  | { readonly kind: 'radial' }
  /** In the plate's plane and square to the leg as it lies at the home pose: no tilt at home. */
  | { readonly kind: 'acrossLeg' }
  /** Six azimuths in the plate's frame and one rise out of its plane [rad]. */
  | { readonly kind: 'angles'; readonly toward: Float64Array; readonly rise: number };

/** The kind of the six joints of one plate; the mount axis and a ball's limit come from the mechanism itself. */
export type JointKind =
  | { readonly kind: 'ball' }
  | { readonly kind: 'rodEnd'; readonly bolt: CrossAxis }
  | { readonly kind: 'universal'; readonly first: CrossAxis; readonly secondLimit: number };

/** Limits of the twelve joints, base joints in base axes and platform joints in platform axes. */
export type JointShapes = Readonly<Record<PlateName, readonly JointShape[]>>;

/** Resolves the joint kinds of a design; `tiltLimit` of the mechanism is the (first) limit of each kind. */
export function jointShapes(mechanism: Mechanism, kinds: Readonly<Record<PlateName, JointKind>>): JointShapes {
  const legs = legStates(mechanism, mechanism.home);
  const shapesOf = (plate: PlateName): readonly JointShape[] =>
    legs.map(({ u_B }, index) => {
      const home = plate === 'base' ? u_B : rotateBack(mechanism.home.R_BP, scale(u_B, -1));
      return shapeOf(mechanism, plate, kinds[plate], index, home);
    });
  return { base: shapesOf('base'), platform: shapesOf('platform') };
}

/** Every joint a ball in a socket, as the mechanism has them. */
export const ballShapes = (mechanism: Mechanism): JointShapes =>
  jointShapes(mechanism, { base: { kind: 'ball' }, platform: { kind: 'ball' } });

function shapeOf(mechanism: Mechanism, plate: PlateName, kind: JointKind, index: number, home: Vec3): JointShape {
  const limit = mechanism.tiltLimit[plate];
  const axis = at(plate === 'base' ? mechanism.baseAxes_B : mechanism.platformAxes_P, index);
  if (kind.kind === 'ball') return { kind: 'ball', axis, limit };
  const joint = at(mechanism.centres[plate], index);
  if (kind.kind === 'rodEnd') return { kind: 'rodEnd', bolt: crossAxis(kind.bolt, index, joint, home), limit };
  const wanted = crossAxis(kind.first, index, joint, home);
  // an axis along the mount has no part square to it; any square direction then is as good
  const first = squareTo(axis, wanted) ?? squareTo(axis, [1, 0, 0]) ?? [0, 1, 0];
  return { kind: 'universal', axis, first, firstLimit: limit, secondLimit: kind.secondLimit };
}

function crossAxis(choice: CrossAxis, index: number, joint: Vec3, home: Vec3): Vec3 {
  const radial = unit([joint[0], joint[1], 0]);
  const outward: Vec3 = length(radial) > 0 ? radial : [1, 0, 0];
  const tangential: Vec3 = [-outward[1], outward[0], 0];
  if (choice.kind === 'radial') return outward;
  if (choice.kind === 'tangential') return tangential;
  if (choice.kind === 'acrossLeg') {
    const across = unit(cross([0, 0, 1], home));
    return length(across) > 0 ? across : tangential;
  }
  const flat = Math.cos(choice.rise);
  const azimuth = choice.toward[index];
  return [flat * Math.cos(azimuth), flat * Math.sin(azimuth), Math.sin(choice.rise)];
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
export function jointStates(mechanism: Mechanism, pose: Pose, shapes: JointShapes): readonly JointState[] {
  return legStates(mechanism, pose).map(({ leg, u_B }, index) => {
    const d_P = rotateBack(pose.R_BP, scale(u_B, -1));
    const [base, platform] = [shapes.base[index], shapes.platform[index]];
    const anglesOf = (shape: JointShape, d: Vec3) =>
      shape.kind === 'universal' ? universalAngles(shape.axis, shape.first, d) : null;
    return {
      leg,
      baseMargin: jointMargin(base, u_B),
      platformMargin: jointMargin(platform, d_P),
      baseAngles: anglesOf(base, u_B),
      platformAngles: anglesOf(platform, d_P),
    };
  });
}

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
export function legTwists(
  mechanism: Mechanism,
  pose: Pose,
  shapes: JointShapes,
  lead: number,
): readonly LegTwist[] | null {
  const now = twistAngles(mechanism, pose, shapes);
  const home = twistAngles(mechanism, mechanism.home, shapes);
  if (!now || !home) return null;
  return now.map((angle, index) => {
    const turned = angle - home[index];
    const twist = turned - 2 * Math.PI * Math.round(turned / (2 * Math.PI));
    return { leg: index + 1, twist, lengthChange: (twist * lead) / (2 * Math.PI) };
  });
}

function twistAngles(mechanism: Mechanism, pose: Pose, shapes: JointShapes): readonly number[] | null {
  const legs = legStates(mechanism, pose);
  const angles: number[] = [];
  for (let index = 0; index < LEG_COUNT; index++) {
    const [base, platform] = [shapes.base[index], shapes.platform[index]];
    if (base.kind !== 'universal' || platform.kind !== 'universal') return null;
    const { u_B } = legs[index];
    const secondBase = cross(base.first, u_B);
    const secondPlatform = cross(rotate(pose.R_BP, platform.first), u_B);
    angles.push(Math.atan2(dot(u_B, cross(secondBase, secondPlatform)), dot(secondBase, secondPlatform)));
  }
  return angles;
}
