import { invertInPlace } from '../math/inverse.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { RANK_TOLERANCE } from './architecture.ts';
import { jacobian, scaledJacobian } from './jacobian.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** Why a pose cannot be judged. */
export interface JudgementFault {
  /** The legs leave a motion free here, or a number given is unusable. */
  readonly kind: 'singular' | 'input';
  readonly message: string;
}

export const singularFault: JudgementFault = {
  kind: 'singular',
  message:
    'The six legs are not independent at this pose: some motion of the tool is free, so its errors, sag and leg forces have no bound.',
};

/** A fault that names the number at fault. */
export const inputFault = (message: string): JudgementFault => ({
  kind: 'input',
  message,
});

/** The Jacobian of a pose together with its inverse. */
export interface InvertedJacobian {
  /** Rows `[u_i, (R b_i) x u_i]` [1, mm], flat 6x6. */
  readonly J: Float64Array;
  /** Column i is the tool's motion for one unit of change of leg i [mm/mm three rows, rad/mm three rows], flat 6x6. */
  readonly inverse: Float64Array;
}

/**
 * Jacobian and inverse at a pose. Singular when |J| |J^-1| (Frobenius norms, rotations divided by the characteristic
 * length) passes 1 / {@link RANK_TOLERANCE}: the same bound that decides the rank, within a factor of six.
 */
export function invertedJacobian(mechanism: Mechanism, pose: Pose): Result<InvertedJacobian, JudgementFault> {
  const J = jacobian(mechanism, pose);
  const { characteristicLength } = mechanism;
  const inverse = scaledJacobian(J, characteristicLength);
  const size = frobenius(inverse);
  if (invertInPlace(6, inverse) === 0) return failed(singularFault);
  if (!(size * frobenius(inverse) * RANK_TOLERANCE < 1)) return failed(singularFault);
  // undo the scaling: rows 4 to 6 of the inverse are turns
  for (let i = 18; i < 36; i++) inverse[i] /= characteristicLength;
  return ok({ J, inverse });
}

function frobenius(M: Float64Array): number {
  let sum = 0;
  for (const entry of M) sum += entry * entry;
  return Math.sqrt(sum);
}
