import type { Mechanism } from '../kinematics/mechanism.ts';
import { RotationChart } from './chart.ts';
import { claimScale, type LegClaim } from './leg-claims.ts';
import type { Piece } from './piece.ts';
import { PositionSet } from './position-set.ts';

/** What came of a try to prove claims over a piece. */
export type ClaimOutcome =
  | { readonly kind: 'proven' }
  /** Fails at this position and at these numbers of the piece's rotation chart. */
  | { readonly kind: 'refuted'; readonly leg: number; readonly position: Float64Array; readonly rotation: Float64Array }
  /** The cells allowed ran out. */
  | { readonly kind: 'open' };

/** Values carry a few rounding errors of the coordinates squared; three orders of room. */
const ROUNDING = 1e-12;

const CORNERS = 8;

/**
 * Proves bounds on the legs over a whole piece of poses.
 *
 * At a fixed rotation everything is decided in closed form: with kappa < 0 the bound is concave in the position, so over a
 * box of positions its corners decide, over an ellipsoid a quadratic's bound does; with kappa >= 0 it is convex, and
 * `|v| >= n . v` for any unit n makes it linear. Only the three numbers of the rotation are searched, by halving cells; over a cell the
 * bound is expanded to first order, with everything of second order bounded (`chart.ts`). So the excess shrinks with
 * the square of the cell, and a bound a hair above the true extreme is proven.
 */
export class ClaimProver {
  private readonly mechanism: Mechanism;
  private readonly piece: Piece;
  private readonly chart: RotationChart;
  private readonly positions: PositionSet;
  private readonly slack: number;
  private readonly stack: Float64Array[] = [];
  private readonly u = new Float64Array(3);
  private readonly h = new Float64Array(3);
  /** R b and what it changes by with each chart number. */
  private readonly arm = new Float64Array(3);
  private readonly armBy = new Float64Array(9);
  private readonly e = new Float64Array(3);
  private readonly c = new Float64Array(3);
  private readonly v = new Float64Array(3);
  private readonly worst = new Float64Array(3);
  private readonly turned = new Float64Array(3);
  private cells = 0;

  constructor(mechanism: Mechanism, piece: Piece) {
    this.mechanism = mechanism;
    this.piece = piece;
    this.chart = new RotationChart(piece);
    this.positions = new PositionSet(piece);
    const size = claimScale(mechanism, piece.centre);
    this.slack = ROUNDING * size;
  }

  /** All claims, or the first that fails, or that the cells allowed ran out. */
  prove(claims: readonly LegClaim[], cells: number): ClaimOutcome {
    this.cells = cells;
    for (const claim of claims) {
      const outcome = this.proveOne(claim);
      if (outcome.kind !== 'proven') return outcome;
    }
    return { kind: 'proven' };
  }

  private proveOne(claim: LegClaim): ClaimOutcome {
    const { chart, stack, u, h } = this;
    stack.length = 0;
    const concave = claim.kappa < 0;
    const corners = concave && this.piece.kind === 'box' ? CORNERS : 1;
    for (let corner = 0; corner < corners; corner++) {
      if (corners > 1 && this.positions.repeats(corner)) continue;
      stack.push(Float64Array.of(...chart.centre, ...chart.half, corner));
    }
    for (let cell = stack.pop(); cell; cell = stack.pop()) {
      if (this.cells-- <= 0) return { kind: 'open' };
      u.set(cell.subarray(0, 3));
      h.set(cell.subarray(3, 6));
      const corner = cell[6];
      const room = concave ? this.concaveRoom(claim, corner) : this.convexRoom(claim);
      if (room >= 0) continue;
      if (this.valueAt(claim) < -this.slack) {
        return {
          kind: 'refuted',
          leg: claim.leg,
          position: Float64Array.from(this.worst),
          rotation: Float64Array.from(u),
        };
      }
      const axis = chart.widest(u, h);
      if (h[axis] <= SMALLEST_CELL) return { kind: 'open' };
      for (const way of [-0.5, 0.5]) {
        const part = Float64Array.from(cell);
        part[axis] += way * h[axis];
        // a hair more than half, so that the two overlap
        part[3 + axis] = h[axis] * HALF;
        stack.push(part);
      }
    }
    return { kind: 'proven' };
  }

  /** W . v + kappa |v| - least at the worst position found and the cell's middle. */
  private valueAt(claim: LegClaim): number {
    const { worst, v, mechanism, chart } = this;
    const { R } = chart;
    const i = 3 * claim.leg;
    const b = mechanism.p_ToBi_P;
    const a = mechanism.centres.base;
    for (let row = 0; row < 3; row++) {
      const r = 3 * row;
      v[row] = worst[row] - a[i + row] + R[r] * b[i] + R[r + 1] * b[i + 1] + R[r + 2] * b[i + 2];
    }
    const size = Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
    const W = this.direction(claim);
    return W[0] * v[0] + W[1] * v[1] + W[2] * v[2] + claim.kappa * size - claim.least;
  }

