import type { DesignFault } from '../document/faults.ts';
import type { Verdict } from '../kinematics/independence.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import type { LegState } from '../kinematics/legs.ts';
import type { LimitName } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Pose } from '../kinematics/pose.ts';
import { VERDICT_WORDS } from '../kinematics/verdict-word.ts';
import { at, length, subtract } from '../math/vec3.ts';
import { degrees } from '../terms/units.ts';
import { badArgument } from './option.ts';

/** Up to six significant figures, as a line for people needs them. */
export const figure = (value: number): string => String(Number(value.toPrecision(6)));

/** One line for every limit that a leg breaks. */
export const limitFindings = (legs: readonly LegState[], mechanism: Mechanism): readonly string[] =>
  legs.flatMap((leg) => leg.violations.map((limit) => limitFinding(limit, leg, mechanism)));

function limitFinding(limit: LimitName, leg: LegState, { legs, tiltLimit }: Mechanism): string {
  const name = `Leg ${leg.leg}`;
  switch (limit) {
    case 'legTooShort':
      return `${name} would be ${figure(leg.length)} mm; it gets no shorter than ${figure(legs.min)} mm.`;
    case 'legTooLong':
      return `${name} would be ${figure(leg.length)} mm; it gets no longer than ${figure(legs.max)} mm.`;
    case 'baseJoint':
      return `${name} tilts ${figure(degrees(leg.baseTilt))} deg at its base joint, which allows ${figure(degrees(tiltLimit.base))} deg.`;
    case 'platformJoint':
      return `${name} tilts ${figure(degrees(leg.platformTilt))} deg at its platform joint, which allows ${figure(degrees(tiltLimit.platform))} deg.`;
  }
}

/** A line when the legs are not independent, and none otherwise. */
export function verdictFindings({ word, reason }: Verdict): readonly string[] {
  const singular = VERDICT_WORDS.filter((verdict) => verdict.startsWith('singular'));
  return singular.includes(word) ? [`The platform is ${word}. ${reason}`] : [];
}

/**
 * A fault when no leg reaches a place, however the platform is turned there: a leg's length then lies between
 * | |A_i T| - |T B_i| | and |A_i T| + |T B_i|, and these ranges miss the stroke for all six.
 * @param option where the pose was asked for
 * @param shown the pose as it was asked for
 */
export function unreachable(mechanism: Mechanism, pose: Pose, option: string, shown: string): readonly DesignFault[] {
  const { legs, centres, p_ToBi_P } = mechanism;
  let nearest = Number.POSITIVE_INFINITY;
  let farthest = 0;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const toTool = length(subtract(pose.p_BoTo_B, at(centres.base, leg)));
    const arm = length(at(p_ToBi_P, leg));
    const least = Math.abs(toTool - arm);
    const most = toTool + arm;
    if (least <= legs.max && most >= legs.min) return [];
    nearest = Math.min(nearest, least);
    farthest = Math.max(farthest, most);
  }
  const need =
    nearest > legs.max
      ? `${figure(nearest)} mm or more, and they get no longer than ${figure(legs.max)} mm`
      : `${figure(farthest)} mm or less, and they get no shorter than ${figure(legs.min)} mm`;
  const limit = `a place that some leg reaches, but however the platform is turned the legs would need ${need}`;
  const remedy = nearest > legs.max ? 'Bring it nearer to the base.' : 'Take it away from the base.';
  return [badArgument(option, shown, limit, remedy)];
}
