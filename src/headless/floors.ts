import type { DesignContent } from '../document/design.ts';
import { type DesignFault, fault } from '../document/faults.ts';
import type { NumberRange } from '../document/ranges.ts';
import { degrees, radians } from '../document/units.ts';
import { FIELD_QUANTITIES, type FieldQuantity, QUANTITY_MEANING } from '../reach/field-quantities.ts';
import type { UnusableReason } from '../reach/usable.ts';
import { unusableWords } from '../reach/usable.ts';
import type { Floor } from '../reach/usable-cutter.ts';
import { figure } from './findings.ts';
import { type NamedNumber, namedKey, type OptionSpec, type OptionValues } from './options.ts';

/** Ending of a quantity's name on the command line, and the unit in messages. */
const UNIT_ENDING = { '1': '', mm: '_mm', 'N/mm': '_N_mm', N: '_N', rad: '_deg' } as const;

/** Name of a quantity on the command line: `stiffness_N_mm`. */
export const floorName = (quantity: FieldQuantity): string =>
  `${quantity}${UNIT_ENDING[QUANTITY_MEANING[quantity].unit]}`;

/** More is no floor for anything built. */
const LARGEST = 1e12;

const range = (quantity: FieldQuantity): NumberRange => {
  const { words, better } = QUANTITY_MEANING[quantity];
  const says = `The ${words} must be at ${better === 'more' ? 'least' : 'most'} this.`;
  return { min: -LARGEST, max: LARGEST, unit: '', says };
};

const names: readonly NamedNumber[] = FIELD_QUANTITIES.map((quantity) => ({
  name: floorName(quantity),
  range: range(quantity),
}));

/** `--floor quantity=value`, once for each quantity. */
export const FLOOR: OptionSpec = { name: 'floor', numbers: [], named: names };

/** The floors asked for, in inner units. */
export const floorsOf = (options: OptionValues): readonly Floor[] =>
  FIELD_QUANTITIES.flatMap((quantity) => {
    const value = options.get(namedKey(FLOOR, floorName(quantity)))?.[0];
    if (value === undefined) return [];
    return [{ quantity, value: QUANTITY_MEANING[quantity].unit === 'rad' ? radians(value) : value }];
  });

/** A value of a quantity as the command line shows it. */
export const floorValue = (quantity: FieldQuantity, value: number): number =>
  QUANTITY_MEANING[quantity].unit === 'rad' ? degrees(value) : value;

/** Refuses floors of quantities that need what the design does not say. */
export function floorFaults(floors: readonly Floor[], design: DesignContent): readonly DesignFault[] {
  if (design.stiffness || !floors.some(({ quantity }) => quantity === 'stiffness')) return [];
  const limit = 'asked of one that says stiffness.leg_N_mm';
  const remedy = 'Add the stiffness of its legs to the design.';
  return [fault('contradiction', '--floor stiffness_N_mm', 'asked of a design without stiffness', limit, remedy)];
}

/** Why nothing is usable, in words with the command line's units. */
export function unusableText(reason: UnusableReason): string {
  if (reason.kind !== 'floorNeverMet' || QUANTITY_MEANING[reason.floor.quantity].unit !== 'rad')
    return unusableWords(reason);
  const { quantity, value } = reason.floor;
  const best = figure(degrees(reason.best));
  return `Nothing in the reach has a ${QUANTITY_MEANING[quantity].words} of at least ${figure(degrees(value))} deg; the best found is ${best} deg.`;
}
