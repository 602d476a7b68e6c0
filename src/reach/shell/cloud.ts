import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type LongWork, neverStop } from '../../math/long-work.ts';
import type { Mat3 } from '../../math/rotation.ts';
import { newBox } from '../columns/bounding-box.ts';
import { ColumnLattice } from '../columns/column-lattice.ts';
import { CODE_COUNT, limitIndexOf, writeMargins } from '../columns/constraints.ts';
import { HomeParts } from '../columns/home-part.ts';
import { integrate } from '../columns/integration.ts';
import { FixedOrientation, type ReachProblem } from '../columns/problem.ts';
import { PoseQuality } from '../field/pose-quality.ts';

/** Points spread evenly through the reach at one orientation, with how well the legs hold the platform at each. */
export interface ReachCloud {
  readonly count: number;
  /** Tool point, flat xyz, base axes [mm]. */
  readonly positions: Float64Array;
  /** Smallest singular value of the Jacobian with rotation columns divided by the characteristic length; 0 when singular. */
  readonly smallest: Float64Array;
  /** Largest over smallest singular value; Infinity when singular. */
  readonly condition: Float64Array;
  /** The limit with the least margin there: its place in LIMIT_NAMES. */
  readonly limits: Uint8Array;
  /** 1 where the point belongs to the part connected with home. */
  readonly home: Uint8Array;
}

export interface CloudOptions {
  /** About how many points; the count comes out within a percent or two. */
  readonly points: number;
  /** Leaves out islands; everything is kept where home lies in no part. */
  readonly homeOnly?: boolean;
}

/** Points that a column holds on average where the reach is mean-high: fewer columns are faster, more are more even. */
const POINTS_PER_COLUMN = 2;

/** Error of the volume that sets the density of the points. */
const DENSITY_ERROR = 0.01;
const DENSITY_COLUMNS = 6000;

/** Columns after which the work is asked whether to go on. */
const STOP_INTERVAL = 1024;

/** Steps of the two-dimensional additive sequence with the lowest known discrepancy: powers of the root of x^3 = x + 1. */
const STEP_U = 0.7548776662466927;
const STEP_V = 0.5698402909980532;
const GOLDEN = 0.6180339887498949;

/**
 * Fills the exact reach with points, evenly by volume and the same ones every time: columns at the places of a low-discrepancy
 * sequence, and along all their allowed lengths laid end to end one point a step, moved within its step by a golden-ratio sequence.
 */
export function reachCloud(
  mechanism: Mechanism,
  R_BP: Mat3,
  options: CloudOptions,
  work: LongWork = neverStop,
): ReachCloud {
  const problem = { ...new FixedOrientation().problem(mechanism, R_BP), symmetry: null };
  const lattice = new ColumnLattice();
  if (problem.possible && options.points > 0) integrate(problem, lattice, DENSITY_ERROR, DENSITY_COLUMNS);
  if (lattice.hits === 0) return emptyCloud();
  const parts = new HomeParts(problem, lattice);
  const box = newBox();
  lattice.writeHitBox(null, box);
  const { spacing } = lattice;
  const width = box[3] - box[0] + 2 * spacing;
  const depth = box[4] - box[1] + 2 * spacing;
  const columns = Math.ceil(
    (options.points / POINTS_PER_COLUMN) * ((width * depth) / (lattice.hits * lattice.cellArea)),
  );
  // The volume is cell area times summed length; so many columns over the same area sum to this length.
  const counted = options.homeOnly ? parts.share : 1;
  const step = (counted * lattice.volume() * columns) / (width * depth) / options.points;
  const quality = new PoseQuality(mechanism, R_BP);
  const points = new PointBuffers(Math.ceil(1.1 * options.points) + 64);

  let passed = 0;
  let next = 0.5 * step;
  let number = 0;
  for (let column = 0; column < columns; column++) {
    if (column % STOP_INTERVAL === 0) {
      if (work.shouldStop()) break;
      work.report(column, columns);
    }
    const u = box[0] - spacing + width * ((0.5 + column * STEP_U) % 1);
    const v = box[1] - spacing + depth * ((0.5 + column * STEP_V) % 1);
    const count = problem.cutter.cut(2, u, v);
    for (let i = 0; i < count; i++) {
      const start = problem.cutter.starts[i];
      const stop = problem.cutter.stops[i];
      const end = passed + stop - start;
      if (next < end) {
        const home = parts.holds(u, v, start, stop);
        for (; next < end; next = (++number + ((0.5 + number * GOLDEN) % 1)) * step) {
          if (home || !options.homeOnly || !parts.found)
            points.add(u, v, start + next - passed, home, problem, quality);
        }
      }
      passed = end;
    }
  }
  return points.cloud();
}

/** Growing output arrays. */
class PointBuffers {
  private count = 0;
  private readonly positions: Float64Array;
  private readonly smallest: Float64Array;
  private readonly condition: Float64Array;
  private readonly limits: Uint8Array;
  private readonly home: Uint8Array;
  private readonly margins = new Float64Array(CODE_COUNT);

  constructor(size: number) {
    this.positions = new Float64Array(3 * size);
    this.smallest = new Float64Array(size);
    this.condition = new Float64Array(size);
    this.limits = new Uint8Array(size);
    this.home = new Uint8Array(size);
  }

  /** Adds a point unless the arrays are full. */
  add(x: number, y: number, z: number, home: boolean, { sets }: ReachProblem, quality: PoseQuality): void {
    const at = this.count;
    if (at === this.smallest.length) return;
    this.count++;
    this.positions[3 * at] = x;
    this.positions[3 * at + 1] = y;
    this.positions[3 * at + 2] = z;
    quality.at(x, y, z);
    this.smallest[at] = quality.smallest;
    this.condition[at] = quality.condition;
    writeMargins(sets[0], x, y, z, this.margins);
    let least = 0;
    for (let code = 1; code < CODE_COUNT; code++) if (this.margins[code] < this.margins[least]) least = code;
    this.limits[at] = limitIndexOf(least);
    this.home[at] = home ? 1 : 0;
  }

  cloud(): ReachCloud {
    const { count } = this;
    return {
      count,
      positions: this.positions.slice(0, 3 * count),
      smallest: this.smallest.slice(0, count),
      condition: this.condition.slice(0, count),
      limits: this.limits.slice(0, count),
      home: this.home.slice(0, count),
    };
  }
}

const emptyCloud = (): ReachCloud => new PointBuffers(0).cloud();
