/** Degrees of an angle in radians. */
export const degrees = (radians: number): number => (radians * 180) / Math.PI;

/** Radians of an angle in degrees. */
export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Units inside the program; `1` is a plain ratio. */
export type InnerUnit = '1' | 'mm' | 'N/mm' | 'N' | 'rad';

/** A unit as a person meets it on screen, in a file and on the command line. */
export interface ShownUnit {
  /** Empty for a ratio. */
  readonly unit: '' | 'mm' | 'N/mm' | 'N' | 'deg';
  /** Shown number over inner number. */
  readonly factor: number;
}

/** How inner units are shown: angles in degrees, everything else as it is. */
export const SHOWN_UNITS = {
  '1': { unit: '', factor: 1 },
  mm: { unit: 'mm', factor: 1 },
  'N/mm': { unit: 'N/mm', factor: 1 },
  N: { unit: 'N', factor: 1 },
  rad: { unit: 'deg', factor: degrees(1) },
} as const satisfies Record<InnerUnit, ShownUnit>;
