import {
  type JointReading,
  type LegJointReadings,
  type MeasuredAbout,
  tightest,
} from '../kinematics/joint-readings.ts';
import type { PlateName } from '../kinematics/layout.ts';
import type { LegState } from '../kinematics/legs.ts';
import { LIMIT_WORDS, type LimitName } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { degrees } from '../terms/units.ts';
import { roundedText } from './numbers.ts';

/** Most digits behind the point that tell a value from its limit. */
const MOST_DECIMALS = 6;

/** A value past its limit with as many digits as it takes to look different from it. */
function apart(value: number, limit: number): string {
  let decimals = 1;
  while (decimals < MOST_DECIMALS && roundedText(value, decimals) === roundedText(limit, decimals)) decimals++;
  return roundedText(value, decimals);
}

/** What was tilted too far, where a joint has other limited angles than its tilt. */
const TILTED: Readonly<Record<MeasuredAbout, string>> = {
  mount: 'tilted',
  bolt: 'tilted across its bolt',
  first: 'turned about its first axis',
  second: 'turned about its second axis',
};

/**
 * What a leg does at a broken limit, with its number and the limit: "too long (214.2 mm, limit 200)".
 * @param joints the leg's joints by the true limits of their kinds; left out: as cones
 */
export function brokenLimitWords(
  leg: LegState,
  limit: LimitName,
  { legs, tiltLimit }: Mechanism,
  joints?: LegJointReadings,
): string {
  const length = (end: number) => `${apart(leg.length, end)} mm, limit ${roundedText(end, 1)}`;
  const tilted = (plate: PlateName, cone: JointReading) => {
    const { about, angle, limit: end } = joints ? tightest(joints[plate]) : cone;
    return `${TILTED[about]} too far (${apart(degrees(angle), degrees(end))} deg, limit ${roundedText(degrees(end), 1)})`;
  };
  switch (limit) {
    case 'legTooShort':
      return `too short (${length(legs.min)})`;
    case 'legTooLong':
      return `too long (${length(legs.max)})`;
    case 'baseJoint':
      return `base joint ${tilted('base', { about: 'mount', angle: leg.baseTilt, limit: tiltLimit.base })}`;
    case 'platformJoint':
      return `platform joint ${tilted('platform', { about: 'mount', angle: leg.platformTilt, limit: tiltLimit.platform })}`;
  }
}

/** Every broken limit of a pose in words: "leg 3 too long (214.2 mm, limit 200)". */
export const brokenLimits = (
  legs: readonly LegState[],
  mechanism: Mechanism,
  joints?: readonly LegJointReadings[],
): readonly string[] =>
  legs.flatMap((leg) =>
    leg.violations.map((limit) => `leg ${leg.leg} ${brokenLimitWords(leg, limit, mechanism, joints?.[leg.leg - 1])}`),
  );

/** A leg and the limit it meets: "leg 4, leg too long". */
export const stopWords = (leg: number, limit: LimitName): string => {
  const words = LIMIT_WORDS[limit];
  return words.startsWith('leg ') ? `leg ${leg} ${words.slice(4)}` : `leg ${leg} ${words}`;
};
