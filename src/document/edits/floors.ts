import { QUANTITIES, type QuantityName } from '../../terms/quantities.ts';
import type { DesignDocument } from '../design.ts';

/** A floor as the file keeps it, in the unit of its name; null where none is set. */
export const floorOf = ({ floors }: DesignDocument, quantity: QuantityName): number | null =>
  floors?.[QUANTITIES[quantity].inFile] ?? null;

/** Sets a floor. */
export const changeFloor = (document: DesignDocument, quantity: QuantityName, value: number): DesignDocument => ({
  ...document,
  floors: { ...document.floors, [QUANTITIES[quantity].inFile]: value },
});

/** Takes a floor away; the last one takes the list with it. */
export function removeFloor(document: DesignDocument, quantity: QuantityName): DesignDocument {
  const { floors, ...rest } = document;
  const left = Object.entries(floors ?? {}).filter(([name]) => name !== QUANTITIES[quantity].inFile);
  return left.length === 0 ? rest : { ...rest, floors: Object.fromEntries(left) };
}
