import { LEG_COUNT } from './layout.ts';
import { writeLegs } from './legs.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/**
 * Rows `[u_i, (R b_i) x u_i]` [1, mm], moments about the tool point: J times a twist
 * (tool point velocity, angular velocity, both in base axes) gives the leg speeds.
 * Flat row-major 6x6. A leg of no length has a zero row.
 */
export function jacobian(mechanism: Mechanism, pose: Pose): Float64Array {
  const J = new Float64Array(LEG_COUNT * 6);
  writeJacobian(mechanism, pose, J, new Float64Array(3 * LEG_COUNT), new Float64Array(LEG_COUNT));
  return J;
}

/** {@link jacobian} without allocation; also leaves leg vectors (18) and lengths (6) in the given arrays. */
export function writeJacobian(
  mechanism: Mechanism,
  pose: Pose,
  J: Float64Array,
  vectors: Float64Array,
  lengths: Float64Array,
): void {
  writeLegs(mechanism, pose, vectors, lengths);
  const R = pose.R_BP;
  const b = mechanism.p_ToBi_P;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const i = 3 * leg;
    const row = 6 * leg;
    const inverse = lengths[leg] > 0 ? 1 / lengths[leg] : 0;
    const ux = vectors[i] * inverse;
    const uy = vectors[i + 1] * inverse;
    const uz = vectors[i + 2] * inverse;
    const ax = R[0] * b[i] + R[1] * b[i + 1] + R[2] * b[i + 2];
    const ay = R[3] * b[i] + R[4] * b[i + 1] + R[5] * b[i + 2];
    const az = R[6] * b[i] + R[7] * b[i + 1] + R[8] * b[i + 2];
    J[row] = ux;
    J[row + 1] = uy;
    J[row + 2] = uz;
    J[row + 3] = ay * uz - az * uy;
    J[row + 4] = az * ux - ax * uz;
    J[row + 5] = ax * uy - ay * ux;
  }
}

/** Divides the three rotation columns by the characteristic length [mm], so that all six compare. */
export function scaledJacobian(J: Float64Array, characteristicLength: number): Float64Array {
  return J.map((entry, index) => (index % 6 < 3 ? entry : entry / characteristicLength));
}
