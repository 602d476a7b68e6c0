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

/** End of the data of all legs. */
const LEGS_END = LEG_COUNT * TILTED_LEG_STRIDE;

/**
 * Columns through the reach at the home orientation and at every tilt of it by one angle, toward any direction in plan.
 *
 * For each limit of a leg the change over all directions is bounded first, by the length of its gradient and the largest second-order
 * term ({@link WorstTilt}); only where that leaves nothing to spare at a column's end the worst tilt is taken and the end moved.
 * Where that moves an end far, the worst tilt there is a little different, which costs of second order too.
 */
export class TiltedColumns implements ColumnCutter {
  private readonly worst = new WorstTilt();

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
    for (let at = 0; at < LEGS_END; at += TILTED_LEG_STRIDE) this.cutByCones(batch, at, bottom);
    for (let at = 0; at < LEGS_END; at += TILTED_LEG_STRIDE) this.cutBySpheres(batch, at);
    if (!worst.leans) return;
    for (let at = 0; at < LEGS_END; at += TILTED_LEG_STRIDE) this.cutByCones(batch, at, top);
  }

  /**
   * To the cones at both ends of a leg.
   * @param end the batch's bottoms, or its tops, which leave out columns of which nothing is left
   */
  private cutByCones(batch: ColumnBatch, at: number, end: Float64Array): void {
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
      const plan2 = ux * ux + uy * uy;
      const plan = Math.sqrt(plan2);
      const v = Math.sqrt(plan2 + uz * uz + p2 + 2 * (ux * px + uy * py + cosine * uz * pz));
      const inverse = 1 / v;
      const Fx = pz * ux - uz * px;
      const Fy = pz * uy - uz * py;
      const pull = atPlatform * inverse;
      const Gx = az * ux - uz * ax - pull * Fx;
      const Gy = az * uy - uz * ay - pull * Fy;
      const spare = ux * ax + uy * ay + cosine * uz * az + pa - atPlatform * v - plan * (aPlan + pull * pPlan);
      if (!(spare > 0 && spare * spare >= sine2 * (Gx * Gx + Gy * Gy)))
        worst.cutByCone(batch, at, column, end, PLATFORM_AXIS);
      const hold = atBase * inverse;
      const Hx = Bx - hold * Fx;
      const Hy = By - hold * Fy;
      const left = ux * bx + uy * by + uz * bz + pb - atBase * v - hold * plan * pPlan;
      if (!(left > 0 && left * left >= sine2 * (Hx * Hx + Hy * Hy))) worst.cutByCone(batch, at, column, end, BASE_AXIS);
    }
  }

  /** To the longest and the shortest length of a leg. */
  private cutBySpheres(batch: ColumnBatch, at: number): void {
    const { worst } = this;
    const { legs, sine, cosine, longest2, shortest2 } = worst;
    const { x, y, top, bottom, count } = batch;
    const steep = 4 * sine * sine;
    const x0 = legs[at];
    const y0 = legs[at + 1];
    const z0 = legs[at + 2];
    const px = legs[at + P];
    const py = legs[at + P + 1];
    const pz = legs[at + P + 2];
    const p2 = px * px + py * py + pz * pz;
    const second = 2 * (1 - cosine) * legs[at + P_PLAN];
    for (let column = 0; column < count; column++) {
      const ux = x[column] - x0;
      const uy = y[column] - y0;
      const plan2 = ux * ux + uy * uy;
      const slack = second * Math.sqrt(plan2);
      const known = plan2 + p2 + 2 * (ux * px + uy * py);
      const high = top[column] - z0;
      const Fx = pz * ux - high * px;
      const Fy = pz * uy - high * py;
      const above = longest2 - known - high * (high + 2 * cosine * pz) - slack;
      if (!(above > 0 && above * above >= steep * (Fx * Fx + Fy * Fy))) worst.cutBySphere(batch, at, column, true);
      const low = bottom[column] - z0;
      const Ex = pz * ux - low * px;
      const Ey = pz * uy - low * py;
      const below = known + low * (low + 2 * cosine * pz) - shortest2 - slack;
      if (!(below > 0 && below * below >= steep * (Ex * Ex + Ey * Ey))) worst.cutBySphere(batch, at, column, false);
    }
  }
}
