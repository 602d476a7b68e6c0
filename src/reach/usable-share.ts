import type { UsableReach } from './usable.ts';

/** Two measures of one reach differ by their small errors; a larger difference is one of kind, such as true joint shapes. */
const SAME_REACH = 0.02;

/**
 * The usable volume is the usable share of the reach's finest measure: the columns that find the share are fewer, and two
 * figures for one reach on one screen would raise doubts that both are within their errors.
 * @param reach the finest measure of the same reach [mm^3]
 */
export function againstReach(usable: UsableReach, reach: number): UsableReach {
  if (usable.reachable === 0 || Math.abs(reach / usable.reachable - 1) > SAME_REACH) return usable;
  return {
    ...usable,
    reachable: reach,
    usable: Math.min(1, usable.usable / usable.reachable) * reach,
    usableAnywhere: Math.min(1, usable.usableAnywhere / usable.reachable) * reach,
  };
}
