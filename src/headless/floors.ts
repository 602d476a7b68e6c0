import type { DesignContent } from '../document/design.ts';
import { type DesignFault, fault } from '../document/faults.ts';
import { floorsFromDocument, isAngle } from '../document/floors.ts';
import { RANGES } from '../document/ranges.ts';
import type { UnusableReason } from '../reach/columns/usable.ts';
import { unusableWords } from '../reach/columns/usable.ts';
import { type Floor, type FloorName, QUANTITIES, QUANTITY_NAMES, type QuantityName } from '../terms/quantities.ts';
import { degrees, radians } from '../terms/units.ts';
import { figure } from './findings.ts';
import { type NamedNumber, namedNumbers } from './option.ts';
import type { VerbRequest } from './verb.ts';

/** Name of a quantity on the command line and in the file: `stiffness_N_mm`. */
export const floorName = (quantity: QuantityName): FloorName => QUANTITIES[quantity].inFile;

/** Every floor's name with its range, for the help text. */
export const FLOOR_RANGES: readonly NamedNumber<FloorName>[] = QUANTITY_NAMES.map((quantity) => ({
  name: floorName(quantity),
  range: RANGES[floorName(quantity)],
}));

/** `--floor quantity=value`, once for each quantity. */
export const FLOOR = namedNumbers('floor', FLOOR_RANGES);

/** `--keep quantity=value`: the same by its plainer name. */
export const KEEP = namedNumbers('keep', FLOOR_RANGES);

/** What must be kept, by either name; `--keep` stands where both name one. */
export const keptNumbers = (request: VerbRequest): ReadonlyMap<FloorName, number> =>
  new Map([...request.get(FLOOR), ...request.get(KEEP)]);

/** The floors asked for, in inner units; those of the design when none is. */
export function floorsOf(asked: ReadonlyMap<FloorName, number>, design: DesignContent): readonly Floor[] {
  const floors = QUANTITY_NAMES.flatMap((quantity) => {
    const value = asked.get(floorName(quantity));
    if (value === undefined) return [];
    return [{ quantity, value: isAngle(quantity) ? radians(value) : value }];
  });
  return floors.length > 0 ? floors : floorsFromDocument(design);
}

/** A value of a quantity as the command line shows it. */
export const floorValue = (quantity: QuantityName, value: number): number =>
  QUANTITIES[quantity].unit === 'rad' ? degrees(value) : value;

/** Refuses floors of quantities that need what the design does not say. */
export function floorFaults(floors: readonly Floor[], design: DesignContent): readonly DesignFault[] {
  if (design.stiffness || !floors.some(({ quantity }) => quantity === 'stiffness')) return [];
  const limit = 'asked of one that says stiffness.leg_N_mm';
  const remedy = 'Add the stiffness of its legs to the design.';
  const place = design.floors?.stiffness_N_mm === undefined ? '--floor stiffness_N_mm' : 'floors.stiffness_N_mm';
  return [fault('contradiction', place, 'asked of a design without stiffness', limit, remedy)];
}

/** Why nothing is usable, in words with the command line's units. */
export const unusableText = (reason: UnusableReason): string => unusableWords(reason, valueText);

function valueText(quantity: QuantityName, value: number): string {
  const { unit } = QUANTITIES[quantity];
  const shown = figure(floorValue(quantity, value));
  return unit === '1' ? shown : `${shown} ${unit === 'rad' ? 'deg' : unit}`;
}
