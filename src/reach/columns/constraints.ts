import type { CrossJoint } from '../../kinematics/joint-kinds.ts';
import type { DirectionBound } from '../../kinematics/joint-shapes.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import { LIMIT_NAMES, type LimitName } from '../../kinematics/limits.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Mat3 } from '../../math/rotation.ts';

/** Joints of the base are 0 to 5, those of the platform 6 to 11, both in leg order. */
export const JOINT_COUNT = 2 * LEG_COUNT;

/** Most cones of one joint: the two of a band, and the two planes of a universal joint's first limit. */
const CONES_A_JOINT = 4;
export const MOST_CONES = CONES_A_JOINT * JOINT_COUNT;

/** One limit of one leg as a small number: `limitCode / 6` is the place in LIMIT_NAMES, the rest the leg index. */
export type LimitCode = number;

/** Number of different limit codes. */
export const CODE_COUNT = LIMIT_NAMES.length * LEG_COUNT;

const LIMIT_INDEX: Readonly<Record<LimitName, number>> = {
  legTooShort: 0,
  legTooLong: 1,
  baseJoint: 2,
  platformJoint: 3,
};

/** First code of each limit; add the leg index (0 to 5). */
export const SHORT = LIMIT_INDEX.legTooShort * LEG_COUNT;
export const LONG = LIMIT_INDEX.legTooLong * LEG_COUNT;
export const BASE = LIMIT_INDEX.baseJoint * LEG_COUNT;
export const PLATFORM = LIMIT_INDEX.platformJoint * LEG_COUNT;

/** The code of one leg's limit; leg is 1 to 6. */
export const limitCode = (limit: LimitName, leg: number): LimitCode => LIMIT_INDEX[limit] * LEG_COUNT + leg - 1;

/** Place of a code's limit in LIMIT_NAMES. */
export const limitIndexOf = (code: LimitCode): number => Math.floor(code / LEG_COUNT);

export const limitOf = (code: LimitCode): LimitName => LIMIT_NAMES[limitIndexOf(code)];

/** 1 to 6 */
export const legOf = (code: LimitCode): number => (code % LEG_COUNT) + 1;

/** All limits of all legs in force. */
export const ALL_LIMITS = (1 << CODE_COUNT) - 1;

/**
 * What bounds the tool point t at one orientation. With apex c_i = A_i - R b_i, leg i is the vector t - c_i, so
 * its length limits are two spheres about c_i and its joint limits cones with their apex in c_i
 * (C. Gosselin, J. Mech. Des. 112, 1990, for the spheres: from memory). A ball in a socket is one cone; a rod end two, wider than
 * 90 deg, about both directions of its bolt; a universal joint two such about its first axis and two planes, which are cones
 * of 90 deg, for its first limit. Base axes, mm.
 */
export class Constraints {
  /** c_i, flat 18 [mm]. */
  readonly apexes = new Float64Array(3 * LEG_COUNT);
  /** Shortest and longest leg [mm]. */
  min = 0;
  max = 0;
  /** Bit `code` set: that limit holds. */
  enabled = ALL_LIMITS;
  /** Place of each joint's first cone below; its last one comes before the next joint's first. A joint without cones has no limit. */
  readonly firstCones = new Uint8Array(JOINT_COUNT + 1);
  /** Unit axes of the cones from the apex into the allowed side, base axes, flat; cosines and sines of their half angles. */
  readonly axes = new Float64Array(3 * MOST_CONES);
  readonly cosines = new Float64Array(MOST_CONES);
  readonly sines = new Float64Array(MOST_CONES);
  /** 1 where the leg has to keep within this cone or the next, not both. */
  readonly either = new Uint8Array(MOST_CONES);

