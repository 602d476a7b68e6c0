import { jacobian } from '../../src/kinematics/jacobian.ts';
import { legLengths } from '../../src/kinematics/legs.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { invertInPlace } from '../../src/math/inverse.ts';
import { multiply3, rotationAbout } from '../../src/math/rotation.ts';
import { length, scale, unit, type Vec3 } from '../../src/math/vec3.ts';

/**
 * Exact pose for six lengths near a guess, by Newton's method on the leg lengths: the tests' own small solver, kept apart
 * from the program's. Throws when it does not converge.
 */
export function newtonForward(mechanism: Mechanism, lengths: ArrayLike<number>, guess: Pose): Pose {
  let pose = guess;
  for (let step = 0; step < 30; step++) {
    const residual = legLengths(mechanism, pose).map((value, leg) => lengths[leg] - value);
    if (Math.max(...residual.map(Math.abs)) < 1e-13 * mechanism.size) return pose;
    const inverse = jacobian(mechanism, pose);
    if (invertInPlace(6, inverse) === 0) throw new Error('singular on the way');
    const move = (row: number) => residual.reduce((sum, value, leg) => sum + inverse[6 * row + leg] * value, 0);
    const turn: Vec3 = [move(3), move(4), move(5)];
    const [x, y, z] = pose.p_BoTo_B;
    pose = {
      p_BoTo_B: [x + move(0), y + move(1), z + move(2)],
      R_BP: multiply3(rotationAbout(unit(turn), length(turn)), pose.R_BP),
    };
  }
  throw new Error('no convergence');
}

/** Rotation vector of B relative to A for small turns: half the antisymmetric part of B A^T. */
export function smallTurn(A: Float64Array, B: Float64Array): Vec3 {
  const At = Float64Array.of(A[0], A[3], A[6], A[1], A[4], A[7], A[2], A[5], A[8]);
  const D = multiply3(B, At);
  return scale([D[7] - D[5], D[2] - D[6], D[3] - D[1]], 0.5);
}
