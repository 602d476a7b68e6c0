import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { LoosestMotion } from '../../kinematics/loosest-motion.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Pose } from '../../kinematics/pose.ts';
import { multiply3, rotate, rotationAbout } from '../../math/rotation.ts';
import { add, at, cross, length, scale, type Vec3 } from '../../math/vec3.ts';

/** Largest travel of a platform joint in the drawn motion, as a share of the layout's size: seen at once, never wild. */
const SHOWN_TRAVEL = 0.14;

/** Units of the loosest motion (see LoosestMotion) at the ends of the drawn rock. */
export function shownAmplitude(mechanism: Mechanism, motion: LoosestMotion, pose: Pose): number {
  let largest = length(motion.translation);
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const arm = rotate(pose.R_BP, at(mechanism.p_ToBi_P, leg));
    largest = Math.max(largest, length(add(motion.translation, cross(motion.rotation, arm))));
  }
  return (SHOWN_TRAVEL * mechanism.size) / largest;
}

/**
 * How many times larger the motion is drawn than the reference play in the legs allows it to be; null when nothing
 * stops it, since then there is no true size.
 */
export function shownTimes(motion: LoosestMotion, amplitude: number): number | null {
  if (!motion.withPlay) return null;
  const unitSize = length(motion.translation) + length(motion.rotation);
  const playSize = motion.withPlay.travel + motion.withPlay.turn;
  return (amplitude * unitSize) / playSize;
}

/** The pose moved along the loosest motion: the tool point travels in a line and the platform turns about it. */
export function loosePose(pose: Pose, motion: LoosestMotion, units: number): Pose {
  const turn = length(motion.rotation);
  const travelled: Vec3 = add(pose.p_BoTo_B, scale(motion.translation, units));
  if (turn === 0) return { p_BoTo_B: travelled, R_BP: pose.R_BP };
  const step = rotationAbout(scale(motion.rotation, 1 / turn), turn * units);
  return { p_BoTo_B: travelled, R_BP: multiply3(step, pose.R_BP) };
}

/** Where in the rock a phase of 0 to 1 is: out, back through the middle, out on the other side, back. */
export const rockShare = (phase: number): number => Math.sin(2 * Math.PI * phase);
