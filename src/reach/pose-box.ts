import { type Pose, type PoseAngles, poseFromAngles } from '../kinematics/pose.ts';

/** The six numbers of a pose in this order: x, y, z [mm], roll, pitch, yaw [rad]. */
export const POSE_NUMBERS = 6;

/** A box of poses: every number within `half` of `centre`, independently. Position first, then angles. */
export interface PoseBox {
  readonly centre: PoseAngles;
  readonly half: PoseAngles;
}

/** A pose's six numbers. */
export const poseNumbers = ({ position, roll, pitch, yaw }: PoseAngles): Float64Array =>
  Float64Array.of(...position, roll, pitch, yaw);

export const anglesFromNumbers = (n: ArrayLike<number>): PoseAngles => ({
  position: [n[0], n[1], n[2]],
  roll: n[3],
  pitch: n[4],
  yaw: n[5],
});

export const poseFromNumbers = (n: ArrayLike<number>): Pose => poseFromAngles(anglesFromNumbers(n));

/** Corner 0 to 63 of a box: bit `axis` set means the upper end. */
export function writeCorner(centre: Float64Array, half: Float64Array, corner: number, to: Float64Array): void {
  for (let axis = 0; axis < POSE_NUMBERS; axis++)
    to[axis] = centre[axis] + ((corner >> axis) & 1 ? half[axis] : -half[axis]);
}
