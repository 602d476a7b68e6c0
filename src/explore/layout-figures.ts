import { assessArchitecture, RANK_TOLERANCE } from '../kinematics/architecture.ts';
import { writeJacobian } from '../kinematics/jacobian.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import { LIMIT_SLACK } from '../kinematics/limits.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { Lu } from '../math/lu.ts';
import { type Mat3, multiply3, rotationAbout } from '../math/rotation.ts';
import { SmallestSingular } from '../math/smallest-singular.ts';
import { PolarReach } from './polar-reach.ts';
import { StandingColumns } from './standing-columns.ts';
import { type Symmetry, symmetryOf } from './symmetry.ts';

/** The figures of one layout, in the order in which a row holds them. */
export const FIGURE_NAMES = [
  'reach',
  'tiltReach',
  'usableReach',
  'homeFirmness',
  'homeCondition',
  'worstFirmness',
  'meanFirmness',
  'forceFactor',
  'jointTilt',
  'spareStroke',
  'homeReachable',
  'singularEverywhere',
] as const;

export type FigureName = (typeof FIGURE_NAMES)[number];

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
}

/** Directions toward which the platform is tilted for the tilt reach, beside the level orientation. */
export const TILT_DIRECTIONS = 6;

/** Level reach: error median 0.11 %, worst 1.5 % over 175 random layouts against 24 directions of 48 columns each. */
const LEVEL_GRID = { directions: 5, probes: 8, columns: 10 };

/** Tilt reach: error median 0.16 %, 98 in 100 within 3.3 %; the rest reach a few cubic centimetres at most. */
const TILT_GRID = { directions: 5, probes: 8, columns: 7 };

/** Every so many columns of the level reach one is tried for which limits of the tilt reach can bind at all. */
const TRIED_COLUMNS = 4;

/** Firmness, forces and tilts: columns of poses; with two heights each and their symmetric copies 108 poses or more. */
const POSE_GRID = { directions: 3, probes: 7, columns: 3 };

/** Heights tried in a column as shares of it: the two Gauss nodes, each standing for half of it. */
const POSE_HEIGHTS = [0.5 - Math.sqrt(1 / 12), 0.5 + Math.sqrt(1 / 12)] as const;

/**
 * Measures whole rows of figures, layout after layout, without allocating in its loops; one per thread of work.
 *
 * Lengths in mm, volumes in mm^3, angles in rad. Reach: standing (every platform joint above its base joint) at the home
 * orientation. Tilt reach: allowed at the home orientation and at {@link TILT_DIRECTIONS} sampled tilts of it. Usable reach:
 * the share of the reach whose poses hold the firmness floor, firmness taken as even between the poses of a column. Firmness is the smallest singular value of the Jacobian with
 * rotations divided by the characteristic length. Force factor: the largest force in a leg per unit of weight at the tool point.
 * All figures "over the reach" are sampled at some hundred poses, counting the symmetric copies.
 */
export class LayoutFigures {
  private readonly level = new StandingColumns(1);
  private readonly tilted = new StandingColumns(1 + TILT_DIRECTIONS);
  private readonly levelReach = new PolarReach(LEVEL_GRID);
  private readonly tiltReach = new PolarReach(TILT_GRID);
  private readonly poseReach = new PolarReach(POSE_GRID);
  private readonly smallest = new SmallestSingular();
  private readonly lu = new Lu(LEG_COUNT);
  private readonly J = new Float64Array(36);
  private readonly vectors = new Float64Array(18);
  private readonly lengths = new Float64Array(LEG_COUNT);
  private readonly load = new Float64Array(LEG_COUNT);
  private readonly position: [number, number, number] = [0, 0, 0];
  /** Places of level columns, x y pairs, and how many; the tilt reach lies among them. */
  private readonly places = new Float64Array(2 * MOST_PLACES);
  private placeCount = 0;
  private tilts: { readonly R: Mat3; readonly start: number; readonly orientations: readonly Mat3[] } | null = null;

