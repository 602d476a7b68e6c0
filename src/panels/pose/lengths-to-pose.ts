import { type ForwardFault, type NearPose, solveNear } from '../../kinematics/forward.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Pose } from '../../kinematics/pose.ts';
import { failed, ok, type Result } from '../../math/result.ts';

/** The pose with six lengths [mm] nearest to where the platform is. */
export const poseOfLengths = (
  { centres, p_PoTo_P }: Mechanism,
  lengths: ArrayLike<number>,
  near: Pose,
): Result<NearPose, ForwardFault> => solveNear(centres, lengths, near, p_PoTo_P);

/** Six numbers from a pasted text: separated by spaces, commas or semicolons, `mm` allowed. */
export function sixLengths(text: string): Result<readonly number[], string> {
  const parts = text
    .replaceAll(/\bmm\b/g, ' ')
    .split(/[\s,;]+/)
    .filter((part) => part !== '');
  const numbers = parts.map(Number);
  const bad = parts.find((_, index) => !Number.isFinite(numbers[index]));
  if (bad !== undefined) return failed(`"${bad.slice(0, 20)}" is not a number.`);
  if (numbers.length !== LEG_COUNT) return failed(`Six lengths are needed; the text has ${numbers.length}.`);
  return ok(numbers);
}
