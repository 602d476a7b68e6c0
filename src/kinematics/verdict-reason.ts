import { dot, length } from '../math/vec3.ts';
import { holdsFirstOrder } from './accuracy.ts';
import type { Architecture } from './architecture.ts';
import { type LoosestMotion, REFERENCE_PLAY } from './loosest-motion.ts';
import type { Mechanism } from './mechanism.ts';
import type { VerdictWord } from './verdict-word.ts';

/** A full third of a turn: the gap sum at which two rings repeat each other [rad]. */
export const SINGULAR_GAP_SUM = (2 * Math.PI) / 3;

/** Gap sums this close to 120 deg are named as the cause of a soft or nearly singular verdict [rad]. */
const GAP_SUM_NEIGHBOURHOOD = (25 * Math.PI) / 180;

/** Gap sums within this of 120 deg are equal to it [rad]; rounding of degrees leaves some 1e-15. */
const GAP_SUM_EQUAL = 1e-9;

/** A free turn with less travel along its axis than this share of its lever is a plain rotation. */
const PLAIN_TURN = 1e-6;

const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** Up to three significant figures, without an exponent or trailing zeros. */
const figure = (value: number): string => String(Number(value.toPrecision(3)));

/** Says in words why a pose got its verdict. */
export function verdictReason(
  word: VerdictWord,
  freeMotions: number,
  architecture: Architecture,
  motion: LoosestMotion,
  mechanism: Mechanism,
): string {
  if (word === 'singular at every pose') return everywhereReason(freeMotions, architecture);
  if (word === 'singular at this pose') return hereReason(freeMotions, motion, mechanism);
  const cause = word === 'firm' ? '' : gapSumCause(architecture);
  return `${playSentence(motion, mechanism)}${cause}`;
}

function playSentence({ withPlay }: LoosestMotion, mechanism: Mechanism): string {
  if (!withPlay) return 'Nothing stops the loosest motion.';
  const { travel, turn } = withPlay;
  // so near to a singular pose the play's figures would be those of no motion that there is
  if (!holdsFirstOrder(mechanism, travel, turn))
    return `${REFERENCE_PLAY} mm of play in the legs lets the tool move further than a first-order figure holds for, in its loosest motion.`;
  return `${REFERENCE_PLAY} mm of play in the legs lets the tool shift ${figure(travel)} mm and turn ${figure(degrees(turn))} deg.`;
}

function gapSumCause({ gapSum }: Architecture): string {
  if (gapSum === null) return '';
  const distance = Math.abs(gapSum - SINGULAR_GAP_SUM);
  if (distance > GAP_SUM_NEIGHBOURHOOD) return '';
  return ` The pair gaps add up to ${besides120(degrees(gapSum))} deg; at 120 deg the legs stop being independent at every pose.`;
}

/** A sum of gaps near 120 deg with as many digits as tell it from 120. */
function besides120(sum: number): string {
  for (let digits = 3; digits < 12; digits++) {
    const text = String(Number(sum.toPrecision(digits)));
    if (text !== '120') return text;
  }
  return String(sum);
}

const countMotions = (freeMotions: number): string =>
  freeMotions === 1 ? '1 motion is free' : `${freeMotions} motions are free`;

function everywhereReason(freeMotions: number, { gapSum, copy, parallelAtHome }: Architecture): string {
  const free = freeMotions > 0 ? ` Here ${countMotions(freeMotions)} with all legs locked.` : '';
  const parallel = parallelAtHome ? ' All six legs are parallel at home.' : '';
  return `${everywhereCause(gapSum, copy)}${parallel}${free}`;
}

function everywhereCause(gapSum: number | null, copy: Architecture['copy']): string {
  if (gapSum !== null && Math.abs(gapSum - SINGULAR_GAP_SUM) < GAP_SUM_EQUAL) {
    return 'The pair gaps add up to 120 deg, so the platform joints repeat the base joints at another scale and the six legs never are independent.';
  }
  if (copy === 'scaled')
    return 'The platform joints are a scaled copy of the base joints, so the six legs never are independent.';
  if (copy === 'turned')
    return 'The platform joints are a turned copy of the base joints, so the six legs never are independent.';
  if (copy === 'mirrored')
    return 'The platform joints are a mirrored copy of the base joints, so the six legs never are independent.';
  if (copy === 'projective') {
    return 'The platform joints are a projective copy of the base joints (straight lines map to straight lines), so the six legs never are independent.';
  }
  return 'The six legs were dependent at every generic pose tried; no simple pattern explains it.';
}

function hereReason(freeMotions: number, motion: LoosestMotion, mechanism: Mechanism): string {
  return `With all legs locked ${countMotions(freeMotions)}. ${freeMotions === 1 ? lineGeometry(motion, mechanism) : ''}`.trim();
}

/** A free plain turn means that every leg's line meets the axis or runs parallel to it. */
function lineGeometry({ axis, translation }: LoosestMotion, { characteristicLength }: Mechanism): string {
  if (!axis) return 'Every leg stands square to one direction, and the platform slides along it.';
  const lever = Math.max(characteristicLength, length(translation));
  if (Math.abs(axis.pitch) < PLAIN_TURN * lever) {
    return 'The lines of all six legs meet one line or run parallel to it, and the platform turns about that line.';
  }
  const lead = Math.abs(axis.pitch) * 2 * Math.PI;
  return `The platform can turn like a screw, ${figure(lead)} mm along its axis a turn${dot(axis.direction, [0, 0, 1]) ** 2 > 0.99 ? ', about the vertical' : ''}.`;
}
