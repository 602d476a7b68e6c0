/** Units in which fields show numbers: millimetres, degrees, or none. */
export type FieldUnit = 'mm' | 'deg' | '';

/** How a unit is read out. */
export const SPOKEN_UNIT: Readonly<Record<FieldUnit, string>> = { mm: 'millimetres', deg: 'degrees', '': '' };

/** A number with its unit, for running text. */
export const withUnit = (number: string, unit: FieldUnit): string => (unit === '' ? number : `${number} ${unit}`);
