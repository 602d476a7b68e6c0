import { type Floor, QUANTITIES, QUANTITY_NAMES, type QuantityName } from '../terms/quantities.ts';
import { radians } from '../terms/units.ts';
import type { DesignContent } from './design.ts';

/** Whether a floor's number is an angle, in degrees in the file. */
export const isAngle = (quantity: QuantityName): boolean => QUANTITIES[quantity].unit === 'rad';

/** The floors of a design, in the order of the quantities; angles in radians. */
export function floorsFromDocument({ floors = {} }: DesignContent): readonly Floor[] {
  return QUANTITY_NAMES.flatMap((quantity) => {
    const value = floors[QUANTITIES[quantity].inFile];
    return value === undefined ? [] : [{ quantity, value: isAngle(quantity) ? radians(value) : value }];
  });
}
