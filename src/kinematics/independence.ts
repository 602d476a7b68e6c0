import { Lu } from '../math/lu.ts';
import { svd } from '../math/svd.ts';
import { type Architecture, rankOf } from './architecture.ts';
import { jacobian, scaledJacobian } from './jacobian.ts';
import { LEG_COUNT } from './layout.ts';
import { type LoosestMotion, loosestMotion } from './loosest-motion.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';
import { verdictReason } from './verdict-reason.ts';
import type { VerdictWord } from './verdict-word.ts';

/**
 * Up to this magnification a layout is called firm: play or error in the legs reaches the loosest motion of the
 * tool at most four times as large. The magnification is 1 / smallest singular value, with rotations counted as the
 * distance they move a point at the characteristic length. Four is what a good symmetric layout (pair gaps 20/20, ring
 * ratio 0.7) still holds at 70 deg of yaw; common practice gives no number, so this one is ours and shown to the user.
 */
export const FIRM_MAGNIFICATION = 4;

/**
 * Above this magnification a layout is called nearly singular: 0.1 mm of leg play becomes more than 1 mm at the tool.
 * Layouts whose two pair gaps sum to within some 10 deg of 120 deg fall here.
 */
export const NEARLY_SINGULAR_MAGNIFICATION = 10;

export interface Verdict {
  readonly word: VerdictWord;
  /** One or two plain sentences. */
  readonly reason: string;
  /** Motions the legs do not resist at this pose, 0 to 6. */
  readonly freeMotions: number;
}

/** How independent the six legs are at one pose. */
export interface Independence {
  /** Rows `[u_i, (R b_i) x u_i]` [1, mm], flat row-major. */
  readonly jacobian: Float64Array;
  /** Of the unscaled Jacobian [mm^3]; its sign tells apart the two sides of a singular pose. */
  readonly determinant: number;
  readonly characteristicLength: number;
  /** Of the Jacobian with rotation columns divided by the characteristic length, descending, six. */
  readonly singularValues: Float64Array;
  /** Largest over smallest singular value; Infinity when singular. */
  readonly condition: number;
  /** The smallest singular value, which is 1 / magnification; 0 when singular. */
  readonly firmness: number;
  /** 1 / smallest singular value; Infinity when singular. */
  readonly magnification: number;
  readonly rank: number;
  readonly verdict: Verdict;
  readonly loosestMotion: LoosestMotion;
}

/** Judges one pose of a design; `architecture` is {@link assessArchitecture} of the same design. */
export function assessIndependence(mechanism: Mechanism, pose: Pose, architecture: Architecture): Independence {
  const J = jacobian(mechanism, pose);
  const { characteristicLength } = mechanism;
  const factors = svd(scaledJacobian(J, characteristicLength), LEG_COUNT);
  const rank = rankOf(factors.values);
  const smallest = rank < LEG_COUNT ? 0 : factors.values[LEG_COUNT - 1];
  const motion = loosestMotion(J, factors, characteristicLength, pose);
  const word = verdictWord(smallest, architecture);
  return {
    jacobian: J,
    determinant: determinantOf(J),
    characteristicLength,
    singularValues: factors.values,
    condition: smallest > 0 ? factors.values[0] / smallest : Number.POSITIVE_INFINITY,
    firmness: smallest,
    magnification: smallest > 0 ? 1 / smallest : Number.POSITIVE_INFINITY,
    rank,
    verdict: {
      word,
      reason: verdictReason(word, LEG_COUNT - rank, architecture, motion, mechanism),
      freeMotions: LEG_COUNT - rank,
    },
    loosestMotion: motion,
  };
}

/** The word for a smallest singular value (0 when singular). */
export function verdictWord(smallest: number, architecture: Pick<Architecture, 'singularEverywhere'>): VerdictWord {
  if (architecture.singularEverywhere) return 'singular at every pose';
  if (smallest === 0) return 'singular at this pose';
  if (smallest * NEARLY_SINGULAR_MAGNIFICATION < 1) return 'nearly singular';
  return smallest * FIRM_MAGNIFICATION < 1 ? 'soft' : 'firm';
}

/** Determinant of a flat 6x6. */
export function determinantOf(J: Float64Array): number {
  const lu = new Lu(LEG_COUNT);
  lu.factor(J);
  return lu.determinant();
}
