import { changeFloor, floorOf } from '../../document/edits/floors.ts';
import { FLOOR_NAMES } from '../../document/floor-fields.ts';
import type { FloorQuantity } from '../../document/floors.ts';
import { RANGES } from '../../document/ranges.ts';
import { boundWords, QUANTITY_MEANING, senseOf } from '../../reach/field/field-quantities.ts';
import type { Travel } from '../../ui/travel.ts';
import type { NumberSpec } from '../number-spec.ts';

/** A quantity's floor as the panel shows it. */
export interface FloorSpec {
  readonly quantity: FloorQuantity;
  /** What is asked, for lists and undo: "weakest stiffness at least". */
  readonly words: string;
  /** Value that a new floor starts with, in the unit of its number. */
  readonly start: number;
  readonly number: NumberSpec;
}

const spec = (quantity: FloorQuantity, label: string, start: number, travel: Travel, decimals: number): FloorSpec => {
  const words = `${QUANTITY_MEANING[quantity].words} ${boundWords(quantity)}`;
  const name = FLOOR_NAMES[quantity];
  return {
    quantity,
    words,
    start,
    number: {
      name: `Floor, ${words}`,
      label: `${label} ${senseOf(quantity) > 0 ? '≥' : '≤'}`,
      unit: RANGES[name].unit,
      decimals,
      range: name,
      travel,
      read: (document) => floorOf(document, quantity) ?? start,
      write: (document, value) => changeFloor(document, quantity, value),
    },
  };
};

/** Every quantity that can have a floor, in the order of the field's menus. */
export const FLOOR_SPECS: readonly FloorSpec[] = [
  spec('condition', 'Condition', 10, { min: 1, max: 50, step: 0.5 }, 1),
  spec('toolError', 'Tool error', 0.2, { min: 0, max: 1, step: 0.01 }, 2),
  spec('stiffness', 'Stiffness', 500, { min: 0, max: 5000, step: 10 }, 0),
  spec('legForce', 'Leg force', 50, { min: 0, max: 200, step: 1 }, 0),
  spec('leastPush', 'Leg push', 0, { min: -50, max: 50, step: 0.5 }, 1),
  spec('clearance', 'Clearance', 2, { min: 0, max: 30, step: 0.5 }, 1),
  spec('shortMargin', 'Short end', 5, { min: 0, max: 50, step: 0.5 }, 1),
  spec('longMargin', 'Long end', 5, { min: 0, max: 50, step: 0.5 }, 1),
  spec('baseMargin', 'Base joint', 3, { min: 0, max: 30, step: 0.5 }, 1),
  spec('platformMargin', 'Platf. joint', 3, { min: 0, max: 30, step: 0.5 }, 1),
];
