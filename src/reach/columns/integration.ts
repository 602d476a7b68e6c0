import { type LongWork, neverStop } from '../../math/long-work.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { newBox } from './bounding-box.ts';
import { ACROSS, type Direction } from './column-cutter.ts';
import type { ColumnLattice, Footprint } from './column-lattice.ts';
import { type DeepestPoint, deepestPoint } from './deepest-point.ts';
import { rectangleOf, spacingFor, tightened, wedgeOf, widened } from './footprint.ts';
import type { ReachProblem } from './problem.ts';

/** Columns of the first look over the whole box, and of the denser second one when the first met nothing. */
const FIRST_LOOK = 240;
const SECOND_LOOK = 2400;

/** With fewer hits than this the footprint is too loose to trust its edge; look again within it. */
const ENOUGH_HITS = 30;
const LOOKS = 5;

/** Columns of the first lattice that counts. Its usual error is 0.04 % (median over random layouts). */
const FIRST_COLUMNS = 800;

/** Rounds in which a footprint with reach at its edge is made larger. */
const WIDENINGS = 8;

/**
 * Error of a lattice, from how far its coarser parts differ (`spread`) and from its number of columns alone. Measured over 400 random
 * layouts of either kind, tilted with leaning mounts and level symmetric, at 150 to 1500 columns: the error is 0.2 spread and
 * 0.7 hits^-1.25 (medians). With these weights the root of the sum of squares held in 99 of 100 tilted and 98 of 100 level layouts
 * of another 600 each. The rate is that of a lattice sum over a function with kinks along curves.
 */
const SPREAD_WEIGHT = 1.5;
const COUNT_WEIGHT = 2.5;
const COUNT_RATE = 1.25;

/** Between two rounds the spacing shrinks at most and at least by these factors. */
const LARGEST_STEP = 0.35;
const SMALLEST_STEP = 0.8;

/** How an integration over columns came out; the lattice holds its columns. */
export interface Integration {
  /** Relative; Infinity when nothing was met. */
  readonly errorEstimate: number;
  readonly settled: boolean;
  readonly footprint: Footprint;
  /** Where the least margin is largest, when columns met nothing and it was looked for. */
  readonly deepest: DeepestPoint | null;
}

/** Integrates a problem with a possible, finite box: finds the footprint, then refines until the asked relative error. */
export function integrate(
  problem: ReachProblem,
  lattice: ColumnLattice,
  relativeError: number,
  maxColumns: number,
  work: LongWork = neverStop,
): Integration {
  const { cutter, box, symmetry } = problem;
  const outer = symmetry ? wedgeOf(box, symmetry) : rectangleOf(box, 2);
  let footprint = outer;
  lattice.run(cutter, 2, footprint, spacingFor(footprint, FIRST_LOOK));
  let deepest: DeepestPoint | null = null;
  if (lattice.hits === 0) {
    deepest = findDeepest(problem);
    const around = deepest.margin > 0 ? footprintAround(problem, deepest.point, outer) : outer;
    footprint = around;
    lattice.run(cutter, 2, footprint, spacingFor(footprint, SECOND_LOOK));
    if (lattice.hits === 0) return { errorEstimate: Number.POSITIVE_INFINITY, settled: true, footprint, deepest };
  }
  for (let look = 0; look < LOOKS && lattice.hits < ENOUGH_HITS; look++) {
    footprint = tightened(lattice, footprint);
    lattice.run(cutter, 2, footprint, spacingFor(footprint, FIRST_LOOK));
    footprint = grownToHits(problem, lattice, footprint, outer);
    if (lattice.hits === 0) return { errorEstimate: Number.POSITIVE_INFINITY, settled: false, footprint, deepest };
  }

  footprint = tightened(lattice, footprint);
  lattice.run(cutter, 2, footprint, spacingFor(footprint, Math.min(FIRST_COLUMNS, maxColumns)));
  footprint = grownToHits(problem, lattice, footprint, outer);
  for (;;) {
    const errorEstimate = errorOf(lattice);
    if (errorEstimate <= relativeError) return { errorEstimate, settled: true, footprint, deepest };
    const factor = (0.9 * relativeError) / errorEstimate;
    const step = Math.min(SMALLEST_STEP, Math.max(LARGEST_STEP, factor ** (1 / (2 * COUNT_RATE))));
    const columns = lattice.columnCount / (step * step);
    if (columns > maxColumns || work.shouldStop()) return { errorEstimate, settled: false, footprint, deepest };
    work.report(lattice.columnCount, Math.ceil(columns));
    footprint = tightened(lattice, footprint);
    lattice.run(cutter, 2, footprint, lattice.spacing * step);
    footprint = grownToHits(problem, lattice, footprint, outer);
  }
}

/** Relative error estimate of a lattice's volume. */
export function errorOf(lattice: ColumnLattice): number {
  const volume = lattice.volume();
  if (!(volume > 0)) return Number.POSITIVE_INFINITY;
  return Math.hypot((SPREAD_WEIGHT * lattice.spread()) / volume, COUNT_WEIGHT * lattice.hits ** -COUNT_RATE);
}

/** Reruns the lattice over a wider footprint as long as its edge shows reach. */
function grownToHits(
  { cutter }: ReachProblem,
  lattice: ColumnLattice,
  footprint: Footprint,
  outer: Footprint,
): Footprint {
  let present = footprint;
  for (let round = 0; round < WIDENINGS; round++) {
    const next = widened(lattice, present, outer);
    if (next === present) break;
    present = next;
    lattice.run(cutter, 2, present, lattice.spacing);
  }
  return present;
}

/** The best of two climbs, from home and from the middle of the box. */
export function findDeepest({ sets, box, home }: ReachProblem): DeepestPoint {
  const finite = box.every(Number.isFinite);
  const middle: Vec3 = finite ? [(box[0] + box[3]) / 2, (box[1] + box[4]) / 2, (box[2] + box[5]) / 2] : home;
  const size = finite ? Math.hypot(box[3] - box[0], box[4] - box[1], box[5] - box[2]) : sets[0].max;
  const fromHome = deepestPoint(sets, home, size);
  const fromMiddle = deepestPoint(sets, middle, size);
  return fromHome.margin >= fromMiddle.margin ? fromHome : fromMiddle;
}

const DIRECTIONS: readonly Direction[] = [0, 1, 2];

/** A rectangle around a point inside a small reach: the allowed stretches through it, with half their length added. */
function footprintAround({ cutter, symmetry }: ReachProblem, point: Vec3, outer: Footprint): Footprint {
  if (symmetry) return outer;
  const around = newBox();
  for (const direction of DIRECTIONS) {
    const [u, v] = ACROSS[direction];
    const count = cutter.cut(direction, point[u], point[v]);
    for (let i = 0; i < count; i++) {
      if (cutter.stops[i] < point[direction] || cutter.starts[i] > point[direction]) continue;
      const more = (cutter.stops[i] - cutter.starts[i]) / 2;
      around[direction] = cutter.starts[i] - more;
      around[3 + direction] = cutter.stops[i] + more;
    }
  }
  // a cutter that knows more than the limits may allow nothing at a point that keeps them
  const flat = around[0] >= around[3] || around[1] >= around[4];
  return flat ? outer : rectangleOf(around, 2);
}
