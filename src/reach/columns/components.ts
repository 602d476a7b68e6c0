import { MOST_INTERVALS } from './column.ts';
import type { ColumnCutter } from './column-cutter.ts';
import type { ColumnLattice } from './column-lattice.ts';

/** Neighbours further apart than this many spacings along the column are not taken for one thin wall. */
const WALL_GAP = 3;

/** In-between columns cut on the way from a column to its neighbour when their intervals do not overlap. */
const WALL_STEPS = 8;

/** Walks tried in one lattice: a bound on time, far above what a thin wall needs. */
const WALL_WALKS = 300;

/** A walk carries at most this many intervals at a time. */
const WALK_INTERVALS = 4 * MOST_INTERVALS;

/**
 * Connected parts of the reach: intervals of neighbouring columns that overlap belong together. Where two parts come close
 * without overlapping, in-between columns decide whether a thin leaning wall joins them. A neck or a cleft much narrower
 * than the lattice spacing can still be missed.
 */
export class Components {
  private parents = new Int32Array(4096);
  private sizes = new Int32Array(4096);
  private readonly walk = {
    lows: new Float64Array(WALK_INTERVALS),
    highs: new Float64Array(WALK_INTERVALS),
    nextLows: new Float64Array(WALK_INTERVALS),
    nextHighs: new Float64Array(WALK_INTERVALS),
  };

  /** Finds the parts of a lattice that has been run with `cutter`. */
  find(lattice: ColumnLattice, cutter: ColumnCutter): void {
    const { intervalCount } = lattice;
    if (this.parents.length < intervalCount) {
      this.parents = new Int32Array(lattice.starts.length);
      this.sizes = new Int32Array(lattice.starts.length);
    }
    for (let i = 0; i < intervalCount; i++) this.parents[i] = i;
    eachNeighbourPair(lattice, (column, other) => this.joinOverlaps(lattice, column, other));
    if (this.count(lattice, 1) > 1) this.joinWalls(lattice, cutter);
  }

  /** The part that an interval belongs to, named by one of its intervals. */
  partOf(interval: number): number {
    const { parents } = this;
    let root = interval;
    while (parents[root] !== root) {
      parents[root] = parents[parents[root]];
      root = parents[root];
    }
    return root;
  }

  /** Number of parts that hold at least `least` intervals. */
  count(lattice: ColumnLattice, least: number): number {
    const { sizes } = this;
    sizes.fill(0, 0, lattice.intervalCount);
    for (let i = 0; i < lattice.intervalCount; i++) sizes[this.partOf(i)]++;
    let count = 0;
    for (let i = 0; i < lattice.intervalCount; i++) if (sizes[i] >= least && sizes[i] > 0) count++;
    return count;
  }

  /** Number of parts besides `part` that hold at least `least` intervals. */
  islands(lattice: ColumnLattice, part: number, least: number): number {
    const count = this.count(lattice, least);
    return this.sizes[this.partOf(part)] >= least ? count - 1 : count;
  }

  /** Makes two intervals' parts one and returns it. */
  join(a: number, b: number): number {
    const part = this.partOf(b);
    this.parents[this.partOf(a)] = part;
    return part;
  }

  private joinOverlaps({ firsts, starts, stops }: ColumnLattice, column: number, other: number): void {
    for (let a = firsts[column]; a < firsts[column + 1]; a++) {
      for (let b = firsts[other]; b < firsts[other + 1]; b++) {
        if (starts[a] < stops[b] && starts[b] < stops[a]) this.join(a, b);
      }
    }
  }

  private joinWalls(lattice: ColumnLattice, cutter: ColumnCutter): void {
    const { firsts, starts, stops, spacing } = lattice;
    let walks = 0;
    eachNeighbourPair(lattice, (column, other) => {
      for (let a = firsts[column]; a < firsts[column + 1]; a++) {
        for (let b = firsts[other]; b < firsts[other + 1]; b++) {
          const gap = Math.max(starts[a] - stops[b], starts[b] - stops[a]);
          if (gap > WALL_GAP * spacing || walks >= WALL_WALKS || this.partOf(a) === this.partOf(b)) continue;
          walks++;
          if (this.walkJoins(lattice, cutter, column, a, other, b)) this.join(a, b);
        }
      }
    });
  }

  private walkJoins(
    { us, vs, starts, stops }: ColumnLattice,
    cutter: ColumnCutter,
    column: number,
    a: number,
    other: number,
    b: number,
  ): boolean {
    return this.walkMeets(
      cutter,
      us[column],
      vs[column],
      starts[a],
      stops[a],
      us[other],
      vs[other],
      starts[b],
      stops[b],
    );
  }

  /**
   * Whether the stretch [low, high] of the column at (x, y) runs over into the stretch [low2, high2] of the column at (x2, y2),
   * judged by the columns on the straight way between them.
   */
  walkMeets(
    cutter: ColumnCutter,
    x: number,
    y: number,
    low: number,
    high: number,
    x2: number,
    y2: number,
    low2: number,
    high2: number,
  ): boolean {
    let { lows, highs, nextLows, nextHighs } = this.walk;
    lows[0] = low;
    highs[0] = high;
    let carried = 1;
    for (let step = 1; step < WALL_STEPS && carried > 0; step++) {
      const share = step / WALL_STEPS;
      const count = cutter.cut(2, x + share * (x2 - x), y + share * (y2 - y));
      let next = 0;
      for (let i = 0; i < count; i++) {
        for (let j = 0; j < carried; j++) {
          if (cutter.starts[i] < highs[j] && lows[j] < cutter.stops[i]) {
            nextLows[next] = cutter.starts[i];
            nextHighs[next++] = cutter.stops[i];
            break;
          }
        }
      }
      [lows, highs, nextLows, nextHighs] = [nextLows, nextHighs, lows, highs];
      carried = next;
    }
    for (let j = 0; j < carried; j++) if (low2 < highs[j] && lows[j] < high2) return true;
    return false;
  }

  /** Weighted length of one part [mm]. */
  length(lattice: ColumnLattice, part: number): number {
    const { firsts, starts, stops, weights, columnCount } = lattice;
    let sum = 0;
    for (let column = 0; column < columnCount; column++) {
      for (let i = firsts[column]; i < firsts[column + 1]; i++) {
        if (this.partOf(i) === part) sum += weights[column] * (stops[i] - starts[i]);
      }
    }
    return sum;
  }
}

/** Calls `visit` once for every two neighbouring columns that both have intervals. */
function eachNeighbourPair(lattice: ColumnLattice, visit: (column: number, other: number) => void): void {
  const { rowFirsts, rowStarts, rowCount, firsts } = lattice;
  for (let row = 0; row < rowCount; row++) {
    for (let column = rowFirsts[row]; column < rowFirsts[row + 1]; column++) {
      if (firsts[column] === firsts[column + 1]) continue;
      if (column > rowFirsts[row] && firsts[column - 1] < firsts[column]) visit(column, column - 1);
      if (row === 0) continue;
      // Lattice index i has neighbours i and i + 1 in the row before.
      const i = rowStarts[row] + column - rowFirsts[row];
      const below = rowFirsts[row - 1] + i - rowStarts[row - 1];
      for (let other = below; other <= below + 1; other++) {
        if (other < rowFirsts[row - 1] || other >= rowFirsts[row]) continue;
        if (firsts[other] < firsts[other + 1]) visit(column, other);
      }
    }
  }
}
