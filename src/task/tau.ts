import type { JudgeOptions, RequirementJudge } from './judge-requirement.ts';
import type { Requirement } from './requirement.ts';
import { scaledPieces } from './requirement.ts';

/** Copies larger than this are not looked at: a motion that passes at four times its size is no question any more. */
export const TAU_MOST = 4;

/** How near the scale is found, as a share of the region. */
const TAU_STEP = 1e-4;

/** Steps of the search; each halves the interval at least every third time. */
const MOST_STEPS = 40;

const QUICKLY: JudgeOptions = { prove: false, all: false };

/**
 * How much of a requirement passes: the largest scale, up to {@link TAU_MOST}, such that the region scaled about its centre keeps every
 * limit at that scale and at all smaller ones. Loads are not scaled. 0 where not even the centre passes; null for a list of
 * poses, which has no centre.
 *
 * Scaled regions lie in each other, so margins only fall as the scale grows, and halving finds where they pass 0.
 * @param margin at scale 1, known already
 */
export function tauOf(judge: RequirementJudge, requirement: Requirement, margin: number): number | null {
  if (requirement.region.kind === 'poses') return null;
  const marginAt = (scale: number): number => {
    const pieces = scaledPieces(requirement.region, scale);
    return pieces ? judge.judgePieces(requirement, pieces, QUICKLY).margin : Number.NEGATIVE_INFINITY;
  };
  let low = margin >= 0 ? 1 : 0;
  let high = margin >= 0 ? TAU_MOST : 1;
  let atLow = margin >= 0 ? margin : marginAt(0);
  if (atLow < 0) return 0;
  let atHigh = margin >= 0 ? marginAt(TAU_MOST) : margin;
  if (atHigh >= 0) return TAU_MOST;
  for (let step = 0; step < MOST_STEPS && high - low > TAU_STEP; step++) {
    // a straight line through both ends guesses well, every third step halves for certain
    const guess =
      step % 3 === 2 || !Number.isFinite(atHigh)
        ? (low + high) / 2
        : low + ((high - low) * Math.max(atLow, 1e-6)) / (Math.max(atLow, 1e-6) - atHigh);
    // a step past the guess, so that the interval closes from both sides
    const at = Math.min(Math.max(guess, low + TAU_STEP / 2), high - TAU_STEP / 2);
    const found = marginAt(at);
    if (found >= 0) {
      low = at;
      atLow = found;
    } else {
      high = at;
      atHigh = found;
    }
  }
  return low;
}
