import type { DesignContent } from './design.ts';
import { FLOOR_NAMES } from './floor-fields.ts';
import { radians } from './units.ts';

/** A quantity that can have a floor. */
export type FloorQuantity = keyof typeof FLOOR_NAMES;

/** Name of a floor in the file. */
export type FloorName = (typeof FLOOR_NAMES)[FloorQuantity];

/** A floor in the inner unit of its quantity. */
export interface InnerFloor {
  readonly quantity: FloorQuantity;
  readonly value: number;
}

const QUANTITIES: readonly FloorQuantity[] = [
  'condition',
  'toolError',
  'stiffness',
  'legForce',
  'leastPush',
  'clearance',
  'shortMargin',
  'longMargin',
  'baseMargin',
  'platformMargin',
];

/** Whether a floor's number is an angle, in degrees in the file. */
export const isAngle = (quantity: FloorQuantity): boolean => FLOOR_NAMES[quantity].endsWith('_deg');

/** The floors of a design, in the order of the field's quantities; angles in radians. */
export function floorsFromDocument({ floors = {} }: DesignContent): readonly InnerFloor[] {
  return QUANTITIES.flatMap((quantity) => {
    const value = floors[FLOOR_NAMES[quantity]];
    return value === undefined ? [] : [{ quantity, value: isAngle(quantity) ? radians(value) : value }];
  });
}
