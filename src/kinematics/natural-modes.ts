import { multiply3 } from '../math/rotation.ts';
import { svd } from '../math/svd.ts';
import type { Vec3 } from '../math/vec3.ts';
import { LEG_COUNT } from './layout.ts';
import { centreArm, type Payload } from './load.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** One way in which the payload swings on the legs' springs. */
export interface NaturalMode {
  /** [Hz] */
  readonly frequency: number;
  /** Motion of the tool point [mm] and turn [rad], base axes, in proportion only. */
  readonly translation: Vec3;
  readonly rotation: Vec3;
}

/** 1 N/mm over 1 kg is 1000 per second squared: newtons are kg m/s^2, and lengths here are millimetres. */
const PER_SECOND_SQUARED = 1000;

/** Directions with less than this share of the largest inertia in the modes have none: rounding leaves some 1e-16. */
const NO_INERTIA = 1e-12;

/**
 * Solves `K y = w^2 M y` with M the payload's mass matrix about the tool point; legs and joints are massless.
 *
 * With `K^-1 = F F^T`, `F = J^-1 diag(k)^-1/2`, the swap y = F z gives the ordinary problem `F^T M F z = z / w^2`, in
 * which a mass matrix without inertia about some axis (a point mass) is no trouble: those modes have no frequency and
 * are left out.
 * @param inverse J^-1, flat 6x6
 * @param springs six [N/mm]
 */
export function naturalModes(
  mechanism: Mechanism,
  pose: Pose,
  inverse: Float64Array,
  springs: Float64Array,
  payload: Payload,
): readonly NaturalMode[] {
  const F = inverse.map((entry, n) => entry / Math.sqrt(springs[n % LEG_COUNT]));
  const M = massMatrix(mechanism, pose, payload);
  const { values, V } = svd(congruence(F, M), 6);
  const modes: NaturalMode[] = [];
  for (let column = 0; column < 6 && values[column] > NO_INERTIA * values[0]; column++) {
    const y = [0, 0, 0, 0, 0, 0];
    for (let row = 0; row < 6; row++) for (let k = 0; k < 6; k++) y[row] += F[6 * row + k] * V[6 * k + column];
    modes.push({
      frequency: Math.sqrt(PER_SECOND_SQUARED / values[column]) / (2 * Math.PI),
      translation: [y[0], y[1], y[2]],
      rotation: [y[3], y[4], y[5]],
    });
  }
  return modes;
}

/**
 * Mass matrix about the tool point, base axes, flat 6x6 [kg, kg mm, kg mm^2]: kinetic energy is half of
 * `x' M x'`, with the centre of mass moving at `v + w x c`.
 */
export function massMatrix(mechanism: Mechanism, pose: Pose, payload: Payload): Float64Array {
  const { mass, inertia = [0, 0, 0] } = payload;
  const [x, y, z] = centreArm(mechanism, pose, payload);
  const R = pose.R_BP;
  const Rt = Float64Array.of(R[0], R[3], R[6], R[1], R[4], R[7], R[2], R[5], R[8]);
  const I = multiply3(multiply3(R, Float64Array.of(inertia[0], 0, 0, 0, inertia[1], 0, 0, 0, inertia[2])), Rt);
  const m = mass;
  return Float64Array.of(
    ...[m, 0, 0, 0, m * z, -m * y],
    ...[0, m, 0, -m * z, 0, m * x],
    ...[0, 0, m, m * y, -m * x, 0],
    ...[0, -m * z, m * y, I[0] + m * (y * y + z * z), I[1] - m * x * y, I[2] - m * x * z],
    ...[m * z, 0, -m * x, I[3] - m * x * y, I[4] + m * (x * x + z * z), I[5] - m * y * z],
    ...[-m * y, m * x, 0, I[6] - m * x * z, I[7] - m * y * z, I[8] + m * (x * x + y * y)],
  );
}

/** F^T M F, flat 6x6. */
function congruence(F: Float64Array, M: Float64Array): Float64Array {
  const MF = new Float64Array(36);
  const result = new Float64Array(36);
  for (let i = 0; i < 6; i++)
    for (let j = 0; j < 6; j++) for (let k = 0; k < 6; k++) MF[6 * i + j] += M[6 * i + k] * F[6 * k + j];
  for (let i = 0; i < 6; i++)
    for (let j = 0; j < 6; j++) for (let k = 0; k < 6; k++) result[6 * i + j] += F[6 * k + i] * MF[6 * k + j];
  return result;
}
