import type { FieldUnit } from '../words/units.ts';

/** Powers of length, mass, time and angle. */
export type Powers = readonly [length: number, mass: number, time: number, angle: number];

/** A quantity of an entry: its value in millimetres, kilograms, seconds and degrees, and the powers of these. */
export interface Quantity {
  readonly value: number;
  readonly powers: Powers;
}

const LENGTH: Powers = [1, 0, 0, 0];
const MASS: Powers = [0, 1, 0, 0];
const TIME: Powers = [0, 0, 1, 0];
const ANGLE: Powers = [0, 0, 0, 1];
const FORCE: Powers = [1, 1, -2, 0];
const PLAIN: Powers = [0, 0, 0, 0];

/** One newton in kg mm/s2. */
const NEWTON = 1000;

/** Degrees in one radian. */
const RADIAN = 180 / Math.PI;

/** The inch and the pound are defined by these (international yard and pound agreement, 1959). */
const INCH = 25.4;
const POUND = 0.45359237;

/**
 * The standard acceleration of free fall, by definition [m/s2] (3rd General Conference on Weights and Measures, 1901).
 */
const STANDARD_GRAVITY = 9.80665;

/** The names that an entry may use, as they are written there. */
export const NAMED: ReadonlyMap<string, Quantity> = new Map(
  Object.entries({
    pi: { value: Math.PI, powers: PLAIN },
    um: { value: 1e-3, powers: LENGTH },
    µm: { value: 1e-3, powers: LENGTH },
    mm: { value: 1, powers: LENGTH },
    cm: { value: 10, powers: LENGTH },
    m: { value: 1000, powers: LENGTH },
    mil: { value: INCH / 1000, powers: LENGTH },
    inch: { value: INCH, powers: LENGTH },
    ft: { value: 12 * INCH, powers: LENGTH },
    g: { value: 1e-3, powers: MASS },
    kg: { value: 1, powers: MASS },
    oz: { value: POUND / 16, powers: MASS },
    lb: { value: POUND, powers: MASS },
    s: { value: 1, powers: TIME },
    arcsec: { value: 1 / 3600, powers: ANGLE },
    arcmin: { value: 1 / 60, powers: ANGLE },
    deg: { value: 1, powers: ANGLE },
    mrad: { value: RADIAN / 1000, powers: ANGLE },
    rad: { value: RADIAN, powers: ANGLE },
    mN: { value: NEWTON / 1000, powers: FORCE },
    N: { value: NEWTON, powers: FORCE },
    kN: { value: NEWTON * 1000, powers: FORCE },
    kgf: { value: NEWTON * STANDARD_GRAVITY, powers: FORCE },
    lbf: { value: NEWTON * STANDARD_GRAVITY * POUND, powers: FORCE },
  }),
);

/** One of each unit that a field shows. */
export const ONE_OF_FIELD: Readonly<Record<FieldUnit, Quantity>> = {
  mm: { value: 1, powers: LENGTH },
  deg: { value: 1, powers: ANGLE },
  kg: { value: 1, powers: MASS },
  N: { value: NEWTON, powers: FORCE },
  'N/mm': { value: NEWTON, powers: [0, 1, -2, 0] },
  'N mm': { value: NEWTON, powers: [2, 1, -2, 0] },
  'kg mm^2': { value: 1, powers: [2, 1, 0, 0] },
  'mm/s': { value: 1, powers: [1, 0, -1, 0] },
  'mm/s^2': { value: 1, powers: [1, 0, -2, 0] },
  'm/s^2': { value: 1000, powers: [1, 0, -2, 0] },
  W: { value: NEWTON * 1000, powers: [2, 1, -3, 0] },
  '': { value: 1, powers: PLAIN },
};

export const isPlain = ({ powers }: Quantity): boolean => powers.every((power) => power === 0);

export const sameKind = (one: Quantity, other: Quantity): boolean =>
  one.powers.every((power, index) => power === other.powers[index]);
