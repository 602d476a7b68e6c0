import type { Box } from './bounding-box.ts';
import type { ColumnCutter, Direction } from './column-cutter.ts';
import type { ThreeFoldMirror } from './symmetry.ts';

/** Columns over a rectangle of the plane across them, in that direction's (u, v) [mm]; see ACROSS. */
export interface Rectangle {
  readonly kind: 'rectangle';
  readonly lowU: number;
  readonly lowV: number;
  readonly highU: number;
  readonly highV: number;
}

/** One sixth of the plane, from the mirror line at `angle` [rad] to 60 deg further, about a three-fold axis at (u, v) [mm]. */
export interface Wedge {
  readonly kind: 'wedge';
  readonly u: number;
  readonly v: number;
  readonly angle: number;
  readonly radius: number;
}

export type Footprint = Rectangle | Wedge;

const ROW_HEIGHT = Math.sqrt(3) / 2;

/** Where a rectangle's lattice starts, in cells: generic numbers, so that no symmetry of a layout meets one of the lattice. */
const OFFSET_U = 0.3819660112501051;
const OFFSET_V = 0.7548776662466927;

/**
 * Parallel columns on a triangular lattice p = i e1 + j e2, |e1| = |e2| = spacing, 60 deg apart, with every allowed interval kept.
 * The column length falls to zero at the edge of the reach, so the lattice sum converges faster than the spacing squared.
 *
 * Of a symmetric layout a wedge stands for the whole, with weight 6 inside, 3 on its two mirror lines and 1 on the axis. The
 * column length has a kink along each mirror line, where the binding leg gives way to its image. The lattice rows parallel
 * to a mirror line lie half a spacing apart and meet the kink at a phase that is 0 for the columns with (i - j) mod 3 = 0 and
 * +-1/3 for the others, each of the three sets being a lattice of rows 3/2 spacings apart. By the Euler-Maclaurin formula the kink's
 * errors go as the Bernoulli polynomial B2 of the phase, B2(0) = 1/6 and B2(1/3) = -1/18, so the shares 1/4 and 3/4
 * (weights times 3/4 and 9/8) cancel them.
 */
export class ColumnLattice {
  direction: Direction = 2;
  spacing = 0;
  /** Area that one column stands for at weight 1 [mm^2]. */
  cellArea = 0;
  columnCount = 0;
  /** Place of a column [mm] and how many columns of the whole it stands for. */
  us = new Float64Array(2048);
  vs = new Float64Array(2048);
  weights = new Float64Array(2048);
  /** First interval of a column; column c has intervals firsts[c] to firsts[c + 1] - 1. */
  firsts = new Int32Array(2049);
  intervalCount = 0;
  starts = new Float64Array(4096);
  stops = new Float64Array(4096);
  startCodes = new Uint8Array(4096);
  stopCodes = new Uint8Array(4096);
  /** Sum of weight times length [mm] of the columns with (i - j) mod 3 = 0, 1, 2 and of those with even i and j. */
  private readonly sums = new Float64Array(3);
  private evenSum = 0;
  private symmetric = false;
  private originU = 0;
  private originV = 0;
  /** Columns with any reach, counted with their weights. */
  hits = 0;
  rowCount = 0;
  /** Row j holds columns rowFirsts[j] to rowFirsts[j + 1] - 1, the first of them at lattice index rowStarts[j]. */
  rowFirsts = new Int32Array(257);
  rowStarts = new Int32Array(256);

  /** Cuts all columns of a footprint at about this spacing [mm]. */
  run(cutter: ColumnCutter, direction: Direction, footprint: Footprint, spacing: number): void {
    this.direction = direction;
    this.spacing = spacing;
    this.cellArea = spacing * spacing * ROW_HEIGHT;
    this.columnCount = 0;
    this.intervalCount = 0;
    this.rowCount = 0;
    this.hits = 0;
    this.sums.fill(0);
    this.evenSum = 0;
    this.symmetric = footprint.kind === 'wedge';
    if (footprint.kind === 'rectangle') this.runRectangle(cutter, footprint);
    else this.runWedge(cutter, footprint);
    this.rowFirsts[this.rowCount] = this.columnCount;
    this.firsts[this.columnCount] = this.intervalCount;
  }

  /** Volume under all columns [mm^3]. */
  volume(): number {
    return (this.sums[0] + this.sums[1] + this.sums[2]) * this.cellArea;
  }

