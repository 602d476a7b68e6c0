import type { LegSpec } from '../../kinematics/mechanism.ts';

/** Distances from the base joint along a leg [mm]. The rod is drawn from `rodStart` to the platform joint. */
export interface LegSplit {
  /** Where the barrel ends. */
  readonly barrelEnd: number;
  /** Where the drawn rod starts: inside the barrel, or beyond its end when the leg is pulled past its longest length. */
  readonly rodStart: number;
}

/**
 * How a leg with a barrel of known length is drawn: the barrel keeps it, whatever the leg does, and the rod shows beyond. A rod pulled
 * past the longest length is drawn clear of the barrel by what is missing.
 */
export const splitAtBarrel = (legs: LegSpec, barrelLength: number, length: number): LegSplit => ({
  barrelEnd: barrelLength,
  rodStart: length > legs.max ? barrelLength + length - legs.max : Math.min(barrelLength / 2, length),
});
