import { LEG_COUNT } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Mat3 } from '../math/rotation.ts';

/**
 * Vertical columns through the reach of a standing platform: tool points at given orientations where every platform joint is
 * above its base joint, every leg is between its shortest and longest length and every joint within its cone.
 *
 * With the orientation fixed each limit is a sphere or a cone whose apex is c_i = A_i - R b_i. Above the apex each of them
 * cuts a column in one piece, so the allowed part of a column is [highest bottom, lowest top]: one comparison a limit.
 * Legs of several orientations may be loaded together; the column is then what all of them allow.
 */
export class StandingColumns {
  /** Lower and upper end of the column last asked for [mm]; meaningful when the gap was positive. */
  bottom = 0;
  top = 0;
  /** Apexes loaded so far. */
  count = 0;

  readonly apexX: Float64Array;
  readonly apexY: Float64Array;
  private readonly apexZ: Float64Array;
  private longest2 = 0;
  private shortest2 = 0;

  /** Cones: apex position, axis, squared cosine, and 1 / (axisZ^2 - cosine^2). */
  private cones = 0;
  private readonly coneX: Float64Array;
  private readonly coneY: Float64Array;
  private readonly coneZ: Float64Array;
  private readonly axisX: Float64Array;
  private readonly axisY: Float64Array;
  private readonly axisZ: Float64Array;
  private readonly cosine: Float64Array;
  private readonly lead: Float64Array;

  /** @param orientations how many may be loaded at once */
  constructor(orientations: number) {
    const legs = orientations * LEG_COUNT;
    this.apexX = new Float64Array(legs);
    this.apexY = new Float64Array(legs);
    this.apexZ = new Float64Array(legs);
    this.coneX = new Float64Array(2 * legs);
    this.coneY = new Float64Array(2 * legs);
    this.coneZ = new Float64Array(2 * legs);
    this.axisX = new Float64Array(2 * legs);
    this.axisY = new Float64Array(2 * legs);
    this.axisZ = new Float64Array(2 * legs);
    this.cosine = new Float64Array(2 * legs);
    this.lead = new Float64Array(2 * legs);
  }

  /** Longest leg [mm]. */
  get longest(): number {
    return Math.sqrt(this.longest2);
  }

  /** Forgets all orientations and takes the leg lengths of a design. */
  start(mechanism: Mechanism): void {
    this.count = 0;
    this.cones = 0;
    this.shortest2 = mechanism.legs.min ** 2;
    this.longest2 = mechanism.legs.max ** 2;
  }

  /** Adds the six legs of a design at an orientation. */
  add(mechanism: Mechanism, R: Mat3): void {
    const { p_ToBi_P: b, centres, baseAxes_B: up, platformAxes_P: down, tiltLimit } = mechanism;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const i = 3 * leg;
      const n = this.count++;
      this.apexX[n] = centres.base[i] - (R[0] * b[i] + R[1] * b[i + 1] + R[2] * b[i + 2]);
      this.apexY[n] = centres.base[i + 1] - (R[3] * b[i] + R[4] * b[i + 1] + R[5] * b[i + 2]);
      this.apexZ[n] = centres.base[i + 2] - (R[6] * b[i] + R[7] * b[i + 1] + R[8] * b[i + 2]);
      this.addCone(n, up[i], up[i + 1], up[i + 2], tiltLimit.base);
      this.addCone(
        n,
        -(R[0] * down[i] + R[1] * down[i + 1] + R[2] * down[i + 2]),
        -(R[3] * down[i] + R[4] * down[i + 1] + R[5] * down[i + 2]),
        -(R[6] * down[i] + R[7] * down[i + 1] + R[8] * down[i + 2]),
        tiltLimit.platform,
      );
    }
  }

  private addCone(apex: number, x: number, y: number, z: number, limit: number): void {
    if (limit >= NO_LIMIT) return;
    const cosine = Math.cos(limit);
    const last = this.cones - 1;
    // both ends of a leg often share one axis (square mounts, level platform): keep the tighter cone
    if (last >= 0 && this.coneX[last] === this.apexX[apex] && this.coneY[last] === this.apexY[apex]) {
      const same = this.axisX[last] === x && this.axisY[last] === y && this.axisZ[last] === z;
      if (same && this.cosine[last] >= cosine) return;
      if (same) this.cones--;
    }
    const n = this.cones++;
    this.coneX[n] = this.apexX[apex];
    this.coneY[n] = this.apexY[apex];
    this.coneZ[n] = this.apexZ[apex];
    this.axisX[n] = x;
    this.axisY[n] = y;
    this.axisZ[n] = z;
    this.cosine[n] = cosine;
    this.lead[n] = 1 / (z * z - cosine * cosine);
  }

  /**
   * Top minus bottom of the column at (x, y) [mm]; not positive when nothing is allowed. Continuous in (x, y) wherever the
   * column is within every outer sphere, so that its sign changes can be found by interpolation.
   */
  gapAt(x: number, y: number): number {
    const { shortest2, longest2 } = this;
    let bottom = Number.NEGATIVE_INFINITY;
    let top = Number.POSITIVE_INFINITY;
    for (let n = 0; n < this.count; n++) {
      const dx = x - this.apexX[n];
      const dy = y - this.apexY[n];
      const z = this.apexZ[n];
      const d2 = dx * dx + dy * dy;
      const above = z + Math.sqrt(Math.max(0, longest2 - d2));
      if (above < top) top = above;
      const below = d2 < shortest2 ? z + Math.sqrt(shortest2 - d2) : z;
      if (below > bottom) bottom = below;
    }
    for (let n = 0; n < this.cones; n++) {
      const dx = x - this.coneX[n];
      const dy = y - this.coneY[n];
      const az = this.axisZ[n];
      const k = this.cosine[n];
      const s = this.axisX[n] * dx + this.axisY[n] * dy;
      const lead = this.lead[n];
      // (s + az w)^2 >= k^2 (d^2 + w^2) with w = z - apex: (az^2 - k^2) w^2 + 2 s az w + s^2 - k^2 d^2 >= 0
      const root = k * Math.sqrt(Math.max(0, s * s + (dx * dx + dy * dy) / lead));
      const apex = this.coneZ[n];
      const low = apex + (root - s * az) * lead;
      if (lead > 0) {
        if (low > bottom) bottom = low;
        continue;
      }
      // the vertical is outside the cone: the column crosses it between two heights, or misses it
      const high = apex - (root + s * az) * lead;
      const missed = s <= 0 || root === 0;
      if (missed) top = Math.min(top, apex);
      if (high < top) top = high;
      if (low > bottom) bottom = low;
    }
    this.bottom = bottom;
    this.top = top;
    return top - bottom;
  }
}

/** A cone this wide limits nothing that stands: half a turn. Wider than a right angle but less than this is not supported. */
export const NO_LIMIT = Math.PI;
