import type { Box } from './bounding-box.ts';
import { ACROSS, type Direction } from './column-cutter.ts';
import { type ColumnLattice, eachImage } from './column-lattice.ts';
import type { Climber, Searched } from './extents.ts';
import type { ThreeFoldMirror } from './symmetry.ts';

/** Across each axis the places are told apart by so many tiles a side; the extreme place of every tile is a start. */
const TILES = 4;
const TILE_COUNT = TILES * TILES;

/** The first climbs end when their steps are this share of the first: enough to tell which of them ends farthest. */
const COARSE = 1e-2;

/** Of the first climbs those that end farthest go on, with steps that have room to slide into a corner. */
const FINISHED = 3;
const FINISHING_STEP = 0.1;

/** The last climbs end at this share of their first step: the box is then exact to some 1e-7 of the spacing of the columns. */
const FINE = 1e-6;

const DIRECTIONS: readonly Direction[] = [0, 1, 2];

/**
 * Places inside the reach from which its farthest places along the axes are looked for, many for each end: the limits make a reach with
 * horns, and a climb ends on the one that it begins on. Ends are low x, y, z, then high x, y, z.
 */
export class EndStarts {
  private readonly points = new Float64Array(3 * 6 * TILE_COUNT).fill(Number.NaN);
  private readonly results = new Float64Array(4 * TILE_COUNT);
  private readonly frame: Box;

  /** @param frame holds all places that will be offered [mm]; it is split into tiles */
  constructor(frame: Box) {
    this.frame = Float64Array.from(frame);
  }

  /** Offers a place for all six ends. */
  offerAll(x: number, y: number, z: number): void {
    for (const direction of DIRECTIONS) {
      this.offer(direction, -1, x, y, z);
      this.offer(direction, 1, x, y, z);
    }
  }

  /** Offers a place for one end; the farthest of its tile is kept. */
  offer(direction: Direction, sign: 1 | -1, x: number, y: number, z: number): void {
    const { points } = this;
    const [u, v] = ACROSS[direction];
    const tile = TILES * this.tileOf(u, axisOf(u, x, y, z)) + this.tileOf(v, axisOf(v, x, y, z));
    const at = 3 * (TILE_COUNT * endOf(direction, sign) + tile);
    if (sign * (axisOf(direction, x, y, z) - points[at + direction]) <= 0) return;
    points[at] = x;
    points[at + 1] = y;
    points[at + 2] = z;
  }

  /** Offers the ends of a lattice's columns, through all images of a wedge; of the chosen intervals only, if a choice is given. */
  offerLattice(
    { us, vs, firsts, starts, stops, columnCount }: ColumnLattice,
    symmetry: ThreeFoldMirror | null,
    chosen?: (interval: number) => boolean,
  ): void {
    for (let column = 0; column < columnCount; column++)
      for (let i = firsts[column]; i < firsts[column + 1]; i++) {
        if (chosen && !chosen(i)) continue;
        eachImage(us[column], vs[column], symmetry, (u, v) => {
          this.offerAll(u, v, starts[i]);
          this.offerAll(u, v, stops[i]);
        });
      }
  }

  private tileOf(axis: Direction, value: number): number {
    const { frame } = this;
    const share = (value - frame[axis]) / (frame[3 + axis] - frame[axis]);
    return Math.min(Math.max(Math.floor(TILES * share), 0), TILES - 1);
  }

  /**
   * Widens a box to the farthest places found.
   * @param steps first step of the climbs along x, y, z [mm]
   */
  widen(climber: Climber, searched: Searched, steps: ArrayLike<number>, box: Box): void {
    for (const direction of DIRECTIONS) {
      for (const sign of [-1, 1] as const) this.widenEnd(climber, searched, direction, sign, steps[direction], box);
    }
  }

  private widenEnd(
    climber: Climber,
    searched: Searched,
    direction: Direction,
    sign: 1 | -1,
    step: number,
    box: Box,
  ): void {
    const { points, results } = this;
    const end = endOf(direction, sign);
    const better = (value: number) => {
      if (sign * (value - box[end]) > 0) box[end] = value;
    };
    let count = 0;
    for (let tile = 0; tile < TILE_COUNT; tile++) {
      const at = 3 * (TILE_COUNT * end + tile);
      if (Number.isNaN(points[at])) continue;
      const found = climber.farthest(searched, direction, sign, points.subarray(at, at + 3), step, COARSE);
      if (Number.isNaN(found)) continue;
      better(found);
      results[4 * count] = sign * found;
      results.set(climber.point, 4 * count + 1);
      count++;
    }
    for (let n = 0; n < Math.min(FINISHED, count); n++) {
      let best = 0;
      for (let k = 1; k < count; k++) if (results[4 * k] > results[4 * best]) best = k;
      results[4 * best] = Number.NEGATIVE_INFINITY;
      const from = results.slice(4 * best + 1, 4 * best + 4);
      better(climber.farthest(searched, direction, sign, from, FINISHING_STEP * step, FINE));
    }
  }
}

const endOf = (direction: Direction, sign: 1 | -1): number => (sign < 0 ? direction : 3 + direction);

const axisOf = (axis: Direction, x: number, y: number, z: number): number => (axis === 0 ? x : axis === 1 ? y : z);
