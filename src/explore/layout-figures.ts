import { isSingularEverywhere, RANK_TOLERANCE } from '../kinematics/architecture.ts';
import { BUILD_SLACK, BuildJudge } from '../kinematics/buildable/judge.ts';
import { assumedBuild, type BuildableSpec } from '../kinematics/buildable/spec.ts';
import { writeJacobian } from '../kinematics/jacobian.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import { LIMIT_SLACK } from '../kinematics/limits.ts';
import type { LegSpec, Mechanism } from '../kinematics/mechanism.ts';
import { dualBuffer, largestOfDual } from '../math/dual-column.ts';
import { gaussLegendre, type Quadrature } from '../math/gauss-legendre.ts';
import type { Mat3 } from '../math/rotation.ts';
import { SmallestSingular } from '../math/smallest-singular.ts';
import { FIGURE_NAMES } from '../terms/figures.ts';
import { addColumn, columnBatch, volumeOf } from './column-batch.ts';
import { PolarReach } from './polar-reach.ts';
import { StandingColumns } from './standing-columns.ts';
import { type Symmetry, symmetryOf } from './symmetry.ts';
import { withoutLastDigits } from './ties.ts';
import { TiltedColumns } from './tilted-columns.ts';

/** Numbers in one row. */
export const FIGURE_COUNT = FIGURE_NAMES.length;

/** What the figures depend on beside the layout. */
export interface FigureOptions {
  /** Tilt in every direction that the tilt reach must allow [rad]. */
  readonly tilt: number;
  /** Smallest singular value below which a pose does not count as usable [mm of leg per mm of loosest motion]. */
  readonly firmnessFloor: number;
  /** Length of a leg that is neither stroke nor its double: ends, motor [mm]. */
  readonly deadLength: number;
  /** Parts that decide what can be built; the usual assumptions where left out ({@link assumedBuild}). */
  readonly build?: BuildableSpec;
}

/** Level reach: error median 0.2 %, worst 1 % over 500 layouts of the standard sweep; 0.18 % and 3 % over 254 of random parts. */
const LEVEL_GRID = { directions: 4, probes: 4 };
const LEVEL_COLUMNS = [gaussLegendre(8)];

/** Tilt reach at 10 deg: against 48 directions, error median 0.3 %, worst 2.1 % over 500 layouts of the standard sweep. */
const TILT_GRID = { directions: LEVEL_GRID.directions, probes: 3 };
const TILT_COLUMNS = [gaussLegendre(7)];

/**
 * Firmness, forces and tilts: columns along every piece of the level reach, one rule for each direction. With two heights each, the
 * pieces' ends and all their symmetric copies that is 108 poses, or 102 where an end turns out empty.
 */
const POSE_COLUMNS = [1, 2, 2, 2].map(gaussLegendre);

/**
 * Just within the far end of every piece, for no weight: there extremes are met. Nearer, a column may have lost what height it has to
 * the error of the end.
 */
const POSE_ENDS: readonly Quadrature[] = [{ nodes: Float64Array.of(0.99), weights: Float64Array.of(0) }];

/** The Jacobian's column for moving along z. */
const VERTICAL = 2;

/** Heights tried in a column as shares of it: the two Gauss nodes, each standing for half of it. */
const POSE_HEIGHTS = [0.5 - Math.sqrt(1 / 12), 0.5 + Math.sqrt(1 / 12)] as const;

/**
 * Measures whole rows of figures, layout after layout, without allocating in its loops; one per thread of work.
 *
 * Lengths in mm, volumes in mm^3, angles in rad. Reach: standing (every platform joint above its base joint) at the home
 * orientation. Tilt reach: allowed at the home orientation and at every tilt of it by `tilt`, toward any direction. Usable reach:
 * the share of the reach whose poses hold the firmness floor, firmness taken to run straight through the two poses of a column.
 * Firmness is the smallest singular value of the Jacobian with rotations divided by the characteristic length. Force factor: the
 * largest force in a leg per unit of weight at the tool point.
 * Build gap: by how many mm the tightest of all that must fit does, below zero where it does not ({@link BuildJudge}).
 * All figures "over the reach" are sampled at some hundred poses, counting the symmetric copies. The worst of them are looked for at the far
 * ends of the reach too: against 3,600 columns of nine heights each, on 40 layouts of the standard sweep, worst firmness is 1 % off in the
 * median and 4 % at most, the force factor 0.6 % and 2.6 %, the joint tilt 0.13 and 0.15 deg.
 */
