import { at, type Vec3 } from '../math/vec3.ts';
import { type CrossJoint, type CrossKind, crossJoint, type JointKind } from './joint-kinds.ts';
import { extentOf, type JointCentres, LEG_COUNT, type PlateName, type Ring, ringJoints } from './layout.ts';
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

/** Limit, mount and kind of the six joints of one plate. */
export interface JointSpec {
  /**
   * Of a ball in its socket: half angle of its cone about the mount axis. Of a rod end: how far it tilts out of the plane square to
   * its bolt. Of a universal joint: its turn about the first axis, either way [rad].
   */
  readonly tiltLimit: number;
  readonly mount: Mount;
  /** A ball when left out. */
  readonly kind?: JointKind;
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
  /** The limit that each plate's joints state [rad]: half angle of a ball's cone, see {@link JointSpec.tiltLimit} for other kinds. */
  readonly tiltLimit: Readonly<Record<PlateName, number>>;
  /** The six joints of a plate where they are no balls; null: balls, cones of `tiltLimit` about the mount axes. */
  readonly crossJoints: Readonly<Record<PlateName, readonly CrossJoint[] | null>>;
  readonly home: Pose;
  readonly characteristicLength: number;
  /** Largest distance of any joint from its plate's centroid [mm]; tolerances are relative to this. */
  readonly size: number;
}

/** Arrays for a {@link Mechanism} to be written into again and again, flat 18 each. */
export interface MechanismBuffers {
  readonly base: Float64Array;
  readonly platform: Float64Array;
  readonly fromTool: Float64Array;
  readonly baseAxes: Float64Array;
  readonly platformAxes: Float64Array;
}

export const mechanismBuffers = (): MechanismBuffers => ({
  base: new Float64Array(3 * LEG_COUNT),
  platform: new Float64Array(3 * LEG_COUNT),
  fromTool: new Float64Array(3 * LEG_COUNT),
  baseAxes: new Float64Array(3 * LEG_COUNT),
  platformAxes: new Float64Array(3 * LEG_COUNT),
});

/**
 * Resolves a design into a {@link Mechanism}. An aimed mount of a leg whose two joint centres coincide at home has no direction
 * and is mounted square.
 * @param buffers for sweeps of hundreds of thousands of layouts: the mechanism holds until they are written into again
 */
export function compileMechanism(spec: MechanismSpec, buffers = mechanismBuffers()): Mechanism {
  const { fromTool, baseAxes, platformAxes } = buffers;
  const centres = {
    base: writeJoints(spec.base, 'base', buffers.base),
    platform: writeJoints(spec.platform, 'platform', buffers.platform),
  };
  const { base, platform } = spec.joints;
  if (base.mount.kind === 'aimed' || platform.mount.kind === 'aimed') {
    writeHomeDirections(spec, centres, baseAxes);
    if (platform.mount.kind === 'aimed') writeBackInPlatform(baseAxes, spec, platformAxes);
  }
  if (base.mount.kind !== 'aimed') writeFixedAxes(base.mount, 1, baseAxes);
  if (platform.mount.kind !== 'aimed') writeFixedAxes(platform.mount, -1, platformAxes);
  for (let n = 0; n < 3 * LEG_COUNT; n++) fromTool[n] = centres.platform[n] - spec.tool[n % 3];
  const platformExtent = extentOf(centres.platform);
  const crossOf = (plate: PlateName, axes: Float64Array): readonly CrossJoint[] | null => {
    const { kind, tiltLimit } = spec.joints[plate];
    return !kind || kind.kind === 'ball' ? null : crossJoints(spec, centres, plate, kind, tiltLimit, axes);
  };
  return {
    spec,
    centres,
    p_PoTo_P: spec.tool,
    p_ToBi_P: fromTool,
    baseAxes_B: baseAxes,
    platformAxes_P: platformAxes,
    legs: spec.legs,
    tiltLimit: { base: base.tiltLimit, platform: platform.tiltLimit },
    crossJoints: { base: crossOf('base', baseAxes), platform: crossOf('platform', platformAxes) },
    home: spec.home,
    characteristicLength: spec.characteristicLength ?? platformExtent.mean,
    size: Math.max(extentOf(centres.base).largest, platformExtent.largest),
  };
}

function writeJoints(plate: PlateLayout, name: PlateName, out: Float64Array): Float64Array {
  if (plate.kind === 'ring') return ringJoints(plate.ring, name, out);
  out.set(plate.points);
  return out;
}

/** Axes of a square or leaning mount in the plate's frame, flat 18; `up` is 1 for the base, which looks up, -1 for the platform. */
function writeFixedAxes(mount: Mount, up: 1 | -1, axes: Float64Array): void {
  const flat = mount.kind === 'leaning' ? Math.sin(mount.lean) : 0;
  const upright = mount.kind === 'leaning' ? up * Math.cos(mount.lean) : up;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    axes[3 * leg] = mount.kind === 'leaning' ? flat * Math.cos(mount.toward[leg]) : 0;
    axes[3 * leg + 1] = mount.kind === 'leaning' ? flat * Math.sin(mount.toward[leg]) : 0;
    axes[3 * leg + 2] = upright;
  }
}

function crossJoints(
  spec: MechanismSpec,
  centres: JointCentres,
  plate: PlateName,
  kind: CrossKind,
  limit: number,
  axes: Float64Array,
): readonly CrossJoint[] {
  const directions = new Float64Array(3 * LEG_COUNT);
  writeHomeDirections(spec, centres, directions);
  if (plate === 'platform') writeBackInPlatform(directions, spec, directions);
  return Array.from({ length: LEG_COUNT }, (_, index) =>
    crossJoint(kind, limit, {
      index,
      centre: at(centres[plate], index),
      axis: at(axes, index),
      home: at(directions, index),
    }),
  );
}

/** Leg directions at the home pose, base axes, flat 18, unit length; +Z where a leg has none. */
function writeHomeDirections(spec: MechanismSpec, { base, platform }: JointCentres, directions: Float64Array): void {
  const R = spec.home.R_BP;
  const [ox, oy, oz] = platformOrigin(spec.home, spec.tool);
  for (let i = 0; i < 3 * LEG_COUNT; i += 3) {
    const bx = platform[i];
    const by = platform[i + 1];
    const bz = platform[i + 2];
    const x = ox + R[0] * bx + R[1] * by + R[2] * bz - base[i];
    const y = oy + R[3] * bx + R[4] * by + R[5] * bz - base[i + 1];
    const z = oz + R[6] * bx + R[7] * by + R[8] * bz - base[i + 2];
    const length = Math.sqrt(x * x + y * y + z * z);
    directions[i] = length > 0 ? x / length : 0;
    directions[i + 1] = length > 0 ? y / length : 0;
    directions[i + 2] = length > 0 ? z / length : 1;
  }
}

/** The opposite directions in platform axes: R_BP^T (-u). */
function writeBackInPlatform(directions: Float64Array, { home }: MechanismSpec, back: Float64Array): void {
  const R = home.R_BP;
  for (let i = 0; i < 3 * LEG_COUNT; i += 3) {
    const x = directions[i];
    const y = directions[i + 1];
    const z = directions[i + 2];
    back[i] = -(R[0] * x + R[3] * y + R[6] * z);
    back[i + 1] = -(R[1] * x + R[4] * y + R[7] * z);
    back[i + 2] = -(R[2] * x + R[5] * y + R[8] * z);
  }
}
