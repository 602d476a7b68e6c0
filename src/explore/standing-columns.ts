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
  /** Where each apex and each cone cut the columns tried for {@link keepNear}, and whether that was near an end. */
  private readonly legNear: Uint8Array;
  private readonly coneNear: Uint8Array;
  private longest2 = 0;
  private shortest2 = 0;

  private cones = 0;
  private readonly coneData: Float64Array;

  /** @param orientations how many may be loaded at once */
  constructor(orientations: number) {
    const legs = orientations * LEG_COUNT;
    this.apexX = new Float64Array(legs);
    this.apexY = new Float64Array(legs);
    this.apexZ = new Float64Array(legs);
    this.coneData = new Float64Array(2 * legs * CONE_STRIDE);
    this.legNear = new Uint8Array(legs);
    this.coneNear = new Uint8Array(2 * legs);
  }

  /** Longest leg [mm]. */
  get longest(): number {
    return Math.sqrt(this.longest2);
  }

  /** Whether (x, y) lies within every outer sphere's shadow; outside of one no leg reaches. */
  withinShadow(x: number, y: number): boolean {
    for (let n = 0; n < this.count; n++) {
      if ((x - this.apexX[n]) ** 2 + (y - this.apexY[n]) ** 2 > this.longest2) return false;
    }
    return true;
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
    const baseSquare = squaredCosine(tiltLimit.base);
    const platformSquare = squaredCosine(tiltLimit.platform);
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const i = 3 * leg;
      const n = this.count++;
      this.apexX[n] = centres.base[i] - (R[0] * b[i] + R[1] * b[i + 1] + R[2] * b[i + 2]);
      this.apexY[n] = centres.base[i + 1] - (R[3] * b[i] + R[4] * b[i + 1] + R[5] * b[i + 2]);
      this.apexZ[n] = centres.base[i + 2] - (R[6] * b[i] + R[7] * b[i + 1] + R[8] * b[i + 2]);
      if (baseSquare !== null) this.addCone(n, up[i], up[i + 1], up[i + 2], baseSquare);
      if (platformSquare === null) continue;
      this.addCone(
        n,
        -(R[0] * down[i] + R[1] * down[i + 1] + R[2] * down[i + 2]),
        -(R[3] * down[i] + R[4] * down[i + 1] + R[5] * down[i + 2]),
        -(R[6] * down[i] + R[7] * down[i + 1] + R[8] * down[i + 2]),
        platformSquare,
      );
    }
  }

  private addCone(apex: number, x: number, y: number, z: number, k2: number): void {
    const { coneData } = this;
    const last = (this.cones - 1) * CONE_STRIDE;
    // both ends of a leg often share one axis (square mounts, level platform): keep the tighter cone
    const shared =
      last >= 0 &&
      coneData[last] === this.apexX[apex] &&
      coneData[last + 1] === this.apexY[apex] &&
      coneData[last + 3] === x &&
      coneData[last + 4] === y;
    if (shared && coneData[last + 5] >= k2) return;
    const n = shared ? last : this.cones++ * CONE_STRIDE;
    const lead = 1 / (z * z - k2);
    coneData[n] = this.apexX[apex];
    coneData[n + 1] = this.apexY[apex];
    coneData[n + 2] = this.apexZ[apex];
    coneData[n + 3] = x;
    coneData[n + 4] = y;
    coneData[n + 5] = k2;
    coneData[n + 6] = k2 / lead;
    coneData[n + 7] = lead;
    coneData[n + 8] = z * lead;
  }

  /**
   * Top minus bottom of the column at (x, y) [mm]; not positive when nothing is allowed. Continuous in (x, y) wherever the
   * column is within every outer sphere, so that its sign changes can be found by interpolation.
   */
  gapAt(x: number, y: number): number {
    this.bottom = Number.NEGATIVE_INFINITY;
    this.top = Number.POSITIVE_INFINITY;
    this.cutByLegs(x, y);
    this.cutByCones(x, y);
    return this.top - this.bottom;
  }

  /**
   * Drops every leg and cone that comes nowhere near an end of the columns at the given places (x, y pairs): with many
   * orientations loaded only a few of their limits ever bind. Between the places a dropped limit could bind only if it closed
   * {@link KEPT_MARGIN} within one spacing of them.
   */
  keepNear(places: ArrayLike<number>, count: number): void {
    const margin = KEPT_MARGIN * Math.sqrt(this.longest2);
    this.legNear.fill(0);
    this.coneNear.fill(0);
    for (let n = 0; n < count; n++) {
      this.gapAt(places[2 * n], places[2 * n + 1]);
      this.markNear(places[2 * n], places[2 * n + 1], this.top + margin, this.bottom - margin);
    }
    this.dropUnmarked();
  }

  private markNear(x: number, y: number, top: number, bottom: number): void {
    const { shortest2, longest2, apexX, apexY, apexZ, coneData } = this;
    for (let n = 0; n < this.count; n++) {
      const z = apexZ[n];
      const d2 = (x - apexX[n]) ** 2 + (y - apexY[n]) ** 2;
      const above = d2 < longest2 ? z + Math.sqrt(longest2 - d2) : z;
      const below = d2 < shortest2 ? z + Math.sqrt(shortest2 - d2) : z;
      if (above < top || below > bottom) this.legNear[n] = 1;
    }
    for (let n = 0; n < this.cones; n++) {
      const i = n * CONE_STRIDE;
      const dx = x - coneData[i];
      const dy = y - coneData[i + 1];
      const s = coneData[i + 3] * dx + coneData[i + 4] * dy;
      const square = coneData[i + 5] * s * s + coneData[i + 6] * (dx * dx + dy * dy);
      const low = coneData[i + 2] - s * coneData[i + 8] + Math.sqrt(Math.max(0, square)) * coneData[i + 7];
      // a cone that leaves the vertical out may end a column from above as well
      if (low > bottom || coneData[i + 7] < 0) this.coneNear[n] = 1;
    }
  }

  private dropUnmarked(): void {
    const { apexX, apexY, apexZ, coneData } = this;
    let legs = 0;
    for (let n = 0; n < this.count; n++) {
      if (this.legNear[n] === 0) continue;
      apexX[legs] = apexX[n];
      apexY[legs] = apexY[n];
      apexZ[legs] = apexZ[n];
      legs++;
    }
    let cones = 0;
    for (let n = 0; n < this.cones; n++) {
      if (this.coneNear[n] === 0) continue;
      coneData.copyWithin(cones * CONE_STRIDE, n * CONE_STRIDE, (n + 1) * CONE_STRIDE);
      cones++;
    }
    this.count = legs;
    this.cones = cones;
  }

  /** Outer sphere from above; inner sphere or the apex itself from below. */
  private cutByLegs(x: number, y: number): void {
    const { shortest2, longest2, apexX, apexY, apexZ, count } = this;
    let { bottom, top } = this;
    for (let n = 0; n < count; n++) {
      const dx = x - apexX[n];
      const dy = y - apexY[n];
      const z = apexZ[n];
      const d2 = dx * dx + dy * dy;
      const above = d2 < longest2 ? z + Math.sqrt(longest2 - d2) : z;
      if (above < top) top = above;
      const below = d2 < shortest2 ? z + Math.sqrt(shortest2 - d2) : z;
      if (below > bottom) bottom = below;
    }
    this.bottom = bottom;
    this.top = top;
  }

  /**
   * With v = (d, w) from the apex and s the part of d along the axis, the cone holds (s + az w)^2 >= k^2 (d^2 + w^2), or
   * (az^2 - k^2) w^2 + 2 s az w + s^2 - k^2 d^2 >= 0, whose roots are (-s az +- k sqrt(s^2 + (az^2 - k^2) d^2)) / (az^2 - k^2).
   */
  private cutByCones(x: number, y: number): void {
    const { cones, coneData } = this;
    let { bottom, top } = this;
    for (let i = 0; i < cones * CONE_STRIDE; i += CONE_STRIDE) {
      const dx = x - coneData[i];
      const dy = y - coneData[i + 1];
      const apex = coneData[i + 2];
      const s = coneData[i + 3] * dx + coneData[i + 4] * dy;
      const square = coneData[i + 5] * s * s + coneData[i + 6] * (dx * dx + dy * dy);
      const lead = coneData[i + 7];
      const root = square > 0 ? Math.sqrt(square) * lead : 0;
      const middle = apex - s * coneData[i + 8];
      // lead > 0: the vertical is within the cone, and the column enters it once
      const low = middle + root;
      if (low > bottom) bottom = low;
      if (lead > 0) continue;
      // the vertical is outside: the column crosses the cone between two heights, or misses it
      const high = s > 0 && square > 0 ? middle - root : apex;
      if (high < top) top = high;
    }
    this.bottom = bottom;
    this.top = top;
  }
}

/**
 * How near to an end of a column a limit must come to be kept, as a share of the longest leg: a few times what one limit gains
 * on another between neighbouring places.
 */
export const KEPT_MARGIN = 0.05;

/** Numbers kept of a cone: apex x y z, axis x y, k^2, k^2 (az^2 - k^2), 1 / (az^2 - k^2), az / (az^2 - k^2). */
const CONE_STRIDE = 9;

const squaredCosine = (limit: number): number | null => (limit >= NO_LIMIT ? null : Math.cos(limit) ** 2);

/** A cone this wide limits nothing that stands: half a turn. Wider than a right angle but less than this is not supported. */
export const NO_LIMIT = Math.PI;
