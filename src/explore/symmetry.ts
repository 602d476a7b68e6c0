import type { Mechanism } from '../kinematics/mechanism.ts';

/** How much of a circle about the axis stands for all of it. */
export interface Symmetry {
  /** Copies of the wedge that make the whole circle: 6 three-fold with mirror, 3 three-fold, 1 none. */
  readonly copies: 6 | 3 | 1;
  /** Where the wedge starts [rad]; on a mirror line when there is one. */
  readonly start: number;
}

/** Joints that differ less than this from their image, relative to the layout's size, count as symmetric: rounding only. */
const SYMMETRY_TOLERANCE = 1e-9;

const COS_THIRD = -0.5;
const SIN_THIRD = Math.sqrt(3) / 2;

/**
 * Three-fold and mirror symmetry of a design at its home orientation about the vertical through the base origin. Every third
 * of a turn takes leg i to leg i + 2; the mirror takes leg 1 to leg 2, 3 to 6 and 4 to 5.
 */
export function symmetryOf(mechanism: Mechanism): Symmetry {
  const { centres, p_ToBi_P, baseAxes_B, platformAxes_P, home, size } = mechanism;
  const R = home.R_BP;
  const level = Math.hypot(R[2], R[5], R[6], R[7]) < SYMMETRY_TOLERANCE;
  const slack = SYMMETRY_TOLERANCE * size;
  const threefold =
    level &&
    repeats(centres.base, slack) &&
    repeats(p_ToBi_P, slack) &&
    repeats(baseAxes_B, SYMMETRY_TOLERANCE) &&
    repeats(platformAxes_P, SYMMETRY_TOLERANCE);
  if (!threefold) return { copies: 1, start: 0 };
  const { base } = centres;
  const start = Math.atan2(base[1] + base[4], base[0] + base[3]);
  // the platform's own axes are turned by the home yaw
  const turned = start - Math.atan2(R[3], R[0]);
  const mirrored =
    reflects(base, start, slack) &&
    reflects(p_ToBi_P, turned, slack) &&
    reflects(baseAxes_B, start, SYMMETRY_TOLERANCE) &&
    reflects(platformAxes_P, turned, SYMMETRY_TOLERANCE);
  return { copies: mirrored ? 6 : 3, start };
}

/** A third of a turn takes every vector to the one two places on. */
function repeats(flat: Float64Array, slack: number): boolean {
  for (let i = 0; i < 18; i += 3) {
    const j = (i + 6) % 18;
    const x = COS_THIRD * flat[i] - SIN_THIRD * flat[i + 1];
    const y = SIN_THIRD * flat[i] + COS_THIRD * flat[i + 1];
    if (
      Math.abs(x - flat[j]) > slack ||
      Math.abs(y - flat[j + 1]) > slack ||
      Math.abs(flat[i + 2] - flat[j + 2]) > slack
    ) {
      return false;
    }
  }
  return true;
}

/** Mirror image of each leg, as an index. */
const MIRROR = [1, 0, 5, 4, 3, 2];

/** The mirror at `angle` takes every vector to its partner. */
function reflects(flat: Float64Array, angle: number, slack: number): boolean {
  const c = Math.cos(2 * angle);
  const s = Math.sin(2 * angle);
  for (let leg = 0; leg < 6; leg++) {
    const i = 3 * leg;
    const j = 3 * MIRROR[leg];
    const x = c * flat[i] + s * flat[i + 1];
    const y = s * flat[i] - c * flat[i + 1];
    if (
      Math.abs(x - flat[j]) > slack ||
      Math.abs(y - flat[j + 1]) > slack ||
      Math.abs(flat[i + 2] - flat[j + 2]) > slack
    ) {
      return false;
    }
  }
  return true;
}
