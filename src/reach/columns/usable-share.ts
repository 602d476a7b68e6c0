import type { UsableReach } from './usable.ts';

/**
 * The usable volume is the usable share of the reach's finest measure: the columns that find the share are fewer, and two
 * figures for one reach on one screen would raise doubts that both are within their errors.
 * @param reach the finest measure of the same reach, connected with home [mm^3]
 */
export function againstReach(usable: UsableReach, reach: number): UsableReach {
  if (usable.reachable === 0) return usable;
  const scale = reach / usable.reachable;
  return {
    ...usable,
    reachable: reach,
    usable: Math.min(usable.usable * scale, reach),
    usableAnywhere: usable.usableAnywhere * scale,
  };
}
