import type { JudgeOptions, RequirementJudge } from './judge-requirement.ts';
import { hasFreeAxes, type Piece } from './piece.ts';
import { piecesOf, type Requirement, scaledPieces } from './requirement.ts';

/** Copies larger than this are not looked at: a motion that passes at four times its size is no question any more. */
export const TAU_MOST = 4;

/** How near the scale is found, as a share of the region. */
const TAU_STEP = 1e-4;

/** The same where the best of an axis is taken at each pose, which costs a hundred times as much. */
const FREE_STEP = 1e-2;

/** Steps of the search; each halves the interval at least every third time. */
const MOST_STEPS = 40;

const QUICKLY: JudgeOptions = { prove: false, all: false };

/**
 * How much of a requirement passes: the largest scale, up to {@link TAU_MOST}, such that the region scaled about its centre keeps every
 * limit at that scale and at all smaller ones. Loads are not scaled. 0 where not even the centre passes; null for a list of
 * poses, which has no centre.
 *
 * Scaled regions lie in each other, so margins only fall as the scale grows, and the scale is found where they pass 0: that of
 * legs and joints first, which cost least, then that of everything where something else stops the motion earlier.
 * @param margin at scale 1, known already
 */
export function tauOf(judge: RequirementJudge, requirement: Requirement, margin: number): number | null {
  if (requirement.region.kind === 'poses') return null;
  const at = (scale: number, of: (pieces: readonly Piece[]) => number): number => {
    const pieces = scaledPieces(requirement.region, scale);
    return pieces ? of(pieces) : Number.NEGATIVE_INFINITY;
  };
  const legs = (scale: number) => at(scale, (pieces) => judge.legMargin(requirement, pieces));
  const everything = (scale: number) => at(scale, (pieces) => judge.judgePieces(requirement, pieces, QUICKLY).margin);
  const [low, high] = margin >= 0 ? [1, TAU_MOST] : [0, 1];
  if (piecesOf(requirement.region).some(hasFreeAxes)) return lastKept(everything, low, high, FREE_STEP) ?? 0;
  const byLegs = lastKept(legs, low, high);
  if (byLegs === null) return 0;
  if (everything(byLegs) >= 0) return byLegs;
  return lastKept(everything, low, byLegs) ?? 0;
}

/**
 * The largest scale of a range at which a falling margin is at least 0, to `precision`; null where it is below already at
 * the low end. By false position with the weight of an end that stays halved (the Illinois rule: M. Dowell and P. Jarratt, BIT 11, 1971,
 * from memory), and by halving where a margin has no bound.
 */
function lastKept(marginAt: (scale: number) => number, from: number, to: number, precision = TAU_STEP): number | null {
  let [low, high] = [from, to];
  let atLow = marginAt(low);
  if (atLow < 0) return null;
  let atHigh = marginAt(high);
  if (atHigh >= 0) return high;
  for (let step = 0; step < MOST_STEPS && high - low > precision; step++) {
    const guess = Number.isFinite(atHigh) ? low + ((high - low) * atLow) / (atLow - atHigh) : (low + high) / 2;
    // past the guess by half a step, so that the range closes from both sides
    const next = Math.min(Math.max(guess, low + precision / 2), high - precision / 2);
    const found = marginAt(next);
    if (found >= 0) {
      low = next;
      atLow = found;
      atHigh /= 2;
    } else {
      high = next;
      atHigh = found;
      atLow /= 2;
    }
  }
  return low;
}