export class LayoutFigures {
  private readonly level = new StandingColumns(1);
  private readonly tilted = new TiltedColumns(this.level);
  private readonly levelReach = new PolarReach(LEVEL_GRID);
  private readonly tiltReach = new PolarReach(TILT_GRID, this.levelReach.mostPieces);
  private readonly smallest = new SmallestSingular();
  private readonly dual = dualBuffer();
  private readonly J = new Float64Array(36);
  private readonly vectors = new Float64Array(18);
  private readonly lengths = new Float64Array(LEG_COUNT);
  private readonly position: [number, number, number] = [0, 0, 0];
  private readonly columns = columnBatch(
    Math.max(
      this.levelReach.mostPieces * LEVEL_COLUMNS[0].nodes.length,
      this.tiltReach.mostPieces * TILT_COLUMNS[0].nodes.length,
    ),
  );
  private readonly single = columnBatch(1);

  /** The layout has a pose that is not singular; otherwise every pose has no firmness at all, and only rounding would show some. */
  private regular = true;
  private build: { readonly legs: LegSpec; readonly judge: BuildJudge } | null = null;
  private volume = 0;
  private usable = 0;
  private sampled = 0;
  private weakest = 0;
  private firmnessSum = 0;
  private hardest = 0;
  private smallestCosine = 1;

  constructor(private readonly options: FigureOptions) {}

  /** Writes the figures of one layout to `row` from `offset` on, each to ten digits ({@link withoutLastDigits}). */
  measure(mechanism: Mechanism, row: Float64Array, offset = 0): void {
    const symmetry = symmetryOf(mechanism);
    this.regular = true;
    let homeFirmness = this.firmnessAt(mechanism, mechanism.home.R_BP, ...mechanism.home.p_BoTo_B);
    if (homeFirmness < SURELY_REGULAR && isSingularEverywhere(mechanism)) {
      this.regular = false;
      homeFirmness = 0;
    }
    const homeCondition = homeFirmness > 0 ? this.smallest.largestOfLast() / homeFirmness : Number.POSITIVE_INFINITY;
    this.volume = this.measureLevel(mechanism, symmetry);
    const homeAllowed = this.homeAllowed(mechanism);
    const tiltVolume = this.volume > 0 ? this.measureTilted(mechanism) : 0;
    this.measurePoses(mechanism);
    const any = this.sampled > 0;
    const { min, max } = mechanism.legs;
    const meanFirmness = any ? this.firmnessSum / this.sampled : 0;
    // the order of FIGURE_NAMES
    let at = offset;
    row[at++] = this.volume;
    row[at++] = tiltVolume;
    row[at++] = any ? (this.volume * this.usable) / this.sampled : 0;
    row[at++] = homeFirmness;
    row[at++] = homeCondition;
    row[at++] = any ? this.weakest : 0;
    row[at++] = meanFirmness;
    row[at++] = this.hardest;
    row[at++] = any ? Math.acos(this.smallestCosine) : 0;
    row[at++] = 2 * min - this.options.deadLength - max;
    const buildGap = this.buildJudge(mechanism).gap(mechanism);
    row[at++] = buildGap;
    row[at++] = buildGap >= -BUILD_SLACK ? 1 : 0;
    row[at++] = homeAllowed ? 1 : 0;
    row[at++] = this.regular ? 0 : 1;
    for (let n = offset; n < at; n++) row[n] = withoutLastDigits(row[n]);
  }

  /** All layouts of one list have the same legs, so that the assumptions are made once. */
  private buildJudge({ legs }: Mechanism): BuildJudge {
    if (this.build?.legs !== legs) {
      const assumed = assumedBuild(legs);
      const { build = assumed, deadLength } = this.options;
      this.build = { legs, judge: new BuildJudge({ ...build, deadLength: Math.max(deadLength, build.deadLength) }) };
    }
    return this.build.judge;
  }

  private measureLevel(mechanism: Mechanism, symmetry: Symmetry): number {
    const { level, columns } = this;
    level.start(mechanism);
    level.add(mechanism, mechanism.home.R_BP);
    this.levelReach.find(level, symmetry, level.middle(0), level.middle(1));
    columns.count = 0;
    this.levelReach.place(LEVEL_COLUMNS, columns);
    level.cut(columns);
    return volumeOf(columns);
  }

  /** Home stands within the level column at its place. */
  private homeAllowed({ home, size }: Mechanism): boolean {
    const [x, y, z] = home.p_BoTo_B;
    const { level, single } = this;
    const slack = LIMIT_SLACK * size;
    single.count = 0;
    addColumn(single, x, y, 0);
    level.cut(single);
    const [bottom] = single.bottom;
    const [top] = single.top;
    // outside of an outer sphere's shadow the column shrinks to the apex
    const tall = top - bottom >= -slack && level.withinShadow(x, y);
    return tall && z >= bottom - slack && z <= top + slack;
  }

  private measureTilted(mechanism: Mechanism): number {
    const { tilted, columns } = this;
    tilted.start(mechanism, this.options.tilt);
    // the level orientation is one of those allowed, so the tilt reach lies within the level one
    this.tiltReach.findWithin(tilted, this.levelReach);
    columns.count = 0;
    this.tiltReach.place(TILT_COLUMNS, columns);
    tilted.cut(columns);
    return volumeOf(columns);
  }

