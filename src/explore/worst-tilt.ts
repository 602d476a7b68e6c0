import { innerCones } from '../kinematics/inner-cones.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { ColumnBatch } from './column-batch.ts';
import { ANY_COSINE, leastCosine } from './standing-columns.ts';

/** Numbers kept of a leg: the base joint A first, the others at the places below. */
export const TILTED_LEG_STRIDE = 15;

/** From the tool point to the platform joint [mm], and its length in plan. */
export const P = 3;
export const P_PLAN = 6;

/** Unit mount axes from the base upward, and their lengths in plan. */
export const PLATFORM_AXIS = 7;
export const PLATFORM_AXIS_PLAN = 10;
export const BASE_AXIS = 11;
export const BASE_AXIS_PLAN = 14;

/**
 * Up to this tilt [rad] the first estimate of the worst direction will do: on 150 layouts of the standard sweep at 10 deg a second one
 * leaves the tilt reach's median error at 0.28 % and the worst at 1.6 %. At 15 to 25 deg the first alone is off by several percent.
 */
const FIRST_ESTIMATE_TILT = 0.2;

/** Estimates at larger tilts: at 25 deg a fourth and more change nothing. */
const MOST_ESTIMATES = 3;

/** Keeps a direction of no length from dividing by zero; lost beside any other. */
const NO_LENGTH = 1e-200;

/**
 * The legs of a design, and each of their limits at the tilt that tightens it most: of one size, toward any direction.
 *
 * Tilted by t toward the unit vector e in plan, a vector w becomes R w with
 * q . R w = q . w + sin t (w_z q - q_z w) . e - (1 - cos t) ((q . e)(w . e) + q_z w_z).
 * What a limit leaves to spare at a pose is made of such products, so it is least where e points against its gradient G in e.
 * G hardly depends on e while t is small: it is taken at the mean of all tilts, then at the direction it gave. There the limit is taken
 * exactly, so that an error in direction costs its square only, and never takes away what every tilt allows.
 */
export class WorstTilt {
  /** {@link TILTED_LEG_STRIDE} numbers a leg, in base axes, at the home orientation. */
  readonly legs = new Float64Array(LEG_COUNT * TILTED_LEG_STRIDE);
  sine = 0;
  cosine = 1;
  /** Squares of the longest and the shortest leg [mm^2]. */
  longest2 = 0;
  shortest2 = 0;
  /** Least cosines between a leg and its mount axes. */
  atBase = ANY_COSINE;
  atPlatform = ANY_COSINE;
  /** The highest apex of any leg at any tilt [mm]: below it some platform joint lies under its base joint. */
  floor = Number.NEGATIVE_INFINITY;
  /** Some cone leaves the vertical through its apex out, so that it may end a column at its top too. */
  leansAtPlatform = false;
  leansAtBase = false;
  private estimates = 1;