  /** W at the chart's point. */
  private direction({ plate, w }: LegClaim): Float64Array {
    const { turned, chart } = this;
    if (plate !== 'platform') turned.set(w);
    else {
      const { R } = chart;
      for (let row = 0; row < 3; row++)
        turned[row] = -(R[3 * row] * w[0] + R[3 * row + 1] * w[1] + R[3 * row + 2] * w[2]);
    }
    return turned;
  }

  /** Writes R b and axis_j x R b for a vector in platform axes. */
  private writeArm(x: number, y: number, z: number): void {
    const { chart, arm, armBy } = this;
    const { R, axes } = chart;
    for (let row = 0; row < 3; row++) arm[row] = R[3 * row] * x + R[3 * row + 1] * y + R[3 * row + 2] * z;
    for (let j = 0; j < 9; j += 3) {
      armBy[j] = axes[j + 1] * arm[2] - axes[j + 2] * arm[1];
      armBy[j + 1] = axes[j + 2] * arm[0] - axes[j] * arm[2];
      armBy[j + 2] = axes[j] * arm[1] - axes[j + 1] * arm[0];
    }
  }

  /**
   * kappa < 0. For any rho > 0, `|v| <= (|v|^2/rho + rho)/2`, so with alpha = |kappa|/(2 rho) the claim follows from
   * `|v - W/(2 alpha)|^2 <= K`: a point that the leg's end must stay near. For the length alone K is its square. With
   * e = o + D s + R c (o and c fixed, s in the ball or a corner), the largest `|e|^2` over s is bounded by
   * `lambda + sum gamma_k e_k^2` at s = 0, which is then expanded in the rotation.
   */
  private concaveRoom(claim: LegClaim, corner: number): number {
    const { chart, positions, mechanism, u, h, e, arm, armBy, worst } = this;
    const i = 3 * claim.leg;
    const b = mechanism.p_ToBi_P;
    const a = mechanism.centres.base;
    chart.set(u);
    const { plate, w, kappa, least } = claim;
    // the claim about the length alone: W = 0, K = least^2
    let rho = 0;
    let reach = 0;
    if (plate !== null) {
      this.writeArm(b[i], b[i + 1], b[i + 2]);
      const W = this.direction(claim);
      for (let axis = 0; axis < 3; axis++) e[axis] = arm[axis] - a[i + axis];
      rho = positions.farthestFrom(e, W, kappa, corner, worst);
      reach = rho / -kappa;
    }
    const bx = b[i] + (plate === 'platform' ? reach * w[0] : 0);
    const by = b[i + 1] + (plate === 'platform' ? reach * w[1] : 0);
    const bz = b[i + 2] + (plate === 'platform' ? reach * w[2] : 0);
    this.writeArm(bx, by, bz);
    const arms = Math.sqrt(bx * bx + by * by + bz * bz);
    let offset = 0;
    for (let axis = 0; axis < 3; axis++) {
      const o = positions.start(corner, axis) - a[i + axis] - (plate === 'base' ? reach * w[axis] : 0);
      offset += o * o;
      e[axis] = o + arm[axis];
    }
    const K = plate === null ? least * least : reach * reach - rho * rho;
    const M = chart.curvature(u, h);
    let size = 0;
    let bend: number;
    if (positions.isPoint(corner)) {
      if (plate === null) positions.writeStart(corner, worst);
      let first = 0;
      for (let j = 0; j < 3; j++) {
        const g = e[0] * armBy[3 * j] + e[1] * armBy[3 * j + 1] + e[2] * armBy[3 * j + 2];
        first += Math.abs(g) * h[j];
      }
      size = e[0] * e[0] + e[1] * e[1] + e[2] * e[2];
      // |o + R c|^2 = |o|^2 + |c|^2 + 2 o . R c: linear in R
      bend = 2 * first + Math.sqrt(offset) * arms * M;
    } else {
      const lambda = positions.multiplier(e);
      if (plate === null) positions.writeFarthest(e, lambda, worst);
      let most = 0;
      let along = 0;
      size = lambda;
      for (let axis = 0; axis < 3; axis++) {
        const gamma = positions.weight(lambda, axis);
        most = Math.max(most, gamma);
        size += gamma * e[axis] * e[axis];
        along += e[axis] * e[axis];
      }
      let first = 0;
      let G = 0;
      for (let j = 0; j < 3; j++) {
        let g = 0;
        let square = 0;
        for (let axis = 0; axis < 3; axis++) {
          g += positions.weight(lambda, axis) * e[axis] * armBy[3 * j + axis];
          square += armBy[3 * j + axis] ** 2;
        }
        first += Math.abs(g) * h[j];
        G += Math.sqrt(square) * h[j];
      }
      const rest = (arms * M) / 2;
      bend = 2 * first + most * (G * G + 2 * (Math.sqrt(along) + G) * rest + rest * rest);
    }
    return K - size - bend + 4 * this.slack * (Math.sqrt(K) + Math.sqrt(size));
  }