  /** Takes a mechanism at an orientation; no allocation. */
  setMechanism(mechanism: Mechanism, R_BP: Mat3, enabled: number = ALL_LIMITS): void {
    const { apexes } = this;
    const { p_ToBi_P: b, baseAxes_B, platformAxes_P, crossJoints, tiltLimit } = mechanism;
    const A = mechanism.centres.base;
    const R = R_BP;
    for (let i = 0; i < 3 * LEG_COUNT; i += 3) {
      for (let row = 0; row < 3; row++) {
        apexes[i + row] = A[i + row] - (R[3 * row] * b[i] + R[3 * row + 1] * b[i + 1] + R[3 * row + 2] * b[i + 2]);
      }
    }
    this.min = mechanism.legs.min;
    this.max = mechanism.legs.max;
    this.enabled = enabled;
    this.freeJoints();
    this.addJoints(0, crossJoints.base, baseAxes_B, tiltLimit.base, null);
    this.addJoints(LEG_COUNT, crossJoints.platform, platformAxes_P, tiltLimit.platform, R);
  }

  /** Takes all joint limits away. */
  freeJoints(): void {
    this.firstCones.fill(0);
    this.either.fill(0);
  }

  /** Adds a cone to a joint; joints come in their order. @param axis three numbers of a unit axis from `from` on, base axes */
  addCone(joint: number, axis: ArrayLike<number>, from: number, cosine: number, sine: number): void {
    this.addTurnedCone(joint, axis, from, null, cosine, sine);
  }

  /** The six joints of a plate; R takes the platform's axes to base axes, seen along the leg from the base; null: base axes already. */
  private addJoints(
    first: number,
    joints: readonly CrossJoint[] | null,
    axes: Float64Array,
    limit: number,
    R: Mat3 | null,
  ): void {
    if (!joints) {
      if (limit >= Math.PI) return;
      const cosine = Math.cos(limit);
      const sine = Math.sin(limit);
      for (let leg = 0; leg < LEG_COUNT; leg++) this.addTurnedCone(first + leg, axes, 3 * leg, R, cosine, sine);
      return;
    }
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const { all, either } = joints[leg].bounds;
      for (const bound of all) this.addBound(first + leg, bound, R);
      if (!either) continue;
      this.either[this.firstCones[JOINT_COUNT]] = 1;
      this.addBound(first + leg, either[0], R);
      this.addBound(first + leg, either[1], R);
    }
  }

  private addBound(joint: number, { w, least }: DirectionBound, R: Mat3 | null): void {
    this.addTurnedCone(joint, w, 0, R, least, Math.sqrt(1 - least * least));
  }

  private addTurnedCone(
    joint: number,
    axis: ArrayLike<number>,
    from: number,
    R: Mat3 | null,
    cosine: number,
    sine: number,
  ): void {
    const { axes, firstCones } = this;
    const cone = firstCones[JOINT_COUNT];
    const x = axis[from];
    const y = axis[from + 1];
    const z = axis[from + 2];
    for (let row = 0; row < 3; row++) {
      axes[3 * cone + row] = R ? -(R[3 * row] * x + R[3 * row + 1] * y + R[3 * row + 2] * z) : axis[from + row];
    }
    this.cosines[cone] = cosine;
    this.sines[cone] = sine;
    for (let next = joint + 1; next <= JOINT_COUNT; next++) firstCones[next] = cone + 1;
  }
}

/** Whether a limit is in force; a joint without cones never binds. */
export function isActive({ enabled, firstCones }: Constraints, code: LimitCode): boolean {
  if ((enabled & (1 << code)) === 0) return false;
  return code < BASE || firstCones[code - BASE] < firstCones[code - BASE + 1];
}

/**
 * Signed room left to every limit at a point [mm], by code: positive inside, Infinity where a limit is not in force. Lengths count
 * directly. A joint counts as the distance to its nearest cone's surface, l sin(half angle - tilt), as long as that cone's nearest
 * point is not the apex; the sign holds everywhere.
 */
export function writeMargins(constraints: Constraints, x: number, y: number, z: number, margins: Float64Array): void {
  const { apexes, min, max, enabled } = constraints;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const i = 3 * leg;
    const dx = x - apexes[i];
    const dy = y - apexes[i + 1];
    const dz = z - apexes[i + 2];
    const square = dx * dx + dy * dy + dz * dz;
    const size = Math.sqrt(square);
    margins[SHORT + leg] = enabled & (1 << (SHORT + leg)) ? size - min : Number.POSITIVE_INFINITY;
    margins[LONG + leg] = enabled & (1 << (LONG + leg)) ? max - size : Number.POSITIVE_INFINITY;
    margins[BASE + leg] = jointMargin(constraints, leg, dx, dy, dz, square);
    margins[PLATFORM + leg] = jointMargin(constraints, LEG_COUNT + leg, dx, dy, dz, square);
  }
}

