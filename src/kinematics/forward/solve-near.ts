import { failed, ok, type Result } from '../../math/result.ts';
import { quaternionFromRotation } from '../../math/rotation.ts';
import type { Vec3 } from '../../math/vec3.ts';
import type { JointCentres } from '../layout.ts';
import type { Pose } from '../pose.ts';
import {
  badJoint,
  badLength,
  type ForwardFault,
  finiteCentres,
  impossibleLengths,
  nearSingular,
  notConverged,
} from './faults.ts';
import { NearSolver } from './near-solver.ts';

/** A pose found from a guess. */
export interface NearPose {
  readonly pose: Pose;
  /** Largest |leg length - asked| [length]. */
  readonly residual: number;
  /** Determinant of the Jacobian at the pose [length^3]. */
  readonly determinant: number;
  /**
   * True when the determinants at guess and pose differ in sign: they lie on two sides of a singularity, so a real
   * platform cannot have come from the one to the other with its legs in control.
   */
  readonly assemblyChanged: boolean;
  readonly iterations: number;
}

/**
 * The pose with six given lengths that is near a guess; {@link NearSolver} wrapped for a single call.
 * @param centres joint centres, any one length unit
 * @param lengths six, pin to pin, the same unit
 * @param guess pose of the tool point
 * @param tool p_PoTo_P; the platform's own origin if left out
 */
export function solveNear(
  centres: JointCentres,
  lengths: ArrayLike<number>,
  guess: Pose,
  tool: Vec3 = [0, 0, 0],
): Result<NearPose, ForwardFault> {
  if (!finiteCentres(centres)) return failed(badJoint);
  return solveWith(new NearSolver(centres, tool), lengths, guess);
}

/** {@link solveNear} with a solver made before; for repeated calls on one layout. */
export function solveWith(solver: NearSolver, lengths: ArrayLike<number>, guess: Pose): Result<NearPose, ForwardFault> {
  const status = solver.solve(lengths, guess.p_BoTo_B, quaternionFromRotation(guess.R_BP));
  switch (status) {
    case 'badLength':
      return failed(badLength(solver.firstLeg));
    case 'impossibleLengths':
      return failed(impossibleLengths(solver.firstLeg, solver.secondLeg));
    case 'nearSingular':
      return failed(nearSingular(solver.residual));
    case 'notConverged':
      return failed(notConverged(solver.residual));
    case 'solved': {
      const [x, y, z] = solver.position;
      const pose = { p_BoTo_B: [x, y, z], R_BP: Float64Array.from(solver.R) } as const;
      const { residual, determinant, assemblyChanged, iterations } = solver;
      return ok({ pose, residual, determinant, assemblyChanged, iterations });
    }
  }
}