  /**
   * How far the coarser lattices within this one differ from it [mm^3]: over a rectangle the standard deviation of the three
   * sets with equal (i - j) mod 3, each three times as coarse; over a wedge, where these are not alike, the difference to the
   * lattice of twice the spacing.
   */
  spread(): number {
    const { sums, cellArea } = this;
    const mean = this.volume();
    if (this.symmetric) return Math.abs(mean - 4 * this.evenSum * cellArea);
    let square = 0;
    for (let i = 0; i < 3; i++) square += (3 * sums[i] * cellArea - mean) ** 2;
    return Math.sqrt(square / 2);
  }

  /**
   * Box of the z columns that have reach, through all images of a wedge; of the chosen intervals only, if a choice is given.
   * Exact along z at the columns, to within a spacing across.
   */
  writeHitBox(symmetry: ThreeFoldMirror | null, box: Box, chosen?: (interval: number) => boolean): void {
    const { us, vs, firsts, starts, stops, columnCount } = this;
    box.fill(Number.POSITIVE_INFINITY, 0, 3);
    box.fill(Number.NEGATIVE_INFINITY, 3, 6);
    for (let column = 0; column < columnCount; column++) {
      let some = false;
      for (let i = firsts[column]; i < firsts[column + 1]; i++) {
        if (chosen && !chosen(i)) continue;
        some = true;
        if (starts[i] < box[2]) box[2] = starts[i];
        if (stops[i] > box[5]) box[5] = stops[i];
      }
      if (some) widenByImages(box, us[column], vs[column], symmetry);
    }
  }

  private runRectangle(cutter: ColumnCutter, { lowU, lowV, highU, highV }: Rectangle): void {
    const { spacing } = this;
    const rowHeight = spacing * ROW_HEIGHT;
    this.originU = lowU + OFFSET_U * spacing;
    this.originV = lowV + OFFSET_V * rowHeight;
    for (let j = 0; ; j++) {
      const v = lowV + (j + OFFSET_V) * rowHeight;
      if (v > highV) break;
      const shift = OFFSET_U + j / 2;
      const start = Math.ceil(-shift);
      const stop = Math.floor((highU - lowU) / spacing - shift);
      this.openRow(start, stop - start + 1);
      for (let i = start; i <= stop; i++) {
        this.add(cutter, lowU + (i + shift) * spacing, v, 1, (i + 2 * j) % 3, false);
      }
    }
  }

  /**
   * The kept interval that shares the longest stretch with [low, high] of the column at (u, v), among the nearest columns of a
   * lattice over a rectangle; -1 when none shares any.
   */
  intervalNear(u: number, v: number, low: number, high: number): number {
    const { rowFirsts, rowStarts, rowCount, firsts, starts, stops, spacing } = this;
    const middle = Math.round((v - this.originV) / (spacing * ROW_HEIGHT));
    let best = -1;
    let most = 0;
    for (let j = Math.max(0, middle - 1); j <= Math.min(rowCount - 1, middle + 1); j++) {
      const i = Math.round((u - this.originU) / spacing - j / 2);
      const centre = rowFirsts[j] + i - rowStarts[j];
      const from = Math.max(rowFirsts[j], centre - 1);
      const to = Math.min(rowFirsts[j + 1] - 1, centre + 1);
      for (let k = from <= to ? firsts[from] : 0; from <= to && k < firsts[to + 1]; k++) {
        const shared = Math.min(stops[k], high) - Math.max(starts[k], low);
        if (shared > most) {
          most = shared;
          best = k;
        }
      }
    }
    return best;
  }

  private runWedge(cutter: ColumnCutter, { u, v, angle, radius }: Wedge): void {
    const { spacing } = this;
    const e1 = angle + Math.PI / 6;
    const e1u = spacing * Math.cos(e1);
    const e1v = spacing * Math.sin(e1);
    const e2u = spacing * Math.cos(e1 + Math.PI / 3);
    const e2v = spacing * Math.sin(e1 + Math.PI / 3);
    const reach = (radius / spacing) ** 2;
    const rows = Math.floor(Math.sqrt(reach / 3));
    for (let j = -rows; j <= rows; j++) {
      // Between the mirror lines i = j and i = -2 j, and i^2 + i j + j^2 <= reach.
      const start = j < 0 ? -2 * j : j;
      const stop = Math.floor((-j + Math.sqrt(4 * reach - 3 * j * j)) / 2);
      this.openRow(start, stop - start + 1);
      for (let i = start; i <= stop; i++) {
        const places = i > start ? 6 : i > 0 ? 3 : 1;
        const sublattice = (((i - j) % 3) + 3) % 3;
        const weight = places * (sublattice === 0 ? 3 / 4 : 9 / 8);
        this.add(cutter, u + i * e1u + j * e2u, v + i * e1v + j * e2v, weight, sublattice, i % 2 === 0 && j % 2 === 0);
      }
    }
  }

