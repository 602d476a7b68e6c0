import { FREEDOMS } from '../../kinematics/free-travel.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import { LIMIT_NAMES, type LimitName } from '../../kinematics/limits.ts';
import type { EndCause, PoseCurve, UsableEnd } from '../../reach/field/curves.ts';
import { QUANTITIES, type QuantityName, senseOf, shownUnit, shownValue } from '../../terms/quantities.ts';
import { degrees } from '../../terms/units.ts';
import { legWords } from '../../words/legs.ts';
import { fixedText, three } from '../../words/numbers.ts';

/** A pose number as it is shown [mm or deg]. */
export const shownNumber = (value: number, index: number): number => (index < 3 ? value : degrees(value));

export const numberUnit = (index: number): 'mm' | 'deg' => (index < 3 ? 'mm' : 'deg');

/** A pose number with one digit behind the point, without its unit. */
export const numberText = (value: number, index: number): string => fixedText(shownNumber(value, index), 1);

/** A quantity's value with its unit. */
export function valueText(quantity: QuantityName, value: number): string {
  if (Number.isNaN(value)) return '–';
  const number = three(shownValue(quantity, value));
  const unit = shownUnit(quantity);
  return Number.isFinite(value) && unit !== '' ? `${number} ${unit}` : number;
}

/** "Worst tool error, mm". */
export function quantityTitle(quantity: QuantityName): string {
  const { words } = QUANTITIES[quantity];
  const unit = shownUnit(quantity);
  const title = `${words[0].toUpperCase()}${words.slice(1)}`;
  return unit === '' ? title : `${title}, ${unit}`;
}

const LIMIT_PHRASE: Readonly<Record<LimitName, (legs: string) => string>> = {
  legTooShort: (legs) => `${legs} at its shortest`,
  legTooLong: (legs) => `${legs} at its longest`,
  baseJoint: (legs) => `base joint of ${legs}`,
  platformJoint: (legs) => `platform joint of ${legs}`,
};

/** What ends a stretch, in a few words. */
export function causesWords(causes: readonly EndCause[]): string {
  if (causes.length === 0) return 'searched no further';
  const phrases = LIMIT_NAMES.flatMap((name) => {
    const legs = causes.flatMap((cause) =>
      cause.kind === 'limit' && cause.limit.limit === name ? [cause.limit.leg] : [],
    );
    if (legs.length === 0) return [];
    const phrase = LIMIT_PHRASE[name](legWords(legs));
    return [legs.length > 1 && legs.length < LEG_COUNT ? phrase.replace(' its ', ' their ') : phrase];
  });
  if (causes.some(({ kind }) => kind === 'singular')) phrases.push('singular pose');
  for (const cause of causes) {
    if (cause.kind !== 'floor') continue;
    const end = senseOf(cause.quantity) > 0 ? 'below its floor' : 'above its ceiling';
    phrases.push(`${QUANTITIES[cause.quantity].words} ${end}`);
  }
  return phrases.join(', ');
}

const endWords = ({ at, causes }: UsableEnd, index: number): string =>
  `${numberText(at, index)} (${causesWords(causes)})`;

/** Where one number can go, in a sentence. */
export function usableWords({ ends }: PoseCurve, index: number): string {
  const name = FREEDOMS[index];
  if (!ends) return `No ${name} is usable from here: the present pose breaks a limit or a floor, or is singular.`;
  return `Usable ${name}: ${endWords(ends.low, index)} to ${endWords(ends.high, index)} ${numberUnit(index)}.`;
}

/** The same in numbers only. */
export function usableText({ usable }: PoseCurve, index: number): string {
  return usable ? `${numberText(usable.low, index)} … ${numberText(usable.high, index)}` : 'none from here';
}
