import type { DesignDocument } from '../design.ts';
import { FLOOR_NAMES } from '../floor-fields.ts';
import type { FloorQuantity } from '../floors.ts';

/** A floor as the file keeps it, in the unit of its name; null where none is set. */
export const floorOf = ({ floors }: DesignDocument, quantity: FloorQuantity): number | null =>
  floors?.[FLOOR_NAMES[quantity]] ?? null;

/** Sets a floor. */
export const changeFloor = (document: DesignDocument, quantity: FloorQuantity, value: number): DesignDocument => ({
  ...document,
  floors: { ...document.floors, [FLOOR_NAMES[quantity]]: value },
});

/** Takes a floor away; the last one takes the list with it. */
export function removeFloor(document: DesignDocument, quantity: FloorQuantity): DesignDocument {
  const { floors, ...rest } = document;
  const left = Object.entries(floors ?? {}).filter(([name]) => name !== FLOOR_NAMES[quantity]);
  return left.length === 0 ? rest : { ...rest, floors: Object.fromEntries(left) };
}
