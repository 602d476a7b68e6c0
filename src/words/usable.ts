import { type FloorReport, type UnusableReason, type UsableReach, unusableWords } from '../reach/columns/usable.ts';
import { boundWords, QUANTITIES, type QuantityName, shownUnit, shownValue } from '../terms/quantities.ts';
import { figure } from './numbers.ts';

/** A value of a quantity as a person reads it: "12.5 N/mm"; a floor as it was entered, without zeros that nobody wrote. */
export function quantityText(quantity: QuantityName, value: number): string {
  const unit = shownUnit(quantity);
  const shown = figure(shownValue(quantity, value))
    .replace(/(\.\d*?)0+$/, '$1')
    .replace(/\.$/, '');
  return unit === '' ? shown : `${shown} ${unit}`;
}

/** Why nothing is usable, in the units of the screen. */
export const unusableText = (reason: UnusableReason): string => unusableWords(reason, quantityText);

/** A floor: "weakest stiffness at least 500 N/mm". */
export function floorText({ floor: { quantity, value } }: FloorReport): string {
  return `${QUANTITIES[quantity].words} ${boundWords(quantity)} ${quantityText(quantity, value)}`;
}

/** Whole percent; above none and below all it says so. */
export function percentText(share: number): string {
  if (share > 0 && share < 0.01) return 'below 1 %';
  if (share < 1 && share > 0.99) return 'above 99 %';
  return `${Math.round(100 * share)} %`;
}

/** What the usable part is, one line for the strip. */
export function usableLine({ floors, reason, homeSide }: UsableReach): string {
  if (reason && (floors.length > 0 || reason.kind === 'noReach' || reason.kind === 'homeSingular'))
    return unusableText(reason);
  if (reason) return 'The home position breaks limits at this orientation, so nothing is connected with it.';
  if (floors.length === 0) {
    const crossed = homeSide < 1 ? 'without crossing a singular pose' : 'no singular pose in the way';
    return `Connected to home, ${crossed}`;
  }
  const hardest = floors.reduce((least, floor) => (floor.share < least.share ? floor : least));
  const rest = floors.length > 1 ? `; ${floors.length} floors together` : '';
  return `${percentText(hardest.share)} of the reach has a ${floorText(hardest)}${rest}`;
}
