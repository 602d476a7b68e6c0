import { changeFloor, floorOf } from '../../document/edits/floors.ts';
import { RANGES } from '../../document/ranges.ts';
import { boundWords, QUANTITIES, QUANTITY_NAMES, type QuantityName, senseOf } from '../../terms/quantities.ts';
import type { NumberSpec } from '../number-spec.ts';

/** A quantity's floor as the panel shows it. */
export interface FloorSpec {
  readonly quantity: QuantityName;
  /** What is asked, for lists and undo: "weakest stiffness at least". */
  readonly words: string;
  /** Value that a new floor starts with, in the unit of its number. */
  readonly start: number;
  readonly number: NumberSpec;
}

const spec = (quantity: QuantityName): FloorSpec => {
  const { words: of, inFile, floor } = QUANTITIES[quantity];
  const words = `${of} ${boundWords(quantity)}`;
  return {
    quantity,
    words,
    start: floor.start,
    number: {
      name: `Floor, ${words}`,
      label: `${floor.label} ${senseOf(quantity) > 0 ? '≥' : '≤'}`,
      unit: RANGES[inFile].unit,
      decimals: floor.decimals,
      range: inFile,
      travel: floor.travel,
      read: (document) => floorOf(document, quantity) ?? floor.start,
      write: (document, value) => changeFloor(document, quantity, value),
    },
  };
};

/** Every quantity that can have a floor, in the order of the field's menus. */
export const FLOOR_SPECS: readonly FloorSpec[] = QUANTITY_NAMES.map(spec);
