import { LEG_COUNT } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { ColumnBatch } from './column-batch.ts';
import type { ColumnCutter, StandingColumns } from './standing-columns.ts';
import {
  BASE_AXIS,
  BASE_AXIS_PLAN,
  P,
  P_PLAN,
  PLATFORM_AXIS,
  PLATFORM_AXIS_PLAN,
  TILTED_LEG_STRIDE,
  WorstTilt,
} from './worst-tilt.ts';

/**
 * Columns through the reach at the home orientation and at every tilt of it by one angle, toward any direction in plan.
 *
 * For each limit of a leg the change over all directions is bounded first, by the length of its gradient and the largest second-order
 * term ({@link WorstTilt}); only where that leaves nothing to spare at a column's end the worst tilt is taken and the end moved.
 * Where that moves an end far, the worst tilt there is a little different, which costs of second order too.
 */
export class TiltedColumns implements ColumnCutter {
  private readonly worst = new WorstTilt();
  /** Where the legs' numbers start, those first that are nearest to a platform cone, or longest in plan; and by how much. */
  private readonly byCone = new Int32Array(LEG_COUNT);
  private readonly byLength = new Int32Array(LEG_COUNT);
  private readonly doubts = new Float64Array(LEG_COUNT);
  private readonly lengths = new Float64Array(LEG_COUNT);

  /** @param level holds the design at the home orientation whenever columns are cut */
  constructor(private readonly level: StandingColumns) {}

  /** Longest leg [mm]. */
  get longest(): number {
    return this.level.longest;
  }

  /** Takes the design that `level` holds, and how far it tilts [rad]. */
  start(mechanism: Mechanism, tilt: number): void {
    this.worst.start(mechanism, tilt);
  }

  /** Cuts every column of a batch to what is allowed; top minus bottom is continuous as in {@link StandingColumns.cut}. */
  cut(batch: ColumnBatch): void {
    this.level.cut(batch);
    const { worst } = this;
    if (worst.sine === 0) return;
    const { bottom, top, count } = batch;
    for (let column = 0; column < count; column++) {
      if (worst.floor > bottom[column]) bottom[column] = worst.floor;
    }
    this.sortLegs(batch);
    const { byCone, byLength } = this;
    for (let n = 0; n < LEG_COUNT; n++) this.cutByCones(batch, byCone[n], bottom, true, true);
    for (let n = 0; n < LEG_COUNT; n++) this.cutByLength(batch, byLength[n], true);
    for (let n = LEG_COUNT - 1; n >= 0; n--) this.cutByLength(batch, byLength[n], false);
    const { leansAtPlatform, leansAtBase } = worst;
    if (!leansAtPlatform && !leansAtBase) return;
    for (let n = 0; n < LEG_COUNT; n++) this.cutByCones(batch, byCone[n], top, leansAtPlatform, leansAtBase);
  }

