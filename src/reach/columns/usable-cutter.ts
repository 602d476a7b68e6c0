import { type QuantityName, senseOf } from '../../terms/quantities.ts';
import { type FieldPoint, QUANTITY_INDEX } from '../field/field-point.ts';
import { MOST_INTERVALS } from './column.ts';
import type { ColumnCutter, Direction } from './column-cutter.ts';
import { ACROSS } from './column-cutter.ts';
import { CODE_COUNT } from './constraints.ts';
import type { HomeParts } from './home-part.ts';

/** A quantity must be at least this (where more is better) or at most this (where less is), in its inner unit. */
export interface Floor {
  readonly quantity: QuantityName;
  readonly value: number;
}

/** Halvings of the stretch in which a floor is crossed: 2^-20 of the step between two samples. */
const BISECTIONS = 20;

/** More intervals than this in one column are joined to the last; the column's own limits give at most that many. */
const ROOM = MOST_INTERVALS;

/**
 * Cuts columns by the legs' limits, and then by floors and by the sign of det J: what is left keeps all of them. The limits
 * are exact; floors are sampled along each stretch every `step` and their crossings bisected, so a layer thinner than
 * the step can be missed.
 */
export class UsableCutter implements ColumnCutter {
  readonly starts = new Float64Array(ROOM);
  readonly stops = new Float64Array(ROOM);
  /** Codes of the legs' limits, then CODE_COUNT + index of the floor, then CODE_COUNT + number of floors for a singular pose. */
  readonly startCodes = new Uint8Array(ROOM);
  readonly stopCodes = new Uint8Array(ROOM);
  /** Whether columns add to `length`, `met` and `best`: they have to lie evenly over the reach then. */
  counting = false;
  /** Length of the columns in the part of the reach that counts, and how much of it met each floor; the last entry is for the sign of det J. */
  length = 0;
  readonly met: Float64Array;
  /** Best value of each floor's quantity among the samples. */
  readonly best: Float64Array;

  private readonly inner: ColumnCutter;
  private readonly point: FieldPoint;
  private readonly floors: readonly Floor[];
  private readonly places: readonly number[];
  /** 1 where more is better, -1 where less is. */
  private readonly senses: readonly number[];
  private readonly sign: number;
  private readonly step: number;
  private readonly parts: HomeParts | null;
  private readonly at: [number, number, number] = [0, 0, 0];
  /** Interval of the inner cutter that an end belongs to; -1 for one made by a floor. */
  private readonly startOwners = new Int32Array(ROOM);
  private readonly stopOwners = new Int32Array(ROOM);
  private count = 0;

  /**
   * @param sign of det J that counts as the home side; 0 when any will do
   * @param parts samples count in the part of the reach connected with home; null: everywhere. Known for columns along z
   */
  constructor(
    inner: ColumnCutter,
    point: FieldPoint,
    floors: readonly Floor[],
    sign: number,
    step: number,
    parts: HomeParts | null,
  ) {
    this.inner = inner;
    this.point = point;
    this.floors = floors;
    this.places = floors.map(({ quantity }) => QUANTITY_INDEX[quantity]);
    this.senses = floors.map(({ quantity }) => senseOf(quantity));
    this.sign = sign;
    this.step = step;
    this.parts = parts;
    this.met = new Float64Array(floors.length + 1);
    this.best = Float64Array.from(this.senses, (sense) => -sense * Number.POSITIVE_INFINITY);
  }

  cut(direction: Direction, u: number, v: number): number {
    const { inner, at } = this;
    this.count = 0;
    const stretches = inner.cut(direction, u, v);
    at[ACROSS[direction][0]] = u;
    at[ACROSS[direction][1]] = v;
    for (let k = 0; k < stretches; k++) this.cutStretch(direction, k);
    return this.count;
  }

  startSlope(interval: number): number {
    const owner = this.startOwners[interval];
    // the surface of a floor has no closed form; facing the column is the plain guess
    return owner < 0 ? 1 : this.inner.startSlope(owner);
  }

  stopSlope(interval: number): number {
    const owner = this.stopOwners[interval];
    return owner < 0 ? 1 : this.inner.stopSlope(owner);
  }

  /**
   * Index of the first floor not met at a place along the column; -1 when all are.
   * @param weight length of the column that the place stands for; 0 where it does not count
   */
  private failing(direction: Direction, along: number, weight: number): number {
    const { at, point, floors, places, senses, sign } = this;
    at[direction] = along;
    point.judge(at[0], at[1], at[2]);
    let first = -1;
    this.length += weight;
    for (let k = 0; k < floors.length; k++) {
      const value = point.values[places[k]];
      const met = senses[k] * (value - floors[k].value) >= 0;
      if (!met && first < 0) first = k;
      if (weight === 0) continue;
      if (met) this.met[k] += weight;
      if (senses[k] * (value - this.best[k]) > 0) this.best[k] = value;
    }
    const sameSide = sign === 0 || point.determinant * sign > 0;
    if (sameSide) this.met[floors.length] += weight;
    return first < 0 && !sameSide ? floors.length : first;
  }

  private cutStretch(direction: Direction, k: number): void {
    const { inner, step, at, parts } = this;
    const start = inner.starts[k];
    const stop = inner.stops[k];
    const pieces = Math.max(1, Math.ceil((stop - start) / step));
    let before = start;
    const counted = this.counting && (direction !== 2 || !parts || parts.holds(at[0], at[1], start, stop));
    // the ends stand for half as much as the places between them
    const weight = counted ? (stop - start) / pieces : 0;
    let failedBefore = this.failing(direction, start, weight / 2);
    if (failedBefore < 0) this.open(start, inner.startCodes[k], k);
    for (let n = 1; n <= pieces; n++) {
      const here = n === pieces ? stop : start + (n / pieces) * (stop - start);
      const failed = this.failing(direction, here, n === pieces ? weight / 2 : weight);
      if (failedBefore < 0 !== failed < 0) {
        const edge = this.crossing(direction, before, here, failed < 0);
        if (failed < 0) this.open(edge, CODE_COUNT + failedBefore, -1);
        else this.close(edge, CODE_COUNT + failed, -1);
      }
      before = here;
      failedBefore = failed;
    }
    if (failedBefore < 0) this.close(stop, inner.stopCodes[k], k);
  }

  /** Where the usable part begins (`rising`) or ends between two places along the column, on its usable side. */
  private crossing(direction: Direction, low: number, high: number, rising: boolean): number {
    let a = low;
    let b = high;
    for (let n = 0; n < BISECTIONS; n++) {
      const middle = (a + b) / 2;
      if (this.failing(direction, middle, 0) < 0 === rising) b = middle;
      else a = middle;
    }
    return rising ? b : a;
  }

  private open(along: number, code: number, owner: number): void {
    if (this.count === ROOM) {
      // no room for another: the last interval runs on to the end of this one
      this.count--;
      return;
    }
    this.starts[this.count] = along;
    this.startCodes[this.count] = code;
    this.startOwners[this.count] = owner;
  }

  private close(along: number, code: number, owner: number): void {
    this.stops[this.count] = along;
    this.stopCodes[this.count] = code;
    this.stopOwners[this.count] = owner;
    this.count++;
  }
}
