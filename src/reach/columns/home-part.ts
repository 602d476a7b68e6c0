import type { Box } from './bounding-box.ts';
import { newBox } from './bounding-box.ts';
import type { ColumnLattice } from './column-lattice.ts';
import { Components } from './components.ts';
import { type ExcludingLimit, limitsBelow } from './deepest-point.ts';
import { EndStarts } from './end-starts.ts';
import { Climber } from './extents.ts';
import type { ReachProblem } from './problem.ts';
import type { HomePart, ReachBox } from './reach-measure.ts';

/** Columns within this many spacings of home are tried as its neighbours. */
const NEIGHBOURHOOD = 1.01;

/** Smaller parts are crumbs at the sharp edges of the reach, where neighbouring columns just miss each other. */
const ISLAND_COLUMNS = 4;

/** Limits that the home position breaks, of any of the orientations. */
export function limitsBrokenAtHome({ sets, home, slack }: ReachProblem): ExcludingLimit[] {
  return limitsBelow(sets, home, -slack);
}

/**
 * The part of the reach connected with home, from a lattice whose parts have been found.
 * @param bounds of the whole reach; null when it is empty
 */
export function measureHome(
  problem: ReachProblem,
  lattice: ColumnLattice,
  components: Components,
  bounds: ReachBox | null,
): HomePart {
  const broken = limitsBrokenAtHome(problem);
  const parts = bounds ? components.count(lattice, ISLAND_COLUMNS) : 0;
  if (broken.length > 0) {
    return { volume: 0, bounds: null, islands: parts, reason: { kind: 'homeNotReachable', limits: broken } };
  }
  const part = bounds ? homePartOf(problem, lattice, components) : NO_PART;
  if (part === NO_PART || !bounds) {
    return { volume: 0, bounds: null, islands: parts, reason: { kind: 'homeTooThin' } };
  }
  const volume = components.length(lattice, part) * lattice.cellArea;
  const islands = components.islands(lattice, part, ISLAND_COLUMNS);
  if (islands === 0) return { volume, bounds, islands, reason: null };
  return { volume, bounds: homeBounds(problem, lattice, components, part), islands, reason: null };
}

/** No part of the lattice was found to hold home. */
export const NO_PART = -1;

/** The part whose intervals meet home's own column interval, found by cutting exactly there; NO_PART when none does. */
export function homePartOf(problem: ReachProblem, lattice: ColumnLattice, components: Components): number {
  const { cutter, home, slack } = problem;
  const count = cutter.cut(2, home[0], home[1]);
  let low = Number.NaN;
  let high = Number.NaN;
  for (let i = 0; i < count; i++) {
    if (cutter.starts[i] - slack <= home[2] && home[2] <= cutter.stops[i] + slack) {
      low = cutter.starts[i];
      high = cutter.stops[i];
    }
  }
  if (Number.isNaN(low)) return NO_PART;
  const { us, vs, firsts, starts, stops, columnCount, spacing } = lattice;
  const near = (NEIGHBOURHOOD * spacing) ** 2;
  let part = NO_PART;
  for (let column = 0; column < columnCount; column++) {
    if ((us[column] - home[0]) ** 2 + (vs[column] - home[1]) ** 2 > near) continue;
    for (let i = firsts[column]; i < firsts[column + 1]; i++) {
      const meets =
        components.partOf(i) === part ||
        (starts[i] < high && low < stops[i]) ||
        components.walkMeets(cutter, home[0], home[1], low, high, us[column], vs[column], starts[i], stops[i]);
      if (meets) part = part === NO_PART ? components.partOf(i) : components.join(part, i);
    }
  }
  return part;
}

function homeBounds(
  problem: ReachProblem,
  lattice: ColumnLattice,
  components: Components,
  part: number,
): ReachBox | null {
  const box: Box = newBox();
  lattice.writeHitBox(problem.symmetry, box, (interval) => components.partOf(interval) === part);
  const step = FIRST_STEP * Math.max(box[3] - box[0], box[4] - box[1]);
  const starts = new EndStarts(box);
  starts.offerAll(problem.home[0], problem.home[1], problem.home[2]);
  starts.offerLattice(lattice, problem.symmetry, (interval) => components.partOf(interval) === part);
  starts.widen(new Climber(), problem, [step, step, step], box);
  return { low: [box[0], box[1], box[2]], high: [box[3], box[4], box[5]] };
}

/** First step of the search for the home part's box, as a share of its width. */
const FIRST_STEP = 0.25;

/** Tells whether a stretch of a column belongs to the part connected with home. */
export class HomeParts {
  private readonly lattice: ColumnLattice;
  private readonly components = new Components();
  private readonly problem: ReachProblem;
  private readonly part: number;
  private readonly single: boolean;

  constructor(problem: ReachProblem, lattice: ColumnLattice) {
    this.problem = problem;
    this.lattice = lattice;
    this.components.find(lattice, problem.cutter);
    const reachable = limitsBrokenAtHome(problem).length === 0;
    this.part = reachable ? homePartOf(problem, lattice, this.components) : NO_PART;
    this.single = this.components.count(lattice, 1) === 1;
  }

  /** Whether home lies in a part of the reach at all. */
  get found(): boolean {
    return this.part !== NO_PART;
  }

  /** Whether there are others beside the part that holds home. */
  get islands(): boolean {
    return this.found && !this.single;
  }

  /** Share of the whole volume that is connected with home; 1 where home lies in no part. */
  get share(): number {
    const { components, lattice, part } = this;
    return this.islands ? (components.length(lattice, part) * lattice.cellArea) / lattice.volume() : 1;
  }

  /** Box of the part that holds home [mm], as {@link HomePart.bounds}; null where there is none. */
  get bounds(): ReachBox | null {
    return this.found ? homeBounds(this.problem, this.lattice, this.components, this.part) : null;
  }

  holds(u: number, v: number, start: number, stop: number): boolean {
    if (this.part === NO_PART || this.single) return this.part !== NO_PART;
    const interval = this.lattice.intervalNear(u, v, start, stop);
    return interval >= 0 && this.components.partOf(interval) === this.components.partOf(this.part);
  }
}