  private add(cutter: ColumnCutter, u: number, v: number, weight: number, sublattice: number, even: boolean): void {
    const column = this.columnCount++;
    this.us[column] = u;
    this.vs[column] = v;
    this.weights[column] = weight;
    let at = this.intervalCount;
    this.firsts[column] = at;
    const count = cutter.cut(this.direction, u, v);
    if (count === 0) return;
    if (at + count > this.starts.length) this.growIntervals();
    let sum = 0;
    for (let i = 0; i < count; i++, at++) {
      const start = cutter.starts[i];
      const stop = cutter.stops[i];
      this.starts[at] = start;
      this.stops[at] = stop;
      this.startCodes[at] = cutter.startCodes[i];
      this.stopCodes[at] = cutter.stopCodes[i];
      sum += stop - start;
    }
    this.intervalCount = at;
    this.hits += weight;
    this.sums[sublattice] += weight * sum;
    if (even) this.evenSum += weight * sum;
  }

  private openRow(start: number, length: number): void {
    if (this.rowCount === this.rowStarts.length) {
      this.rowStarts = grown(this.rowStarts, 2 * this.rowStarts.length);
      this.rowFirsts = grown(this.rowFirsts, this.rowStarts.length + 1);
    }
    this.rowStarts[this.rowCount] = start;
    this.rowFirsts[this.rowCount++] = this.columnCount;
    while (this.columnCount + length > this.us.length) this.growColumns();
  }

  private growColumns(): void {
    const size = 2 * this.us.length;
    this.us = grown(this.us, size);
    this.vs = grown(this.vs, size);
    this.weights = grown(this.weights, size);
    this.firsts = grown(this.firsts, size + 1);
  }

  private growIntervals(): void {
    const size = 2 * this.starts.length;
    this.starts = grown(this.starts, size);
    this.stops = grown(this.stops, size);
    this.startCodes = grown(this.startCodes, size);
    this.stopCodes = grown(this.stopCodes, size);
  }
}

/** Widens a box by a place and, under a symmetry, by its six images. */
function widenByImages(box: Box, u: number, v: number, symmetry: ThreeFoldMirror | null): void {
  eachImage(u, v, symmetry, (imageU, imageV) => {
    if (imageU < box[0]) box[0] = imageU;
    if (imageU > box[3]) box[3] = imageU;
    if (imageV < box[1]) box[1] = imageV;
    if (imageV > box[4]) box[4] = imageV;
  });
}

/** The six images of a place under a symmetry; itself without one. */
export function eachImage(
  u: number,
  v: number,
  symmetry: ThreeFoldMirror | null,
  use: (u: number, v: number) => void,
): void {
  if (!symmetry) {
    use(u, v);
    return;
  }
  const { x, y, angle } = symmetry;
  const radius = Math.hypot(u - x, v - y);
  const from = Math.atan2(v - y, u - x);
  for (let image = 0; image < 6; image++) {
    const turned = (image >= 3 ? 2 * angle - from : from) + (image % 3) * ((2 * Math.PI) / 3);
    use(x + radius * Math.cos(turned), y + radius * Math.sin(turned));
  }
}

/** A longer array with the same beginning. */
export function grown<Kind extends Float64Array | Int32Array | Uint8Array | Uint16Array>(
  array: Kind,
  size: number,
): Kind;
export function grown(
  array: Float64Array | Int32Array | Uint8Array | Uint16Array,
  size: number,
): Float64Array | Int32Array | Uint8Array | Uint16Array {
  const copy =
    array instanceof Float64Array
      ? new Float64Array(size)
      : array instanceof Int32Array
        ? new Int32Array(size)
        : array instanceof Uint16Array
          ? new Uint16Array(size)
          : new Uint8Array(size);
  copy.set(array);
  return copy;
}
