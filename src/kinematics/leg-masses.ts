import { inputFault, type JudgementFault } from './inverse-jacobian.ts';

/**
 * What a leg itself weighs. The barrel turns about the base joint and holds the rod, which carries the platform joint; both are
 * slender bodies whose mass centre lies on the leg's axis. What turns about that axis is left out.
 */
export interface LegMasses {
  /** [kg] */
  readonly barrelMass: number;
  /** Mass centre of the barrel from the base joint, along the leg [mm]. */
  readonly barrelCentre: number;
  /** Transverse moment of inertia about that centre [kg mm^2]. */
  readonly barrelInertia: number;
  /** [kg] */
  readonly rodMass: number;
  /** Mass centre of the rod from the platform joint, along the leg toward the base [mm]. */
  readonly rodCentre: number;
  /** Transverse moment of inertia about that centre [kg mm^2]. */
  readonly rodInertia: number;
}

/** Legs that weigh nothing. */
export const MASSLESS: LegMasses = {
  barrelMass: 0,
  barrelCentre: 0,
  barrelInertia: 0,
  rodMass: 0,
  rodCentre: 0,
  rodInertia: 0,
};

const NAMES: Readonly<Record<keyof LegMasses, string>> = {
  barrelMass: 'mass of the barrel',
  barrelCentre: 'mass centre of the barrel',
  barrelInertia: 'inertia of the barrel',
  rodMass: 'mass of the rod',
  rodCentre: 'mass centre of the rod',
  rodInertia: 'inertia of the rod',
};

/** First number of a leg that cannot be used, in words; null when all can. Centres may lie outside their body. */
export function legMassesFault(masses: LegMasses): JudgementFault | null {
  for (const [name, value] of Object.entries(masses)) {
    const least = name.endsWith('Centre') ? Number.NEGATIVE_INFINITY : 0;
    if (!Number.isFinite(value) || value < least)
      return inputFault(`The ${NAMES[name as keyof LegMasses]} is ${value}; it must be a number of at least 0.`);
  }
  return null;
}
