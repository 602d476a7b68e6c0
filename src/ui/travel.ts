import { inRange, isTiny, type NumberRange } from '../terms/number-range.ts';
import { numberText, withMinus } from '../words/numbers.ts';
import { type FieldUnit, withUnit } from '../words/units.ts';
import type { KeyBinding } from './key-rows.ts';

/** Where a slider goes and how far one arrow key takes it. */
export interface Travel {
  readonly min: number;
  readonly max: number;
  readonly step: number;
}

/** Keys with Shift move by this share of a step. */
export const FINE_SHARE = 0.1;

/** Page Up and Page Down move by this many steps. */
export const PAGE_STEPS = 10;

/** The numbers a field takes, with what sets an end where it is not simply the range of the quantity. */
export interface Legal extends Pick<NumberRange, 'min' | 'max' | 'aboveMin' | 'belowMax' | 'whole'> {
  readonly minSays?: string;
  readonly maxSays?: string;
}

/** The next 1, 2 or 5 times a power of ten at or above a positive number. */
function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const factor = [1, 2, 5, 10].find((candidate) => candidate * power >= value * (1 - 1e-12)) ?? 10;
  return factor * power;
}

/** A slider's travel, widened to a round number where the value lies outside of it. */
export function widened(travel: Travel, value: number): Travel {
  const { min, max, step } = travel;
  if (value > max) return { min, max: Math.max(max, value > 0 ? roundUp(value) : value), step };
  if (value < min) return { min: Math.min(min, value < 0 ? -roundUp(-value) : 0), max, step };
  return travel;
}

/** The nearest whole number of `step`s, without the tail of binary rounding. */
export const onStep = (value: number, step: number): number =>
  Number((Math.round(value / step) * step).toPrecision(12));

interface NumberKey extends KeyBinding {
  /** Where the key takes a value on a travel with this step. */
  readonly to: (value: number, travel: Travel, step: number) => number;
}

const by =
  (steps: number): NumberKey['to'] =>
  (value, _, step) =>
    Number((value + steps * step).toPrecision(12));

/** Every key that moves a number; the list behind `?` is made from it. */
export const NUMBER_KEYS: readonly NumberKey[] = [
  { key: 'ArrowUp', does: 'One step up or down', to: by(1) },
  { key: 'ArrowDown', does: 'One step up or down', to: by(-1) },
  { key: 'ArrowRight', does: 'One step up or down', to: by(1), alias: true },
  { key: 'ArrowLeft', does: 'One step up or down', to: by(-1), alias: true },
  { key: 'ArrowUp', shift: true, does: 'A tenth of a step', to: by(1) },
  { key: 'ArrowDown', shift: true, does: 'A tenth of a step', to: by(-1) },
  { key: 'PageUp', does: 'Ten steps', to: by(PAGE_STEPS) },
  { key: 'PageDown', does: 'Ten steps', to: by(-PAGE_STEPS) },
  { key: 'Home', does: 'To the end of the range', to: (_, { min }) => min },
  { key: 'End', does: 'To the end of the range', to: (_, { max }) => max },
];

/** Where a key takes a value; `null` for keys that move no number. With Shift its step is a tenth. */
export function keyTarget(key: string, shift: boolean, value: number, travel: Travel): number | null {
  const bound = NUMBER_KEYS.find((binding) => binding.key === key);
  return bound ? bound.to(value, travel, shift ? travel.step * FINE_SHARE : travel.step) : null;
}

/** Whether releasing this key ends a change. */
export const isMovingKey = (key: string): boolean => NUMBER_KEYS.some((binding) => binding.key === key);

/** A number as fields show it, or with all its digits where fields show nothing of it: a least stiffness of 0.000001. */
const wholeText = (value: number, decimals: number): string => {
  const text = numberText(value, decimals);
  return value !== 0 && Number(text) === 0 ? withMinus(String(value)) : text;
};

/** Why a number may not stand in a field, naming the limit; null when it may. */
export function outsideReason(value: number, legal: Legal, unit: FieldUnit, decimals: number): string | null {
  const range: NumberRange = { ...legal, unit, says: '' };
  if (inRange(value, range)) return null;
  const words = (number: number) => withUnit(wholeText(number, decimals), unit);
  const shown = words(value);
  if (legal.whole && !Number.isInteger(value) && value > legal.min && value < legal.max) {
    return `${shown} is not a whole number.`;
  }
  if (isTiny(value) && value > legal.min) return `${shown} is nearer to 0 than numbers are computed with.`;
  const low = value <= legal.min;
  const limit = words(low ? legal.min : legal.max);
  const says = low ? legal.minSays : legal.maxSays;
  const strict = value === (low ? legal.min : legal.max);
  const relation = low ? (strict ? 'not above' : 'below') : strict ? 'not below' : 'above';
  return `${shown} is ${relation} the limit of ${limit}${says ? `, ${says}` : ''}.`;
}

/** The legal number nearest to a wanted one: where a slider or a key stops. One fine step inside an end that is not legal itself. */
export function stoppedAt(value: number, legal: Legal, step: number): number {
  const inside = step * FINE_SHARE;
  const low = legal.aboveMin ? legal.min + inside : legal.min;
  const high = legal.belowMax ? legal.max - inside : legal.max;
  const stopped = Math.min(Math.max(value, low), high);
  return legal.whole ? Math.round(stopped) : stopped;
}