  /**
   * Firmness, forces and tilts at two heights of a few columns, weighed by the volume each stands for; and at the far ends of all
   * pieces, where the worst of them are met.
   */
  private measurePoses(mechanism: Mechanism): void {
    const { level, columns } = this;
    this.usable = 0;
    this.sampled = 0;
    this.weakest = Number.POSITIVE_INFINITY;
    this.firmnessSum = 0;
    this.hardest = 0;
    this.smallestCosine = 1;
    columns.count = 0;
    this.levelReach.place(POSE_COLUMNS, columns);
    this.levelReach.place(POSE_ENDS, columns);
    level.cut(columns);
    const [low, high] = POSE_HEIGHTS;
    const { x, y, top, bottom, area } = columns;
    for (let n = 0; n < columns.count; n++) {
      const gap = top[n] - bottom[n];
      if (!(gap > 0)) continue;
      const weight = area[n] * gap;
      if (weight === 0) {
        this.measurePose(mechanism, x[n], y[n], bottom[n] + gap / 2, 0);
        continue;
      }
      const atLow = this.measurePose(mechanism, x[n], y[n], bottom[n] + low * gap, weight / 2);
      const atHigh = this.measurePose(mechanism, x[n], y[n], bottom[n] + high * gap, weight / 2);
      this.usable += weight * shareAbove(this.options.firmnessFloor, atLow, atHigh);
    }
  }

  /** @returns the firmness there */
  private measurePose(mechanism: Mechanism, x: number, y: number, z: number, weight: number): number {
    const firmness = this.firmnessAt(mechanism, mechanism.home.R_BP, x, y, z);
    this.sampled += weight;
    this.firmnessSum += weight * firmness;
    if (firmness < this.weakest) this.weakest = firmness;
    // J^T f = (0, 0, 1, 0, 0, 0): the legs' forces under a unit weight at the tool point; scaled moments are zero either way
    const force = this.regular ? largestOfDual(this.J, VERTICAL, this.dual) : Number.POSITIVE_INFINITY;
    if (force > this.hardest) this.hardest = force;
    this.smallestCosine = Math.min(this.smallestCosine, this.leastAligned(mechanism));
    return firmness;
  }

  /** Smallest singular value, none where no pose has any; leaves the Jacobian with its rotation columns divided by the characteristic length. */
  private firmnessAt(mechanism: Mechanism, R_BP: Mat3, x: number, y: number, z: number): number {
    const { J, position } = this;
    position[0] = x;
    position[1] = y;
    position[2] = z;
    writeJacobian(mechanism, { p_BoTo_B: position, R_BP }, J, this.vectors, this.lengths);
    if (!this.regular) return 0;
    const inverse = 1 / mechanism.characteristicLength;
    for (let row = 0; row < 36; row += 6) {
      J[row + 3] *= inverse;
      J[row + 4] *= inverse;
      J[row + 5] *= inverse;
    }
    return this.smallest.of(J);
  }

  /** Smallest cosine between a leg and its mount axis, both ends, at the pose last judged. */
  private leastAligned(mechanism: Mechanism): number {
    const { vectors, lengths } = this;
    const { baseAxes_B: up, platformAxes_P: down, home } = mechanism;
    const R = home.R_BP;
    let least = 1;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const i = 3 * leg;
      const x = vectors[i];
      const y = vectors[i + 1];
      const z = vectors[i + 2];
      const atBase = (x * up[i] + y * up[i + 1] + z * up[i + 2]) / lengths[leg];
      const backX = R[0] * x + R[3] * y + R[6] * z;
      const backY = R[1] * x + R[4] * y + R[7] * z;
      const backZ = R[2] * x + R[5] * y + R[8] * z;
      const atPlatform = -(backX * down[i] + backY * down[i + 1] + backZ * down[i + 2]) / lengths[leg];
      least = Math.min(least, atBase, atPlatform);
    }
    return Math.max(-1, least);
  }
}

/**
 * A pose this firm proves a layout sound; below it the generic poses are tried. Far above the rank tolerance times the largest possible
 * singular value, sqrt(6) at unit arms.
 */
const SURELY_REGULAR = 100 * RANK_TOLERANCE;

/** Share of a column whose firmness is at least the floor, firmness running straight through its two known values. */
function shareAbove(floor: number, atLow: number, atHigh: number): number {
  const [low, high] = POSE_HEIGHTS;
  const slope = (atHigh - atLow) / (high - low);
  const bottom = atLow - slope * low;
  const top = bottom + slope;
  if (bottom >= floor && top >= floor) return 1;
  if (bottom < floor && top < floor) return 0;
  const crossing = (floor - bottom) / slope;
  return slope > 0 ? 1 - crossing : crossing;
}