  /** kappa >= 0: `W . v + kappa |v| >= (W + kappa n) . v`, n the leg's direction where the left side is least at the cell's middle. */
  private convexRoom(claim: LegClaim): number {
    const { chart, positions, mechanism, u, h, e, c, arm, armBy, v, worst } = this;
    const { plate, kappa, least } = claim;
    const i = 3 * claim.leg;
    const b = mechanism.p_ToBi_P;
    const a = mechanism.centres.base;
    chart.set(u);
    this.writeArm(b[i], b[i + 1], b[i + 2]);
    const W = this.direction(claim);
    for (let axis = 0; axis < 3; axis++) e[axis] = arm[axis] - a[i + axis];
    positions.leastOver(e, W, kappa, worst, v);
    const size = Math.sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
    if (!(size > 0)) return Number.NEGATIVE_INFINITY;
    const n = kappa / size;
    for (let axis = 0; axis < 3; axis++) c[axis] = W[axis] + n * v[axis];
    const M = chart.curvature(u, h);
    const arms = Math.sqrt(b[i] ** 2 + b[i + 1] ** 2 + b[i + 2] ** 2);
    if (plate !== 'platform') {
      let value = -positions.support(c);
      for (let axis = 0; axis < 3; axis++) value += c[axis] * (positions.middle(axis) + e[axis]);
      let first = 0;
      for (let j = 0; j < 9; j += 3)
        first += Math.abs(c[0] * armBy[j] + c[1] * armBy[j + 1] + c[2] * armBy[j + 2]) * h[j / 3];
      const length = Math.sqrt(c[0] ** 2 + c[1] ** 2 + c[2] ** 2);
      return value - first - (length * arms * M) / 2 - least + this.slack;
    }
    return this.platformConvexRoom(claim, n, M, arms);
  }

  /**
   * With w fixed in the platform: `(kappa n - R w) . (t - a) + kappa n . R b - w . b`. Where the coefficient of a position number keeps its
   * sign over the cell, the number stands at its end; where it may change, the whole of it is taken off.
   */
  private platformConvexRoom({ leg, w, least }: LegClaim, n: number, M: number, arms: number): number {
    const { positions, mechanism, h, c, arm, armBy, v } = this;
    const i = 3 * leg;
    const b = mechanism.p_ToBi_P;
    const a = mechanism.centres.base;
    let value = -(w[0] * b[i] + w[1] * b[i + 1] + w[2] * b[i + 2]);
    const kn = [n * v[0], n * v[1], n * v[2]];
    const by = [0, 0, 0];
    for (let axis = 0; axis < 3; axis++) {
      value += kn[axis] * arm[axis];
      for (let j = 0; j < 3; j++) by[j] += kn[axis] * armBy[3 * j + axis];
    }
    let bent = Math.hypot(kn[0], kn[1], kn[2]) * arms;
    // from here on `arm` is R w
    this.writeArm(w[0], w[1], w[2]);
    let offset = 0;
    for (let axis = 0; axis < 3; axis++) {
      let varies = M / 2;
      for (let j = 0; j < 3; j++) varies += Math.abs(armBy[3 * j + axis]) * h[j];
      const half = positions.extent(axis);
      const coefficient = c[axis];
      let place = positions.middle(axis) - a[i + axis];
      if (positions.isBox && Math.abs(coefficient) > varies) place -= Math.sign(coefficient) * half;
      else value -= half * (Math.abs(coefficient) + varies);
      value += coefficient * place;
      offset += place * place;
      for (let j = 0; j < 3; j++) by[j] -= place * armBy[3 * j + axis];
    }
    bent += Math.sqrt(offset);
    let first = 0;
    for (let j = 0; j < 3; j++) first += Math.abs(by[j]) * h[j];
    return value - first - (bent * M) / 2 - least + this.slack;
  }
}

/** Halves overlap by this factor: their middles are rounded. */
const HALF = 0.5 * (1 + 4e-16);

/** A cell smaller than this [rad] only sees rounding. */
const SMALLEST_CELL = 1e-7;