  /** Takes the legs of a design, to be tilted by an angle [rad] from the home orientation. */
  start(mechanism: Mechanism, tilt: number): void {
    const { centres, p_ToBi_P, baseAxes_B, platformAxes_P, legs: lengths, home } = mechanism;
    const { legs } = this;
    const cones = innerCones(mechanism);
    this.sine = Math.sin(tilt);
    this.cosine = Math.cos(tilt);
    this.estimates = tilt <= FIRST_ESTIMATE_TILT ? 1 : MOST_ESTIMATES;
    this.longest2 = lengths.max ** 2;
    this.shortest2 = lengths.min ** 2;
    this.atBase = leastCosine(cones.base);
    this.atPlatform = leastCosine(cones.platform);
    this.floor = Number.NEGATIVE_INFINITY;
    this.leansAtPlatform = false;
    this.leansAtBase = false;
    const R = home.R_BP;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const i = 3 * leg;
      const at = leg * TILTED_LEG_STRIDE;
      for (let axis = 0; axis < 3; axis++) {
        const row = 3 * axis;
        legs[at + axis] = centres.base[i + axis];
        legs[at + P + axis] = R[row] * p_ToBi_P[i] + R[row + 1] * p_ToBi_P[i + 1] + R[row + 2] * p_ToBi_P[i + 2];
        legs[at + PLATFORM_AXIS + axis] = -(
          R[row] * platformAxes_P[i] +
          R[row + 1] * platformAxes_P[i + 1] +
          R[row + 2] * platformAxes_P[i + 2]
        );
        legs[at + BASE_AXIS + axis] = baseAxes_B[i + axis];
      }
      const arm = this.writePlanLength(at + P);
      const lean = this.writePlanLength(at + PLATFORM_AXIS);
      this.writePlanLength(at + BASE_AXIS);
      this.floor = Math.max(this.floor, legs[at + 2] - this.cosine * legs[at + P + 2] + this.sine * arm);
      const lowest = this.cosine * legs[at + PLATFORM_AXIS + 2] - this.sine * lean;
      if (lowest <= this.atPlatform) this.leansAtPlatform = true;
      if (legs[at + BASE_AXIS + 2] <= this.atBase) this.leansAtBase = true;
    }
  }

  private writePlanLength(at: number): number {
    const { legs } = this;
    const length = Math.sqrt(legs[at] * legs[at] + legs[at + 1] * legs[at + 1]);
    legs[at + 3] = length;
    return length;
  }

  /**
   * Lowers the top of a column to where the leg is longest, or raises its bottom to where the leg is shortest.
   * @param gx gradient of the squared length in the direction of the tilt there, up to a factor
   */
  cutBySphere(
    { x, y, top, bottom }: ColumnBatch,
    at: number,
    column: number,
    longest: boolean,
    gx: number,
    gy: number,
  ): void {
    const { legs, sine, cosine } = this;
    const end = longest ? top : bottom;
    const px = legs[at + P];
    const py = legs[at + P + 1];
    const pz = legs[at + P + 2];
    // toward what makes the leg longer, or away from it
    const inverse = (longest ? 1 : -1) / Math.sqrt(gx * gx + gy * gy + NO_LENGTH);
    const ex = gx * inverse;
    const ey = gy * inverse;
    const along = px * ex + py * ey;
    const by = sine * pz - (1 - cosine) * along;
    const dx = x[column] - legs[at] + px + by * ex;
    const dy = y[column] - legs[at + 1] + py + by * ey;
    const w = end[column] - legs[at + 2] + cosine * pz - sine * along;
    const q = (longest ? this.longest2 : this.shortest2) - dx * dx - dy * dy;
    if (longest) {
      if (w > 0 && q < w * w) top[column] += (q > 0 ? Math.sqrt(q) : 0) - w;
    } else if (q > w * w) bottom[column] += Math.sqrt(q) - w;
  }

  /**
   * Cuts a column to the cone at one end of a leg.
   * @param end the column's tops or bottoms: the tilt that is worst there is taken
   * @param axis {@link PLATFORM_AXIS}, which turns with the platform, or {@link BASE_AXIS}
   * @param gx gradient in the direction of the tilt of what the cone leaves to spare there, at the mean of all tilts, up to a factor
   */
  cutByCone(
    { x, y, top, bottom }: ColumnBatch,
    at: number,
    column: number,
    end: Float64Array,
    axis: number,
    gx: number,
    gy: number,
  ): void {
    const { legs, sine, cosine } = this;
    const turns = axis === PLATFORM_AXIS;
    const k = turns ? this.atPlatform : this.atBase;
    if (k === ANY_COSINE) return;
    const rise = 1 - cosine;
    const ux = x[column] - legs[at];
    const uy = y[column] - legs[at + 1];
    const uz = end[column] - legs[at + 2];
    const px = legs[at + P];
    const py = legs[at + P + 1];
    const pz = legs[at + P + 2];
    let ax = legs[at + axis];
    let ay = legs[at + axis + 1];
    let az = legs[at + axis + 2];
    const mx = ux + px;
    const my = uy + py;
    const mz = uz + cosine * pz;
    let inverse = -1 / Math.sqrt(gx * gx + gy * gy + NO_LENGTH);
    let ex = gx * inverse;
    let ey = gy * inverse;
    let arm = px * ex + py * ey;
    let lean = ax * ex + ay * ey;
    for (let estimate = 1; estimate < this.estimates; estimate++) {
      // to spare: a . v - k |v|, v = u + R p; a . v is q . R w and a constant, with q, w = u, a or, where the axis stands still, a, p
      const qx = turns ? ux : px;
      const qy = turns ? uy : py;
      const qz = turns ? uz : pz;
      const turning = turns ? -sine : sine;
      const aside = sine * pz - rise * arm;
      const vx = mx + aside * ex;
      const vy = my + aside * ey;
      const vz = mz - sine * arm;
      const pull = k / Math.sqrt(vx * vx + vy * vy + vz * vz);
      const u = ux * ex + uy * ey;
      const q = qx * ex + qy * ey;
      const hx =
        turning * (az * qx - qz * ax) +
        rise * (qx * lean + ax * q) +
        pull * (sine * (pz * ux - uz * px) - rise * (ux * arm + px * u));
      const hy =
        turning * (az * qy - qz * ay) +
        rise * (qy * lean + ay * q) +
        pull * (sine * (pz * uy - uz * py) - rise * (uy * arm + py * u));
      inverse = 1 / Math.sqrt(hx * hx + hy * hy + NO_LENGTH);
      ex = hx * inverse;
      ey = hy * inverse;
      arm = px * ex + py * ey;
      lean = ax * ex + ay * ey;
    }
    const aside = sine * pz - rise * arm;
    const vx = mx + aside * ex;
    const vy = my + aside * ey;
    const vz = mz - sine * arm;
    if (turns) {
      const turned = sine * az - rise * lean;
      ax += turned * ex;
      ay += turned * ey;
      az = cosine * az - sine * lean;
    }
    const d2 = vx * vx + vy * vy;
    const s = vx * ax + vy * ay;
    const onAxis = s + vz * az;
    if (onAxis > 0 && onAxis * onAxis >= k * k * (d2 + vz * vz)) return;
    // the walls of the cone over the column, as in the sets of cones of one orientation
    const apex = end[column] - vz;
    const m = az * az - k * k;
    const q = s * s + m * d2;
    if (az > k) {
      const wall = apex + (k * Math.sqrt(q) - s * az) / m;
      if (wall > bottom[column]) bottom[column] = wall;
      return;
    }
    const root = k * Math.sqrt(Math.max(0, q));
    const high = s > 0 && q > 0 ? apex - (root + s * az) / m : apex;
    const low = apex + (root - s * az) / m;
    if (high < top[column]) top[column] = high;
    if (low > bottom[column]) bottom[column] = low;
  }
}
