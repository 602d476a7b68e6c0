import { ConvexDistance } from '../math/convex-distance.ts';
import { type Clearance, pairClearance } from './clearance.ts';
import type { ClearanceModel, ClearancePair } from './clearance-pairs.ts';

/** Distances this much larger than the smallest count as it: two ways of computing it differ by rounding [relative, mm]. */
const ROUNDING = 1e-9;

/**
 * The pair whose distance is the smallest, of bodies as they are posed now; null when nothing can meet. The same as the first of
 * `assessClearance`, for a drawing that only marks that one.
 * @param smallest the smallest distance, as `SmallestClearance` finds it [mm]
 */
export function nearestPair(model: ClearanceModel, smallest: number): Clearance | null {
  const walker = new ConvexDistance();
  const within = smallest + ROUNDING * (1 + Math.abs(smallest));
  let best: Clearance | null = null;
  const weigh = (pair: ClearancePair): void => {
    const enough = within + pair.a.radius + pair.b.radius;
    // most pairs are known to be farther apart after a step or two
    if (enough > 0 && walker.between(pair.a.core, pair.b.core, enough) >= enough) return;
    const clearance = pairClearance(pair, walker);
    if (!best || clearance.distance < best.distance) best = clearance;
  };
  for (const pairs of [model.legPairs, model.legSolidPairs, model.solidPairs]) for (const pair of pairs) weigh(pair);
  return best;
}