  private volume = 0;
  private usable = 0;
  private sampled = 0;
  private weakest = 0;
  private firmnessSum = 0;
  private hardest = 0;
  private smallestCosine = 1;

  constructor(private readonly options: FigureOptions) {}

  /** Writes the figures of one layout to `row` from `offset` on. */
  measure(mechanism: Mechanism, row: Float64Array, offset = 0): void {
    const symmetry = symmetryOf(mechanism);
    const homeFirmness = this.firmnessAt(mechanism, mechanism.home.R_BP, ...mechanism.home.p_BoTo_B);
    const homeCondition = homeFirmness > 0 ? this.smallest.largestOfLast() / homeFirmness : Number.POSITIVE_INFINITY;
    this.measureLevel(mechanism, symmetry);
    const homeAllowed = this.homeAllowed(mechanism);
    const tiltVolume = this.volume > 0 ? this.measureTilted(mechanism, symmetry) : 0;
    this.measurePoses(mechanism, symmetry);
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
    row[at++] = homeAllowed ? 1 : 0;
    row[at++] = this.neverRegular(mechanism, Math.max(homeFirmness, meanFirmness)) ? 1 : 0;
  }

  private measureLevel(mechanism: Mechanism, symmetry: Symmetry): void {
    const { level } = this;
    level.start(mechanism);
    level.add(mechanism, mechanism.home.R_BP);
    this.placeCount = 0;
    let columns = 0;
    this.volume = this.integrate(this.levelReach, level, symmetry, middle(level), (x, y) => {
      if (columns++ % TRIED_COLUMNS !== 0 || this.placeCount === MOST_PLACES) return;
      this.places[2 * this.placeCount] = x;
      this.places[2 * this.placeCount + 1] = y;
      this.placeCount++;
    });
  }

  /** Home stands within the level column at its place. */
  private homeAllowed({ home, size }: Mechanism): boolean {
    const [x, y, z] = home.p_BoTo_B;
    const { level } = this;
    const slack = LIMIT_SLACK * size;
    // outside of an outer sphere's shadow the column shrinks to the apex
    const tall = level.gapAt(x, y) >= -slack && level.withinShadow(x, y);
    return tall && z >= level.bottom - slack && z <= level.top + slack;
  }

  private measureTilted(mechanism: Mechanism, symmetry: Symmetry): number {
    const { tilted } = this;
    tilted.start(mechanism);
    tilted.add(mechanism, mechanism.home.R_BP);
    for (const R of this.tiltsOf(mechanism.home.R_BP, symmetry.start)) tilted.add(mechanism, R);
    const centre = middle(tilted);
    tilted.keepNear(this.places, this.placeCount);
    return this.integrate(this.tiltReach, tilted, symmetry, centre, () => undefined);
  }

  /** The tilted orientations; the same from layout to layout of most sweeps. */
  private tiltsOf(R: Mat3, start: number): readonly Mat3[] {
    if (this.tilts?.R !== R || this.tilts.start !== start) {
      this.tilts = { R, start, orientations: tiltsAbout(R, this.options.tilt, start) };
    }
    return this.tilts.orientations;
  }

  private integrate(
    grid: PolarReach,
    columns: StandingColumns,
    symmetry: Symmetry,
    [x, y]: readonly [number, number],
    visited: (x: number, y: number) => void,
  ): number {
    let volume = 0;
    grid.visit(columns, symmetry, x, y, (columnX, columnY, area) => {
      const gap = columns.gapAt(columnX, columnY);
      if (gap > 0) volume += gap * area;
      visited(columnX, columnY);
    });
    return volume;
  }

