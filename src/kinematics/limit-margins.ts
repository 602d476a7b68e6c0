import { jointStates } from './joint-limits.ts';
import { LEG_COUNT } from './layout.ts';
import { legLengths } from './legs.ts';
import { LIMIT_NAMES, LIMIT_SLACK, type LimitName } from './limits.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** One limit of one leg. */
export interface LegLimit {
  readonly limit: LimitName;
  /** 1 to 6. */
  readonly leg: number;
}

/** Number of limits of all legs: too short, too long, base joint, platform joint, in the order of LIMIT_NAMES. */
export const LIMIT_COUNT = LIMIT_NAMES.length * LEG_COUNT;

/** The limit that a place in {@link limitMargins} belongs to. */
export const limitAt = (index: number): LegLimit => ({
  limit: LIMIT_NAMES[Math.floor(index / LEG_COUNT)],
  leg: (index % LEG_COUNT) + 1,
});

/**
 * Room left to every limit of every leg at a pose, 24 numbers, negative past the limit: lengths as a share of the layout's
 * size, joints as angles [rad].
 */
export function limitMargins(mechanism: Mechanism, pose: Pose): Float64Array {
  const margins = new Float64Array(LIMIT_COUNT);
  legLengths(mechanism, pose).forEach((length, leg) => {
    margins[leg] = (length - mechanism.legs.min) / mechanism.size;
    margins[LEG_COUNT + leg] = (mechanism.legs.max - length) / mechanism.size;
  });
  jointStates(mechanism, pose).forEach(({ baseMargin, platformMargin }, leg) => {
    margins[2 * LEG_COUNT + leg] = baseMargin;
    margins[3 * LEG_COUNT + leg] = platformMargin;
  });
  return margins;
}

/** A limit that is broken, and by how much: [mm] of length, or [rad] of tilt. */
export interface BrokenLimit extends LegLimit {
  readonly excess: number;
}

/** The broken limit at a place in {@link limitMargins}. */
export function brokenLimit(mechanism: Mechanism, index: number, margin: number): BrokenLimit {
  const { limit, leg } = limitAt(index);
  const length = limit === 'legTooShort' || limit === 'legTooLong';
  return { limit, leg, excess: length ? -margin * mechanism.size : -margin };
}

/** Place of the limit with the least margin; null when all hold, to rounding. */
export function worstBroken(margins: Float64Array): number | null {
  const worst = margins.reduce((best, margin, n) => (margin < margins[best] ? n : best), 0);
  return margins[worst] < -LIMIT_SLACK ? worst : null;
}
