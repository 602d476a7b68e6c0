import { rotate, rotateBack } from '../math/rotation.ts';
import { at, length, put, scale, subtract, unit, type Vec3 } from '../math/vec3.ts';
import { type JointCentres, LEG_COUNT, meanJointRadius, type PlateName, type Ring, ringJoints } from './layout.ts';
import { type Pose, platformOrigin } from './pose.ts';

/** Where a plate's joints are: on a ring, or six free points (flat 18, plate frame, mm). */
export type PlateLayout =
  | { readonly kind: 'ring'; readonly ring: Ring }
  | { readonly kind: 'points'; readonly points: Float64Array };

/** The direction in which a joint's mount points. */
export type Mount =
  /** Square to the plate, toward the other plate. */
  | { readonly kind: 'square' }
  /** Along the leg as it lies at the home pose. */
  | { readonly kind: 'aimed' }
  /** Leaning from the square direction by `lean` toward six azimuths in the plate's frame [rad]. */
  | {
      readonly kind: 'leaning';
      readonly lean: number;
      readonly toward: Float64Array;
    };

/** Tilt limit [rad, half angle of a cone about the mount axis] and mount of the six joints of one plate. */
export interface JointSpec {
  readonly tiltLimit: number;
  readonly mount: Mount;
}

/** Leg lengths are pin to pin, joint centre to joint centre [mm]. */
export interface LegSpec {
  readonly min: number;
  readonly max: number;
  readonly barrelDiameter: number;
  readonly rodDiameter: number;
}

/** What a designer chooses, in millimetres and radians. */
export interface MechanismSpec {
  readonly base: PlateLayout;
  readonly platform: PlateLayout;
  readonly legs: LegSpec;
  readonly joints: Readonly<Record<PlateName, JointSpec>>;
  /** p_PoTo_P: tool point in the platform frame [mm]. */
  readonly tool: Vec3;
  readonly home: Pose;
  /** Divides rotations to compare them with translations [mm]; left out: the platform's mean joint radius. */
  readonly characteristicLength?: number;
}

/** A design compiled for computation: flat arrays, mount axes resolved, defaults filled in. */
export interface Mechanism {
  readonly spec: MechanismSpec;
  readonly centres: JointCentres;
  readonly p_PoTo_P: Vec3;
  /** p_ToBi_P: platform joints from the tool point, platform axes, flat 18 [mm]. */
  readonly p_ToBi_P: Float64Array;
  /** Unit mount axes of the base joints in base axes, flat 18; a leg on its axis has no tilt. */
  readonly baseAxes_B: Float64Array;
  /** Unit mount axes of the platform joints in platform axes, pointing from the platform toward the base, flat 18. */
  readonly platformAxes_P: Float64Array;
  readonly legs: LegSpec;
  /** Half angles of the joint cones [rad]. */
  readonly tiltLimit: Readonly<Record<PlateName, number>>;
  readonly home: Pose;
  readonly characteristicLength: number;
  /** Largest distance of any joint from its plate's centroid [mm]; tolerances are relative to this. */
  readonly size: number;
}

/** Square mount: the base joint looks up, the platform joint looks down. */
const SQUARE: Readonly<Record<PlateName, Vec3>> = {
  base: [0, 0, 1],
  platform: [0, 0, -1],
};

const jointsOf = (plate: PlateLayout, name: PlateName): Float64Array =>
  plate.kind === 'ring' ? ringJoints(plate.ring, name) : plate.points;

/**
 * Resolves a design into a {@link Mechanism}.
 * An aimed mount of a leg whose two joint centres coincide at home has no direction and is mounted square.
 */
export function compileMechanism(spec: MechanismSpec): Mechanism {
  const centres = {
    base: jointsOf(spec.base, 'base'),
    platform: jointsOf(spec.platform, 'platform'),
  };
  const p_ToBi_P = new Float64Array(3 * LEG_COUNT);
  for (let leg = 0; leg < LEG_COUNT; leg++) put(p_ToBi_P, leg, subtract(at(centres.platform, leg), spec.tool));
  const { base, platform } = spec.joints;
  return {
    spec,
    centres,
    p_PoTo_P: spec.tool,
    p_ToBi_P,
    baseAxes_B: mountAxes('base', base.mount, centres, spec),
    platformAxes_P: mountAxes('platform', platform.mount, centres, spec),
    legs: spec.legs,
    tiltLimit: { base: base.tiltLimit, platform: platform.tiltLimit },
    home: spec.home,
    characteristicLength: spec.characteristicLength ?? meanJointRadius(centres.platform),
    size: Math.max(extent(centres.base), extent(centres.platform)),
  };
}

/** Mount axes of one plate in that plate's frame, flat 18, unit length. */
function mountAxes(plate: PlateName, mount: Mount, centres: JointCentres, spec: MechanismSpec): Float64Array {
  const axes = new Float64Array(3 * LEG_COUNT);
  for (let leg = 0; leg < LEG_COUNT; leg++) put(axes, leg, mountAxis(plate, mount, leg, centres, spec));
  return axes;
}

function mountAxis(plate: PlateName, mount: Mount, leg: number, centres: JointCentres, spec: MechanismSpec): Vec3 {
  const square = SQUARE[plate];
  if (mount.kind === 'square') return square;
  if (mount.kind === 'leaning') {
    const flat = Math.sin(mount.lean);
    const azimuth = mount.toward[leg];
    return [flat * Math.cos(azimuth), flat * Math.sin(azimuth), square[2] * Math.cos(mount.lean)];
  }
  const { home } = spec;
  const p_BoPo_B = platformOrigin(home, spec.tool);
  const p_PoBi_B = rotate(home.R_BP, at(centres.platform, leg));
  const p_AiBi_B = subtract(
    [p_BoPo_B[0] + p_PoBi_B[0], p_BoPo_B[1] + p_PoBi_B[1], p_BoPo_B[2] + p_PoBi_B[2]],
    at(centres.base, leg),
  );
  if (length(p_AiBi_B) === 0) return square;
  return plate === 'base' ? unit(p_AiBi_B) : unit(rotateBack(home.R_BP, scale(p_AiBi_B, -1)));
}

function extent(points: Float64Array): number {
  let centre: Vec3 = [0, 0, 0];
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const point = at(points, leg);
    centre = [centre[0] + point[0] / LEG_COUNT, centre[1] + point[1] / LEG_COUNT, centre[2] + point[2] / LEG_COUNT];
  }
  let largest = 0;
  for (let leg = 0; leg < LEG_COUNT; leg++) largest = Math.max(largest, length(subtract(at(points, leg), centre)));
  return largest;
}