  /** Firmness, forces and tilts at two heights of a few columns, weighed by the volume each stands for. */
  private measurePoses(mechanism: Mechanism, symmetry: Symmetry): void {
    this.usable = 0;
    this.sampled = 0;
    this.weakest = Number.POSITIVE_INFINITY;
    this.firmnessSum = 0;
    this.hardest = 0;
    this.smallestCosine = 1;
    if (this.volume === 0) return;
    const { level } = this;
    const [x, y] = middle(level);
    this.poseReach.visit(level, symmetry, x, y, (columnX, columnY, area) => {
      const gap = level.gapAt(columnX, columnY);
      if (!(gap > 0)) return;
      const { bottom } = level;
      const [low, high] = POSE_HEIGHTS;
      const atLow = this.measurePose(mechanism, columnX, columnY, bottom + low * gap, (area * gap) / 2);
      const atHigh = this.measurePose(mechanism, columnX, columnY, bottom + high * gap, (area * gap) / 2);
      this.usable += area * gap * shareAbove(this.options.firmnessFloor, atLow, atHigh);
    });
  }

  /** @returns the firmness there */
  private measurePose(mechanism: Mechanism, x: number, y: number, z: number, weight: number): number {
    const firmness = this.firmnessAt(mechanism, mechanism.home.R_BP, x, y, z);
    this.sampled += weight;
    this.firmnessSum += weight * firmness;
    if (firmness < this.weakest) this.weakest = firmness;
    this.hardest = Math.max(this.hardest, this.largestForce());
    this.smallestCosine = Math.min(this.smallestCosine, this.leastAligned(mechanism));
    return firmness;
  }

  /** Smallest singular value; leaves the Jacobian with its rotation columns divided by the characteristic length. */
  private firmnessAt(mechanism: Mechanism, R_BP: Mat3, x: number, y: number, z: number): number {
    const { J, position } = this;
    position[0] = x;
    position[1] = y;
    position[2] = z;
    writeJacobian(mechanism, { p_BoTo_B: position, R_BP }, J, this.vectors, this.lengths);
    const inverse = 1 / mechanism.characteristicLength;
    for (let row = 0; row < 36; row += 6) {
      J[row + 3] *= inverse;
      J[row + 4] *= inverse;
      J[row + 5] *= inverse;
    }
    return this.smallest.of(J);
  }

  /** Largest leg force under a unit weight at the tool point: J^T f = (0, 0, 1, 0, 0, 0). Scaled moments are zero either way. */
  private largestForce(): number {
    const { load, lu } = this;
    if (!lu.factor(this.J)) return Number.POSITIVE_INFINITY;
    load.fill(0);
    load[2] = 1;
    lu.solveTransposed(load);
    let largest = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) largest = Math.max(largest, Math.abs(load[leg]));
    return largest;
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

  /** One regular pose proves a layout sound; only where none was met the generic poses are tried. */
  private neverRegular(mechanism: Mechanism, firmest: number): boolean {
    return firmest < SURELY_REGULAR && assessArchitecture(mechanism).singularEverywhere;
  }
}

/** Most places kept for the tilt reach: the level columns of a whole circle, thinned. */
const MOST_PLACES = 80;

/** Far above the rank tolerance times the largest possible singular value, sqrt(6) at unit arms. */
const SURELY_REGULAR = 100 * RANK_TOLERANCE;

/** Home orientation tilted toward {@link TILT_DIRECTIONS} even directions, the first along `start` [rad]. */
export function tiltsAbout(R: Mat3, tilt: number, start: number): readonly Mat3[] {
  if (tilt === 0) return [];
  return Array.from({ length: TILT_DIRECTIONS }, (_, n) => {
    const toward = start + (n * 2 * Math.PI) / TILT_DIRECTIONS;
    return multiply3(rotationAbout([-Math.sin(toward), Math.cos(toward), 0], tilt), R);
  });
}

function middle(columns: StandingColumns): [number, number] {
  let x = 0;
  let y = 0;
  for (let n = 0; n < columns.count; n++) {
    x += columns.apexX[n] / columns.count;
    y += columns.apexY[n] / columns.count;
  }
  return [x, y];
}

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
