import type { Box } from './bounding-box.ts';
import { ACROSS, type ColumnCutter, type Direction } from './column-cutter.ts';
import { CODE_COUNT, type Constraints, writeLimitNormal, writeMargins } from './constraints.ts';

/** The climb ends when its steps are this share of the first; the box is then exact to about as much of the lattice spacing. */
const STEP_FLOOR = 1e-3;

/** A way up that gains less than this share of its length counts as none. */
const LEAST_GAIN = 1e-3;

/** Limits nearer than this share of a step count as in the way. */
const NEARNESS = 0.5;

const MOST_IN_THE_WAY = 64;
const PROJECTION_SWEEPS = 40;
const ROUNDS = 60;

/** What a search for the ends of the reach works on. */
export interface Searched {
  readonly sets: readonly Constraints[];
  readonly cutter: ColumnCutter;
}

/** A stretch of a column: its place and its ends. */
export interface Stretch {
  u: number;
  v: number;
  start: number;
  stop: number;
}

/** Working arrays of {@link Climber}: normals of the limits in the way, and their multipliers. */
export class Climber {
  private readonly normals = new Float64Array(3 * MOST_IN_THE_WAY);
  private readonly multipliers = new Float64Array(MOST_IN_THE_WAY);
  private readonly margins = new Float64Array(CODE_COUNT);
  private readonly point = new Float64Array(3);
  private readonly way = new Float64Array(3);

  /**
   * Moves from the end of a column's stretch to where its connected part reaches farthest along +axis (`sign` 1) or -axis (-1):
   * repeatedly a step the steepest way that slides along all limits close by, then onto the end of the column there, always
   * within a stretch that overlaps the one before.
   * @param step first step [mm]
   * @returns the farthest place found [mm], at least as far as the start; a local extreme
   */
  farthest(searched: Searched, direction: Direction, sign: 1 | -1, from: Stretch, step: number): number {
    const { cutter } = searched;
    const { point, way } = this;
    const [uAxis, vAxis] = ACROSS[direction];
    let { start, stop } = from;
    let length = step;
    point[uAxis] = from.u;
    point[vAxis] = from.v;
    point[direction] = sign > 0 ? stop : start;
    for (let round = 0; round < ROUNDS && length > STEP_FLOOR * step; round++) {
      const gain = this.wayUp(searched.sets, direction, sign, NEARNESS * length);
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
      if (!moved) length /= 2;
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

  /** Widens a box to the farthest places found from a point inside the reach; false when the point is not inside. */
  widenFrom(searched: Searched, point: readonly number[], step: number, box: Box): boolean {
    const { cutter } = searched;
    for (const direction of [0, 1, 2] as const) {
      const [uAxis, vAxis] = ACROSS[direction];
      const u = point[uAxis];
      const v = point[vAxis];
      const count = cutter.cut(direction, u, v);
      let stretch: Stretch | null = null;
      for (let i = 0; i < count; i++) {
        const start = cutter.starts[i];
        const stop = cutter.stops[i];
        if (start <= point[direction] && point[direction] <= stop) stretch = { u, v, start, stop };
      }
      if (!stretch) return false;
      box[direction] = Math.min(box[direction], this.farthest(searched, direction, -1, stretch, step));
      box[3 + direction] = Math.max(box[3 + direction], this.farthest(searched, direction, 1, stretch, step));
    }
    return true;
  }
}
