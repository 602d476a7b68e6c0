import type { NumberRange } from '../terms/number-range.ts';

/** Units in which fields show numbers, as the expression reader writes them; '' for none. */
export type FieldUnit = NumberRange['unit'];

/** How a unit is read out. */
export const SPOKEN_UNIT: Readonly<Record<FieldUnit, string>> = {
  mm: 'millimetres',
  deg: 'degrees',
  kg: 'kilograms',
  N: 'newtons',
  'N/mm': 'newtons per millimetre',
  'N mm': 'newton millimetres',
  'kg mm^2': 'kilogram square millimetres',
  'mm/s': 'millimetres per second',
  'mm/s^2': 'millimetres per second squared',
  'm/s^2': 'metres per second squared',
  W: 'watts',
  '': '',
};

/** A number with its unit, for running text. */
export const withUnit = (number: string, unit: FieldUnit): string => (unit === '' ? number : `${number} ${unit}`);
