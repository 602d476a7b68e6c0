import { type Angles, anglesFromRotation, type Mat3, rotate, rotationFromAngles } from '../math/rotation.ts';
import { subtract, type Vec3 } from '../math/vec3.ts';

/**
 * Where the platform is: the tool point's position in base axes [mm] and the rotation from platform axes to base axes.
 * The platform turns about the tool point.
 */
export interface Pose {
  readonly p_BoTo_B: Vec3;
  readonly R_BP: Mat3;
}

/** A pose as people write it: tool point position [mm] and fixed-axis angles [rad]. */
export interface PoseAngles extends Angles {
  readonly position: Vec3;
}

/** R_BP = Rz(yaw) Ry(pitch) Rx(roll). */
export const poseFromAngles = (angles: PoseAngles): Pose => ({
  p_BoTo_B: angles.position,
  R_BP: rotationFromAngles(angles),
});

/** Inverse of {@link poseFromAngles}, with pitch in [-pi/2, pi/2]. */
export const anglesFromPose = ({ p_BoTo_B, R_BP }: Pose): PoseAngles => ({
  position: p_BoTo_B,
  ...anglesFromRotation(R_BP),
});

/** p_BoPo_B: where the platform's own origin is [mm, base axes], given the tool point p_PoTo_P. */
export const platformOrigin = ({ p_BoTo_B, R_BP }: Pose, p_PoTo_P: Vec3): Vec3 =>
  subtract(p_BoTo_B, rotate(R_BP, p_PoTo_P));
