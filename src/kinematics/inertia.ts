import type { Mat3 } from '../math/rotation.ts';
import { svd } from '../math/svd.ts';
import type { Vec3 } from '../math/vec3.ts';

/**
 * Inertia matrix about the centre of mass [kg mm^2]: xx, yy, zz, xy, xz, yz. The last three are entries of the matrix,
 * `xy = -sum m x y`; where products of inertia are listed with a plus sign, theirs are the negatives of these.
 */
export type Inertia = readonly [xx: number, yy: number, zz: number, xy: number, xz: number, yz: number];

/** A body without extent. */
export const NO_INERTIA: Inertia = [0, 0, 0, 0, 0, 0];

/** Three moments along principal axes stand for six numbers. */
export const wholeInertia = (moments: Vec3 | Inertia): Inertia =>
  moments.length === 6 ? moments : [moments[0], moments[1], moments[2], 0, 0, 0];

/** A principal moment below this share of the largest is none: what rounding leaves of a thin rod's smallest one. */
const NO_MOMENT = 1e-12;

/** A moment below 0 by less than this share of the largest is none: what writing a thin rod's matrix to six digits leaves. */
const ROUNDED_AWAY = 1e-5;

/** Moments of inertia about the principal axes. */
export interface PrincipalInertia {
  /** [kg mm^2], largest first; below 0 only for numbers that belong to no body. */
  readonly moments: Vec3;
  /** Axes as columns, in the frame of the inertia, flat 3x3. */
  readonly axes: Mat3;
}

/** What is wrong with numbers that belong to no body, in words; null when nothing is. */
export function inertiaFault(numbers: Vec3 | Inertia): string | null {
  if (!numbers.every(Number.isFinite) || !numbers.slice(0, 3).every((moment) => moment >= 0))
    return 'each must be a number, and xx, yy and zz at least 0';
  const { moments } = principalInertia(wholeInertia(numbers));
  return moments.every((moment) => moment >= 0) ? null : NEGATIVE_MOMENT;
}

/** Said of numbers that would give a turn a negative energy. */
export const NEGATIVE_MOMENT = 'xy, xz and yz are too large for xx, yy and zz: some axis would have a moment below 0';

/** Principal moments and axes; moments that are rounding only are 0. */
export function principalInertia([xx, yy, zz, xy, xz, yz]: Inertia): PrincipalInertia {
  const { values, U, V } = svd([xx, xy, xz, xy, yy, yz, xz, yz, zz], 3);
  // singular values carry no sign: left and right vector point against each other where the moment is below 0
  const moment = (k: number): number => {
    if (!(values[k] > NO_MOMENT * values[0])) return 0;
    if (U[k] * V[k] + U[3 + k] * V[3 + k] + U[6 + k] * V[6 + k] > 0) return values[k];
    return values[k] > ROUNDED_AWAY * values[0] ? -values[k] : 0;
  };
  return { moments: [moment(0), moment(1), moment(2)], axes: V };
}
