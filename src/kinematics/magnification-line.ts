import { svd } from '../math/svd.ts';
import { rankOf } from './architecture.ts';
import { withPoseNumber } from './free-travel.ts';
import { jacobian, scaledJacobian } from './jacobian.ts';
import { LEG_COUNT } from './layout.ts';
import type { Mechanism } from './mechanism.ts';
import { type PoseAngles, poseFromAngles } from './pose.ts';

/** The magnification along one number of a pose. Sampled: between two samples it may be larger than at both. */
export interface MagnificationLine {
  /** Values of the number [mm or rad], evenly spaced, rising. */
  readonly values: Float64Array;
  /** 1 / smallest singular value of the scaled Jacobian at each; Infinity where singular. */
  readonly magnifications: Float64Array;
}

/**
 * Samples the magnification while one number of a pose runs from `low` to `high` and the other five stay; limits are not looked at.
 * @param freedom place in FREEDOMS: 0 to 2 position [mm], 3 to 5 roll, pitch, yaw [rad]
 * @param samples at least 2
 */
export function magnificationAlong(
  mechanism: Mechanism,
  from: PoseAngles,
  freedom: number,
  low: number,
  high: number,
  samples: number,
): MagnificationLine {
  const values = Float64Array.from({ length: samples }, (_, i) => low + ((high - low) * i) / (samples - 1));
  const magnifications = values.map((value) => {
    const pose = poseFromAngles(withPoseNumber(from, freedom, value));
    const { values: singular } = svd(
      scaledJacobian(jacobian(mechanism, pose), mechanism.characteristicLength),
      LEG_COUNT,
    );
    return rankOf(singular) < LEG_COUNT ? Number.POSITIVE_INFINITY : 1 / singular[LEG_COUNT - 1];
  });
  return { values, magnifications };
}
