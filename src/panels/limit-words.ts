import { degrees } from '../document/units.ts';
import type { LegState } from '../kinematics/legs.ts';
import { LIMIT_WORDS, type LimitName } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { numberText } from './controls/number-text.ts';

/** What a leg does at a broken limit, with its number and the limit: "too long (214.2 mm, limit 200)". */
export function brokenLimitWords(leg: LegState, limit: LimitName, { legs, tiltLimit }: Mechanism): string {
  const length = (end: number) => `${numberText(leg.length, 1)} mm, limit ${numberText(end, 0)}`;
  const tilt = (angle: number, end: number) =>
    `${numberText(degrees(angle), 1)} deg, limit ${numberText(degrees(end), 0)}`;
  switch (limit) {
    case 'legTooShort':
      return `too short (${length(legs.min)})`;
    case 'legTooLong':
      return `too long (${length(legs.max)})`;
    case 'baseJoint':
      return `base joint tilted too far (${tilt(leg.baseTilt, tiltLimit.base)})`;
    case 'platformJoint':
      return `platform joint tilted too far (${tilt(leg.platformTilt, tiltLimit.platform)})`;
  }
}

/** Every broken limit of a pose in words: "leg 3 too long (214.2 mm, limit 200)". */
export const brokenLimits = (legs: readonly LegState[], mechanism: Mechanism): readonly string[] =>
  legs.flatMap((leg) => leg.violations.map((limit) => `leg ${leg.leg} ${brokenLimitWords(leg, limit, mechanism)}`));

/** A leg and the limit it meets: "leg 4, leg too long". */
export const stopWords = (leg: number, limit: LimitName): string => {
  const words = LIMIT_WORDS[limit];
  return words.startsWith('leg ') ? `leg ${leg} ${words.slice(4)}` : `leg ${leg} ${words}`;
};
