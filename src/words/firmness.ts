import { type LoosestMotion, REFERENCE_PLAY } from '../kinematics/loosest-motion.ts';
import type { VerdictWord } from '../kinematics/verdict-word.ts';
import { length, scale, type Vec3 } from '../math/vec3.ts';
import { degrees } from '../terms/units.ts';
import { figure, fixedText } from './numbers.ts';

/** A shape for each verdict, so that it is told by more than its colour. */
export const VERDICT_MARKS: Readonly<Record<VerdictWord, string>> = {
  firm: '●',
  soft: '◐',
  'nearly singular': '▲',
  'singular at this pose': '✕',
  'singular at every pose': '✕',
};

/** Capital first letter. */
export const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** A magnification as a factor: "2.1 ×", or the word for none. */
export const magnificationText = (magnification: number): string =>
  Number.isFinite(magnification) ? `${figure(magnification)} ×` : 'without bound';

/** Directions within this cosine of an axis are called by its letter: about 8 deg. */
const ALONG_AXIS = 0.99;

/** A direction in words: an axis letter, or its three components. */
export function directionWords(direction: Vec3): string {
  const unit = scale(direction, 1 / length(direction));
  const axis = unit.findIndex((component) => Math.abs(component) > ALONG_AXIS);
  return axis >= 0 ? 'xyz'[axis] : `(${unit.map((component) => fixedText(component, 2)).join(', ')})`;
}

/** Shares of a motion below this are left out of the words. */
const WORTH_SAYING = 0.05;

/** The loosest motion in a sentence or two. */
export function motionWords(motion: LoosestMotion, characteristicLength: number): string {
  const { translation, rotation, axis, withPlay } = motion;
  const shifts = length(translation) > WORTH_SAYING;
  const turns = length(rotation) * characteristicLength > WORTH_SAYING;
  const parts: string[] = [];
  if (shifts) {
    const size = withPlay ? `${figure(withPlay.travel)} mm ` : '';
    parts.push(`shift ${size}along ${directionWords(translation)}`);
  }
  if (turns) {
    const size = withPlay ? `${figure(degrees(withPlay.turn))} deg ` : '';
    parts.push(`turn ${size}about ${directionWords(rotation)}`);
  }
  const what = parts.join(' and ');
  const where =
    turns && axis
      ? ` The axis passes through (${axis.point.map((place) => Math.round(place) + 0).join(', ')}) mm.`
      : '';
  const opening = withPlay
    ? `With ${REFERENCE_PLAY} mm of play in the most moved leg the tool can ${what}.`
    : `Nothing stops it: with all legs locked the platform can ${what}.`;
  return opening + where;
}
