import { ACROSS, type ColumnCutter, type Direction } from './column-cutter.ts';
import { CODE_COUNT, type Constraints, writeLimitNormal, writeMargins } from './constraints.ts';

/** A step that succeeds makes the next one so much longer, up to the first: curved ridges ask for short steps in one place only. */
const LONGER = 1.7;

/** A way up that gains less than this share of its length counts as none. */
const LEAST_GAIN = 1e-3;

/** Limits nearer than this share of a step count as in the way. */
const NEARNESS = 0.5;

/** A start may lie outside of its column by rounding: by this share of the first step. */
const SAME_PLACE = 1e-9;

const MOST_IN_THE_WAY = 64;
const PROJECTION_SWEEPS = 40;
const ROUNDS = 300;

/** What a search for the ends of the reach works on. */
export interface Searched {
  readonly sets: readonly Constraints[];
  readonly cutter: ColumnCutter;
}

/** Working arrays of {@link Climber}: normals of the limits in the way, and their multipliers. */
export class Climber {
  private readonly normals = new Float64Array(3 * MOST_IN_THE_WAY);
  private readonly multipliers = new Float64Array(MOST_IN_THE_WAY);
  private readonly margins = new Float64Array(CODE_COUNT);
  /** Where the last climb ended. */
  readonly point = new Float64Array(3);
  private readonly way = new Float64Array(3);

  /**
   * Moves from a place inside the reach to where its connected part reaches farthest along +axis (`sign` 1) or -axis (-1): first
   * to the end of the column through it, then repeatedly a step the steepest way that slides along all limits close by, and onto
   * the end of the column there, always within a stretch that overlaps the one before.
   * @param step first step [mm]
   * @param floor share of the first step at which shorter steps end the climb
   * @returns the farthest place found [mm], at least as far as the start: a local extreme; NaN where the start is not inside
   */
  farthest(
    { sets, cutter }: Searched,
    direction: Direction,
    sign: 1 | -1,
    from: ArrayLike<number>,
    step: number,
    floor: number,
  ): number {
    const { point, way } = this;
    const [uAxis, vAxis] = ACROSS[direction];
    let start = Number.NaN;
    let stop = Number.NaN;
    let length = step;
    const slack = SAME_PLACE * step;
    const through = cutter.cut(direction, from[uAxis], from[vAxis]);
    for (let i = 0; i < through; i++) {
      if (cutter.starts[i] - slack > from[direction] || from[direction] > cutter.stops[i] + slack) continue;
      start = cutter.starts[i];
      stop = cutter.stops[i];
    }
    if (Number.isNaN(start)) return Number.NaN;
    point[uAxis] = from[uAxis];
    point[vAxis] = from[vAxis];
    point[direction] = sign > 0 ? stop : start;
    for (let round = 0; round < ROUNDS && length > floor * step; round++) {
      const gain = this.wayUp(sets, direction, sign, NEARNESS * length);
      let moved = false;
      if (gain > LEAST_GAIN) {
        const u = point[uAxis] + length * way[uAxis];
        const v = point[vAxis] + length * way[vAxis];
        const count = cutter.cut(direction, u, v);
        for (let i = 0; i < count; i++) {
          const low = cutter.starts[i];
          const high = cutter.stops[i];
          if (low >= stop || high <= start || (sign > 0 ? high <= stop : low >= start)) continue;
          start = low;
          stop = high;
          point[uAxis] = u;
          point[vAxis] = v;
          point[direction] = sign > 0 ? high : low;
          moved = true;
          break;
        }
      }
      length = moved ? Math.min(LONGER * length, step) : length / 2;
    }
    return point[direction];
  }

  /**
   * The steepest way: the axis less its push against the limits in the way, that is, its nearest vector w with n_i . w <= 0 for
   * their outward normals n_i (C. Hildreth's method of cyclic projections: from memory). Returns the climb per unit length.
   */
  private wayUp(sets: readonly Constraints[], direction: Direction, sign: 1 | -1, near: number): number {
    const { normals, multipliers, way } = this;
    const count = this.gather(sets, near);
    way.fill(0);
    way[direction] = sign;
    multipliers.fill(0, 0, count);
    for (let sweep = 0; sweep < PROJECTION_SWEEPS; sweep++) {
      let change = 0;
      for (let i = 0; i < count; i++) {
        const at = 3 * i;
        const into = normals[at] * way[0] + normals[at + 1] * way[1] + normals[at + 2] * way[2];
        const multiplier = Math.max(0, multipliers[i] + into);
        const more = multiplier - multipliers[i];
        if (more === 0) continue;
        multipliers[i] = multiplier;
        for (let axis = 0; axis < 3; axis++) way[axis] -= more * normals[at + axis];
        change = Math.max(change, Math.abs(more));
      }
      if (change < LEAST_GAIN) break;
    }
    const size = Math.hypot(way[0], way[1], way[2]);
    if (size < LEAST_GAIN) return 0;
    for (let axis = 0; axis < 3; axis++) way[axis] /= size;
    return sign * way[direction];
  }

  /** Outward normals of all limits with less margin than `near` at the present point. */
  private gather(sets: readonly Constraints[], near: number): number {
    const { point, normals, margins } = this;
    let count = 0;
    for (const set of sets) {
      writeMargins(set, point[0], point[1], point[2], margins);
      for (let code = 0; code < CODE_COUNT && count < MOST_IN_THE_WAY; code++) {
        if (margins[code] > near) continue;
        writeLimitNormal(set, code, point, normals, 3 * count);
        count++;
      }
    }
    return count;
  }
}