  /**
   * Puts the legs first whose limits bind most at the mean of a batch's columns: once they have moved an end, what the others
   * leave to spare is seldom in doubt.
   */
  private sortLegs({ x, y, bottom, count }: ColumnBatch): void {
    const { byCone, byLength, doubts, lengths } = this;
    const { legs } = this.worst;
    let sumX = 0;
    let sumY = 0;
    let sumZ = 0;
    for (let column = 0; column < count; column++) {
      sumX += x[column];
      sumY += y[column];
      sumZ += bottom[column];
    }
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const at = leg * TILTED_LEG_STRIDE;
      const ux = sumX / count - legs[at];
      const uy = sumY / count - legs[at + 1];
      const uz = sumZ / count - legs[at + 2];
      const vx = ux + legs[at + P];
      const vy = uy + legs[at + P + 1];
      insert(byLength, lengths, leg, at, vx * vx + vy * vy);
      insert(byCone, doubts, leg, at, this.doubt(at, ux, uy, uz));
    }
  }

  /** What the cone at a leg's platform joint leaves to spare at its worst tilt, to first order, with the other sign [mm]. */
  private doubt(at: number, ux: number, uy: number, uz: number): number {
    const { legs, sine, cosine, atPlatform } = this.worst;
    const px = legs[at + P];
    const py = legs[at + P + 1];
    const pz = legs[at + P + 2];
    const ax = legs[at + PLATFORM_AXIS];
    const ay = legs[at + PLATFORM_AXIS + 1];
    const az = legs[at + PLATFORM_AXIS + 2];
    const vx = ux + px;
    const vy = uy + py;
    const vz = uz + cosine * pz;
    const v = Math.sqrt(vx * vx + vy * vy + vz * vz);
    const pull = atPlatform / v;
    const Gx = az * ux - uz * ax - pull * (pz * ux - uz * px);
    const Gy = az * uy - uz * ay - pull * (pz * uy - uz * py);
    return atPlatform * v - vx * ax - vy * ay - vz * az + sine * Math.sqrt(Gx * Gx + Gy * Gy);
  }

  /**
   * To the cones at both ends of a leg, or at one of them.
   * @param end the batch's bottoms, or its tops, which leave out columns of which nothing is left
   */
  private cutByCones(batch: ColumnBatch, at: number, end: Float64Array, platform: boolean, base: boolean): void {
    const { worst } = this;
    const { legs, sine, cosine, atPlatform, atBase } = worst;
    const { x, y, top, bottom, count } = batch;
    const atTop = end === top;
    const sine2 = sine * sine;
    const rise = 1 - cosine;
    const x0 = legs[at];
    const y0 = legs[at + 1];
    const z0 = legs[at + 2];
    const px = legs[at + P];
    const py = legs[at + P + 1];
    const pz = legs[at + P + 2];
    // second-order terms: what the products of plan lengths can take at most
    const pPlan = rise * legs[at + P_PLAN];
    const p2 = px * px + py * py + pz * pz;
    const ax = legs[at + PLATFORM_AXIS];
    const ay = legs[at + PLATFORM_AXIS + 1];
    const az = legs[at + PLATFORM_AXIS + 2];
    const aPlan = rise * legs[at + PLATFORM_AXIS_PLAN];
    const pa = px * ax + py * ay + pz * az;
    const bx = legs[at + BASE_AXIS];
    const by = legs[at + BASE_AXIS + 1];
    const bz = legs[at + BASE_AXIS + 2];
    const pb = px * bx + py * by + cosine * pz * bz - pPlan * legs[at + BASE_AXIS_PLAN];
    const Bx = pz * bx - bz * px;
    const By = pz * by - bz * py;
    for (let column = 0; column < count; column++) {
      if (atTop && top[column] <= bottom[column]) continue;
      const ux = x[column] - x0;
      const uy = y[column] - y0;
      const uz = end[column] - z0;
      // everything times |v|, which spares its inverse
      const v2 = ux * ux + uy * uy + uz * uz + p2 + 2 * (ux * px + uy * py + cosine * uz * pz);
      const v = Math.sqrt(v2);
      const plan = Math.abs(ux) + Math.abs(uy);
      const Fx = pz * ux - uz * px;
      const Fy = pz * uy - uz * py;
      if (platform) {
        const Gx = v * (az * ux - uz * ax) - atPlatform * Fx;
        const Gy = v * (az * uy - uz * ay) - atPlatform * Fy;
        const along = ux * ax + uy * ay + cosine * uz * az + pa;
        const spare = v * (along - plan * aPlan) - atPlatform * (v2 + plan * pPlan);
        if (!(spare > 0 && spare * spare >= sine2 * (Gx * Gx + Gy * Gy)))
          worst.cutByCone(batch, at, column, end, PLATFORM_AXIS, Gx, Gy);
      }
      if (!base) continue;
      const Hx = v * Bx - atBase * Fx;
      const Hy = v * By - atBase * Fy;
      const spare = v * (ux * bx + uy * by + uz * bz + pb) - atBase * (v2 + plan * pPlan);
      if (!(spare > 0 && spare * spare >= sine2 * (Hx * Hx + Hy * Hy)))
        worst.cutByCone(batch, at, column, end, BASE_AXIS, Hx, Hy);
    }
  }

  /** To the longest length of a leg at the tops, or to the shortest one at the bottoms. */
  private cutByLength(batch: ColumnBatch, at: number, longest: boolean): void {
    const { worst } = this;
    const { legs, sine, cosine, longest2, shortest2 } = worst;
    const { x, y, top, bottom, count } = batch;
    const end = longest ? top : bottom;
    const sign = longest ? -1 : 1;
    const steep = 4 * sine * sine;
    const x0 = legs[at];
    const y0 = legs[at + 1];
    const z0 = legs[at + 2];
    const px = legs[at + P];
    const py = legs[at + P + 1];
    const pz = legs[at + P + 2];
    const known = px * px + py * py + pz * pz - (longest ? longest2 : shortest2);
    const second = 2 * (1 - cosine) * legs[at + P_PLAN];
    for (let column = 0; column < count; column++) {
      const ux = x[column] - x0;
      const uy = y[column] - y0;
      const uz = end[column] - z0;
      const Fx = pz * ux - uz * px;
      const Fy = pz * uy - uz * py;
      const over = known + ux * ux + uy * uy + 2 * (ux * px + uy * py) + uz * (uz + 2 * cosine * pz);
      const spare = sign * over - second * (Math.abs(ux) + Math.abs(uy));
      if (!(spare > 0 && spare * spare >= steep * (Fx * Fx + Fy * Fy)))
        worst.cutBySphere(batch, at, column, longest, Fx, Fy);
    }
  }
}

/** Puts a leg into a list kept from the largest value down; the lists hold `count` before. */
function insert(order: Int32Array, values: Float64Array, count: number, leg: number, value: number): void {
  let place = count;
  for (; place > 0 && values[place - 1] < value; place--) {
    values[place] = values[place - 1];
    order[place] = order[place - 1];
  }
  values[place] = value;
  order[place] = leg;
}
