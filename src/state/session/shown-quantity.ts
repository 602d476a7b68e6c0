import { degrees } from '../../document/units.ts';
import { type FieldQuantity, type FieldUnit, QUANTITY_MEANING } from '../../reach/field/field-quantities.ts';

/** Units in which quantities are shown to a person: angles in degrees, and none for a ratio. */
const SHOWN_UNIT: Readonly<Record<FieldUnit, string>> = { '1': '', mm: 'mm', 'N/mm': 'N/mm', N: 'N', rad: 'deg' };

/** Unit in which a quantity is shown; empty for a ratio. */
export const shownUnit = (quantity: FieldQuantity): string => SHOWN_UNIT[QUANTITY_MEANING[quantity].unit];

/** Shown unit over inner unit. */
export const shownFactor = (quantity: FieldQuantity): number =>
  QUANTITY_MEANING[quantity].unit === 'rad' ? degrees(1) : 1;

/** A value in its shown unit. */
export const shownValue = (quantity: FieldQuantity, value: number): number => value * shownFactor(quantity);
