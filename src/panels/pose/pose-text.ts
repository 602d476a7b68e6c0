import { type PoseAngles, poseFromAngles } from '../../kinematics/pose.ts';
import { quaternionFromRotation } from '../../math/rotation.ts';
import { degrees } from '../../terms/units.ts';

/** The ways in which a pose can be copied. */
export const POSE_FORMS = ['angles', 'quaternion', 'matrix'] as const;

export type PoseForm = (typeof POSE_FORMS)[number];

/** Digits behind the point: positions to a nanometre, so that a pasted pose is the same pose. */
const POSITION_DECIMALS = 6;
const UNIT_DECIMALS = 12;
const ANGLE_DECIMALS = 9;

const listed = (numbers: Iterable<number>, decimals: number): string =>
  Array.from(numbers, (value) => String(Number(value.toFixed(decimals)) + 0)).join(', ');

/** A pose as text: position in mm, then angles, quaternion or the 4x4 matrix by rows. */
export function poseText(pose: PoseAngles, form: PoseForm): string {
  const { R_BP: R, p_BoTo_B } = poseFromAngles(pose);
  const position = listed(pose.position, POSITION_DECIMALS);
  if (form === 'angles') {
    const angles = listed([pose.roll, pose.pitch, pose.yaw].map(degrees), ANGLE_DECIMALS);
    return `position_mm ${position}; roll_deg, pitch_deg, yaw_deg ${angles}; R = Rz(yaw) Ry(pitch) Rx(roll)`;
  }
  if (form === 'quaternion') {
    return `position_mm ${position}; quaternion_wxyz ${listed(quaternionFromRotation(R), UNIT_DECIMALS)}`;
  }
  const rows = [0, 1, 2].map((row) => {
    const turn = listed(R.subarray(3 * row, 3 * row + 3), UNIT_DECIMALS);
    return `${turn}, ${listed([p_BoTo_B[row]], POSITION_DECIMALS)}`;
  });
  return [...rows, '0, 0, 0, 1'].join('\n');
}
