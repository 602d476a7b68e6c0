import { LEG_COUNT } from '../kinematics/layout.ts';
import { LIMIT_NAMES, type LimitName } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Mat3 } from '../math/rotation.ts';

/** Base cones are 0 to 5, platform cones 6 to 11, both in leg order. */
export const CONE_COUNT = 2 * LEG_COUNT;

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

/** Bits of the six legs' codes of one limit. */
export const limitBits = (limit: LimitName): number => ((1 << LEG_COUNT) - 1) << (LIMIT_INDEX[limit] * LEG_COUNT);

/**
 * What bounds the tool point t at one orientation. With apex c_i = A_i - R b_i, leg i is the vector t - c_i, so
 * its length limits are two spheres about c_i and its joint limits two cones with their apex in c_i
 * (C. Gosselin, J. Mech. Des. 112, 1990, for the spheres: from memory). Base axes, mm.
 */
export class Constraints {
  /** c_i, flat 18 [mm]. */
  readonly apexes = new Float64Array(3 * LEG_COUNT);
  /** Unit axes of the twelve cones from the apex into the allowed side, flat 36: base axes, then -R platform axes. */
  readonly axes = new Float64Array(3 * CONE_COUNT);
  /** Shortest and longest leg [mm]. */
  min = 0;
  max = 0;
  /** Half angle of the six base cones and of the six platform cones [rad, (0, pi]]; see {@link setTilts}. */
  baseTilt = Math.PI;
  platformTilt = Math.PI;
  /** Their cosines and sines. */
  baseCosine = -1;
  baseSine = 0;
  platformCosine = -1;
  platformSine = 0;
  /** Bit `code` set: that limit holds. */
  enabled = ALL_LIMITS;

  /** Sets both tilt limits [rad]. */
  setTilts(base: number, platform: number): void {
    this.baseTilt = base;
    this.platformTilt = platform;
    this.baseCosine = Math.cos(base);
    this.baseSine = Math.sin(base);
    this.platformCosine = Math.cos(platform);
    this.platformSine = Math.sin(platform);
  }

  /** Takes a mechanism at an orientation; no allocation. */
  setMechanism(mechanism: Mechanism, R_BP: Mat3, enabled: number = ALL_LIMITS): void {
    const { apexes, axes } = this;
    const { p_ToBi_P: b, baseAxes_B, platformAxes_P: p } = mechanism;
    const A = mechanism.centres.base;
    const R = R_BP;
    axes.set(baseAxes_B);
    for (let i = 0; i < 3 * LEG_COUNT; i += 3) {
      for (let row = 0; row < 3; row++) {
        const r0 = R[3 * row];
        const r1 = R[3 * row + 1];
        const r2 = R[3 * row + 2];
        apexes[i + row] = A[i + row] - (r0 * b[i] + r1 * b[i + 1] + r2 * b[i + 2]);
        axes[3 * LEG_COUNT + i + row] = -(r0 * p[i] + r1 * p[i + 1] + r2 * p[i + 2]);
      }
    }
    this.min = mechanism.legs.min;
    this.max = mechanism.legs.max;
    this.setTilts(mechanism.tiltLimit.base, mechanism.tiltLimit.platform);
    this.enabled = enabled;
  }
}

/** Whether a limit is in force; a cone of a full half turn never binds. */
export function isActive(constraints: Constraints, code: LimitCode): boolean {
  if ((constraints.enabled & (1 << code)) === 0) return false;
  if (code < BASE) return true;
  return (code < PLATFORM ? constraints.baseTilt : constraints.platformTilt) < Math.PI;
}

/**
 * Signed room left to every limit at a point [mm], by code: positive inside, Infinity where a limit is not in force. Lengths count
 * directly. A tilt counts as the distance to the cone's surface, l sin(limit - tilt), as long as its nearest point is not
 * the apex; the sign holds everywhere.
 */
export function writeMargins(constraints: Constraints, x: number, y: number, z: number, margins: Float64Array): void {
  const { apexes, axes, min, max, enabled } = constraints;
  const base = constraints.baseTilt < Math.PI;
  const platform = constraints.platformTilt < Math.PI;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const i = 3 * leg;
    const dx = x - apexes[i];
    const dy = y - apexes[i + 1];
    const dz = z - apexes[i + 2];
    const square = dx * dx + dy * dy + dz * dz;
    const size = Math.sqrt(square);
    margins[SHORT + leg] = enabled & (1 << (SHORT + leg)) ? size - min : Number.POSITIVE_INFINITY;
    margins[LONG + leg] = enabled & (1 << (LONG + leg)) ? max - size : Number.POSITIVE_INFINITY;
    margins[BASE + leg] = Number.POSITIVE_INFINITY;
    margins[PLATFORM + leg] = Number.POSITIVE_INFINITY;
    if (base && enabled & (1 << (BASE + leg))) {
      const along = dx * axes[i] + dy * axes[i + 1] + dz * axes[i + 2];
      const across = Math.sqrt(Math.max(0, square - along * along));
      margins[BASE + leg] = constraints.baseSine * along - constraints.baseCosine * across;
    }
    if (platform && enabled & (1 << (PLATFORM + leg))) {
      const along = dx * axes[18 + i] + dy * axes[19 + i] + dz * axes[20 + i];
      const across = Math.sqrt(Math.max(0, square - along * along));
      margins[PLATFORM + leg] = constraints.platformSine * along - constraints.platformCosine * across;
    }
  }
}

/**
 * Outward unit normal of a limit's surface at a point of that surface; written to `normal` at `offset`.
 * Spheres: along the leg. Cones: the axis part is cut off, n = (C u - a) / sin(limit) with C = cos(limit).
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
    const cone = code - BASE;
    const cosine = (code < PLATFORM ? constraints.baseCosine : constraints.platformCosine) / size;
    nx = cosine * dx - axes[3 * cone];
    ny = cosine * dy - axes[3 * cone + 1];
    nz = cosine * dz - axes[3 * cone + 2];
  }
  const inverse = 1 / (Math.sqrt(nx * nx + ny * ny + nz * nz) || 1);
  normal[offset] = nx * inverse;
  normal[offset + 1] = ny * inverse;
  normal[offset + 2] = nz * inverse;
}
