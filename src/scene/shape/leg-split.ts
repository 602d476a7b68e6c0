import type { LegSpec } from '../../kinematics/mechanism.ts';

/** Distances from the base joint along a leg [mm]. The rod is drawn from `rodStart` to the platform joint. */
export interface LegSplit {
  /** Where the barrel ends. */
  readonly barrelEnd: number;
  /** Where the drawn rod starts: inside the barrel, or beyond its end when the leg is pulled past its longest length. */
  readonly rodStart: number;
}

/** Head of the rod that never enters the barrel, in barrel diameters, and at most this share of the shortest length. */
const HEAD_DIAMETERS = 1;
const HEAD_SHARE = 0.2;

/**
 * Where a leg of this length is barrel and where it is rod. At the shortest length all of the rod but its head is inside, so
 * the barrel is the shortest length less the head. The rod is as long as what shows at the longest length: pulled further,
 * it is drawn clear of the barrel by just what is missing. A leg shorter than its barrel is all barrel.
 */
export function splitLeg(legs: LegSpec, length: number): LegSplit {
  const head = Math.min(HEAD_DIAMETERS * legs.barrelDiameter, HEAD_SHARE * legs.min);
  const barrelEnd = Math.min(legs.min - head, length);
  const rodStart = Math.max(length - (legs.max - (legs.min - head)), 0);
  return { barrelEnd, rodStart: length > legs.max ? rodStart : Math.min(rodStart, barrelEnd) };
}