function jointMargin(
  constraints: Constraints,
  joint: number,
  dx: number,
  dy: number,
  dz: number,
  square: number,
): number {
  const { firstCones, enabled } = constraints;
  const first = firstCones[joint];
  const end = firstCones[joint + 1];
  if (first === end || (enabled & (1 << (BASE + joint))) === 0) return Number.POSITIVE_INFINITY;
  return end - first === 1
    ? coneMargin(constraints, first, dx, dy, dz, square)
    : leastConeMargin(constraints, first, end, dx, dy, dz, square);
}

function leastConeMargin(
  constraints: Constraints,
  first: number,
  end: number,
  dx: number,
  dy: number,
  dz: number,
  square: number,
): number {
  const { either } = constraints;
  let least = Number.POSITIVE_INFINITY;
  for (let cone = first; cone < end; cone++) {
    let margin = coneMargin(constraints, cone, dx, dy, dz, square);
    if (either[cone] === 1) margin = Math.max(margin, coneMargin(constraints, ++cone, dx, dy, dz, square));
    if (margin < least) least = margin;
  }
  return least;
}

function coneMargin(
  { axes, cosines, sines }: Constraints,
  cone: number,
  dx: number,
  dy: number,
  dz: number,
  square: number,
): number {
  const along = dx * axes[3 * cone] + dy * axes[3 * cone + 1] + dz * axes[3 * cone + 2];
  const across = Math.sqrt(Math.max(0, square - along * along));
  return sines[cone] * along - cosines[cone] * across;
}

/** The cone of a joint that binds where the leg is (dx, dy, dz): the one whose margin is the joint's. */
export function bindingCone(constraints: Constraints, code: LimitCode, dx: number, dy: number, dz: number): number {
  const { firstCones, either } = constraints;
  const first = firstCones[code - BASE];
  const end = firstCones[code - BASE + 1];
  if (end - first === 1) return first;
  const square = dx * dx + dy * dy + dz * dz;
  let binding = first;
  let least = Number.POSITIVE_INFINITY;
  for (let cone = first; cone < end; cone++) {
    let own = cone;
    let margin = coneMargin(constraints, cone, dx, dy, dz, square);
    if (either[cone] === 1) {
      const other = coneMargin(constraints, ++cone, dx, dy, dz, square);
      if (other > margin) {
        own = cone;
        margin = other;
      }
    }
    if (margin >= least) continue;
    least = margin;
    binding = own;
  }
  return binding;
}

/**
 * Outward unit normal of a limit's surface at a point of that surface; written to `normal` at `offset`.
 * Spheres: along the leg. Cones: the axis part is cut off, n = (C u - a) / sin(half angle) with C its cosine.
 */
export function writeLimitNormal(
  constraints: Constraints,
  code: LimitCode,
  point: ArrayLike<number>,
  normal: Float64Array | Float32Array,
  offset: number,
): void {
  const leg = code % LEG_COUNT;
  const { apexes, axes } = constraints;
  const dx = point[0] - apexes[3 * leg];
  const dy = point[1] - apexes[3 * leg + 1];
  const dz = point[2] - apexes[3 * leg + 2];
  const size = Math.sqrt(dx * dx + dy * dy + dz * dz) || 1;
  let nx = dx;
  let ny = dy;
  let nz = dz;
  if (code < LONG) {
    nx = -dx;
    ny = -dy;
    nz = -dz;
  } else if (code >= BASE) {
    const cone = bindingCone(constraints, code, dx, dy, dz);
    const cosine = constraints.cosines[cone] / size;
    nx = cosine * dx - axes[3 * cone];
    ny = cosine * dy - axes[3 * cone + 1];
    nz = cosine * dz - axes[3 * cone + 2];
  }
  const inverse = 1 / (Math.sqrt(nx * nx + ny * ny + nz * nz) || 1);
  normal[offset] = nx * inverse;
  normal[offset + 1] = ny * inverse;
  normal[offset + 2] = nz * inverse;
}
