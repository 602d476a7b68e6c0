import { LEG_COUNT } from '../../kinematics/layout.ts';
import { LIMIT_NAMES, type LimitName } from '../../kinematics/limits.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type LongWork, neverStop } from '../../math/long-work.ts';
import type { Mat3 } from '../../math/rotation.ts';
import { Boundary } from './boundary.ts';
import { type Box, newBox } from './bounding-box.ts';
import { ColumnLattice } from './column-lattice.ts';
import { Components } from './components.ts';
import { ALL_LIMITS, CODE_COUNT } from './constraints.ts';
import { excludingLimits } from './deepest-point.ts';
import { measureHome } from './home-part.ts';
import { findDeepest, type Integration, integrate } from './integration.ts';
import { FixedOrientation, type ReachProblem } from './problem.ts';
import {
  type BoundaryShares,
  DEFAULT_MAX_COLUMNS,
  DEFAULT_RELATIVE_ERROR,
  type EmptyReason,
  type ReachBox,
  type ReachMeasure,
  type ReachOptions,
} from './reach-measure.ts';

/** Columns along each axis that feel out the boundary: enough for shares to a percent or two. */
const BOUNDARY_COLUMNS = 260;

/** Measures reaches one after another, reusing all working arrays; one per thread of work. */
export class ReachMeter {
  readonly lattice = new ColumnLattice();
  readonly components = new Components();
  private readonly boundary = new Boundary();
  private readonly orientation = new FixedOrientation();
  private readonly searched = newBox();

  /** The reach of a mechanism with its platform at one orientation. */
  measure(mechanism: Mechanism, R_BP: Mat3, options: ReachOptions = {}, work: LongWork = neverStop): ReachMeasure {
    return this.measureProblem(this.orientation.problem(mechanism, R_BP, options.enabled ?? ALL_LIMITS), options, work);
  }

  /** The same for any prepared problem; leaves columns and parts in `lattice` and `components`. */
  measureProblem(problem: ReachProblem, options: ReachOptions = {}, work: LongWork = neverStop): ReachMeasure {
    const surely = surelyEmpty(problem);
    if (surely) return this.nothing(problem, surely, 0);
    const { lattice, components } = this;
    const integration = integrate(
      problem,
      lattice,
      options.relativeError ?? DEFAULT_RELATIVE_ERROR,
      options.maxColumns ?? DEFAULT_MAX_COLUMNS,
      work,
    );
    if (lattice.hits === 0) return this.nothing(problem, emptyReason(problem, integration), lattice.columnCount);

    components.find(lattice, problem.cutter);
    this.feelBoundary(problem);
    const bounds = boxOf(this.boundary.box);
    return {
      volume: lattice.volume(),
      errorEstimate: integration.errorEstimate,
      settled: integration.settled,
      home: measureHome(problem, lattice, components, bounds),
      bounds,
      boundary: sharesOf(this.boundary.areas),
      empty: null,
      columns: lattice.columnCount,
      symmetric: problem.symmetry !== null,
    };
  }

  /** Columns along x, y and z through a box a little larger than what the z columns met. */
  private feelBoundary(problem: ReachProblem): void {
    const { lattice, searched, boundary } = this;
    lattice.writeHitBox(problem.symmetry, searched);
    for (let axis = 0; axis < 3; axis++) {
      const more = axis < 2 ? lattice.spacing : BOX_PADDING * (searched[5] - searched[2]);
      searched[axis] = Math.max(searched[axis] - more, problem.box[axis]);
      searched[3 + axis] = Math.min(searched[3 + axis] + more, problem.box[3 + axis]);
    }
    boundary.collect(problem.cutter, searched, BOUNDARY_COLUMNS);
    boundary.offer(lattice, problem.symmetry);
    boundary.sharpen(problem);
  }

  private nothing(problem: ReachProblem, empty: EmptyReason, columns: number): ReachMeasure {
    return {
      volume: 0,
      errorEstimate: 0,
      settled: true,
      home: measureHome(problem, this.lattice, this.components, null),
      bounds: null,
      boundary: sharesOf(new Float64Array(CODE_COUNT)),
      empty,
      columns,
      symmetric: problem.symmetry !== null,
    };
  }
}

/** Room left above and below what the z columns met, as a share of the height: tops between columns rise a little higher. */
const BOX_PADDING = 0.05;

/**
 * The positions that the tool point can take with the platform at `R_BP`, all limits kept: volume, its part connected to
 * home, box, and what holds the boundary. Base axes, mm. For many calls keep a {@link ReachMeter}.
 */
export function measureReach(
  mechanism: Mechanism,
  R_BP: Mat3,
  options: ReachOptions = {},
  work: LongWork = neverStop,
): ReachMeasure {
  return new ReachMeter().measure(mechanism, R_BP, options, work);
}

function surelyEmpty(problem: ReachProblem): EmptyReason | null {
  const { min, max } = problem.sets[0];
  if (min > max) return { kind: 'lengthsReversed' };
  if (min === max) return { kind: 'noStroke' };
  return problem.possible ? null : emptyReason(problem, null);
}

function emptyReason(problem: ReachProblem, integration: Integration | null): EmptyReason {
  const deepest = integration?.deepest ?? findDeepest(problem);
  if (deepest.margin > 0) return { kind: 'tooSmall', room: deepest.margin };
  return {
    kind: 'excluded',
    shortfall: -deepest.margin,
    limits: excludingLimits(problem.sets, deepest, problem.box),
  };
}

const boxOf = (box: Box): ReachBox => ({ low: [box[0], box[1], box[2]], high: [box[3], box[4], box[5]] });

/** Sums areas by code up to shares by limit and by leg. */
export function sharesOf(areas: Float64Array): BoundaryShares {
  const byLimit: Record<LimitName, number> = { legTooShort: 0, legTooLong: 0, baseJoint: 0, platformJoint: 0 };
  const byLeg = [0, 0, 0, 0, 0, 0];
  let area = 0;
  for (let code = 0; code < CODE_COUNT; code++) area += areas[code];
  if (!(area > 0)) return { area: 0, byLimit, byLeg, largest: null };
  for (let code = 0; code < CODE_COUNT; code++) {
    byLimit[LIMIT_NAMES[Math.floor(code / LEG_COUNT)]] += areas[code] / area;
    byLeg[code % LEG_COUNT] += areas[code] / area;
  }
  const largest = LIMIT_NAMES.reduce((best, name) => (byLimit[name] > byLimit[best] ? name : best));
  return { area, byLimit, byLeg, largest };
}
