import type { Piece } from './piece.ts';

/** Steps of the secular equation's bisection; any multiplier gives a valid bound, this many give a tight one. */
const BISECTIONS = 50;

/** Rounds of the small searches for a worst position; their result only has to be near, every bound made from it holds. */
const ROUNDS = 40;

/** A leg is taken to keep this share of its length in the middle when the step is chosen; shorter ones only settle later. */
const NEAREST_SHARE = 0.05;

/** The positions of a piece: a box about its centre, its corners, or an ellipsoid. */
export class PositionSet {
  readonly isBox: boolean;
  private readonly centre: Float64Array;
  private readonly half: Float64Array;
  private readonly widest: number;

  constructor({ kind, centre, half }: Piece) {
    this.isBox = kind === 'box';
    this.centre = centre.slice(0, 3);
    this.half = half.slice(0, 3);
    this.widest = Math.max(...this.half);
  }

  /** Whether a corner is the same as an earlier one, because the box is flat. */
  repeats(corner: number): boolean {
    for (let axis = 0; axis < 3; axis++) if (this.half[axis] === 0 && (corner >> axis) & 1) return true;
    return false;
  }

  /** Whether what starts at {@link start} is a single position: a corner, or an ellipsoid of no size. */
  isPoint(_corner: number): boolean {
    return this.isBox || this.widest === 0;
  }

  /** A corner's coordinate, or the middle of the ellipsoid. */
  start(corner: number, axis: number): number {
    if (!this.isBox) return this.centre[axis];
    return this.centre[axis] + ((corner >> axis) & 1 ? this.half[axis] : -this.half[axis]);
  }

  writeStart(corner: number, to: Float64Array): void {
    for (let axis = 0; axis < 3; axis++) to[axis] = this.start(corner, axis);
  }

  middle(axis: number): number {
    return this.centre[axis];
  }

  extent(axis: number): number {
    return this.half[axis];
  }

  /** Largest c . (t - middle). */
  support(c: Float64Array): number {
    const { half } = this;
    if (this.isBox) return Math.abs(c[0]) * half[0] + Math.abs(c[1]) * half[1] + Math.abs(c[2]) * half[2];
    return Math.sqrt((c[0] * half[0]) ** 2 + (c[1] * half[1]) ** 2 + (c[2] * half[2]) ** 2);
  }

  /**
   * A lambda above every squared semi-axis for which `lambda + sum gamma_k e_k^2` bounds the largest |e + D s|^2 over the unit
   * ball, gamma_k = lambda/(lambda - d_k^2) (weak duality); the least such bound is the largest value itself, where
   * `sum (d_k e_k/(lambda - d_k^2))^2 = 1`.
   */
  multiplier(e: Float64Array): number {
    const { half, widest } = this;
    const square = widest * widest;
    let low = square * (1 + 1e-6);
    let high = square + widest * Math.sqrt(e[0] * e[0] + e[1] * e[1] + e[2] * e[2]);
    if (high <= low) return low;
    for (let step = 0; step < BISECTIONS; step++) {
      const middle = (low + high) / 2;
      let sum = 0;
      for (let axis = 0; axis < 3; axis++) sum += ((half[axis] * e[axis]) / (middle - half[axis] ** 2)) ** 2;
      if (sum > 1) low = middle;
      else high = middle;
    }
    return high;
  }

  /** gamma_k of {@link multiplier}. */
  weight(lambda: number, axis: number): number {
    return lambda === 0 ? 1 : lambda / (lambda - this.half[axis] ** 2);
  }

  /** The position of the ellipsoid farthest along e, from the multiplier. */
  writeFarthest(e: Float64Array, lambda: number, to: Float64Array): void {
    const { centre, half } = this;
    let size = 0;
    for (let axis = 0; axis < 3; axis++) {
      const s = lambda === 0 ? 0 : (half[axis] * e[axis]) / (lambda - half[axis] ** 2);
      to[axis] = s;
      size += s * s;
    }
    const factor = size > 1 ? 1 / Math.sqrt(size) : 1;
    for (let axis = 0; axis < 3; axis++) to[axis] = centre[axis] + half[axis] * factor * to[axis];
  }

  /**
   * Length of the leg where `W . v + kappa |v|` is least, kappa < 0, v = t + p; the position too. At a corner that is that corner.
   * On an ellipsoid by steps to where the linear form at hand is least, which never rise since the value is concave.
   */
  farthestFrom(p: Float64Array, W: Float64Array, kappa: number, corner: number, to: Float64Array): number {
    this.writeStart(corner, to);
    if (!this.isPoint(corner)) {
      const { centre, half } = this;
      // from the worst end of an axis: in the middle the leg may lie along W, and no step leads away from there
      let least = Number.POSITIVE_INFINITY;
      let start = 0;
      for (let end = 0; end < 6; end++) {
        const value = this.formAt(p, W, kappa, end);
        if (value >= least) continue;
        least = value;
        start = end;
      }
      to[start >> 1] += start & 1 ? half[start >> 1] : -half[start >> 1];
      for (let round = 0; round < ROUNDS; round++) {
        const size = norm(to[0] + p[0], to[1] + p[1], to[2] + p[2]);
        let sum = 0;
        let moved = 0;
        for (let axis = 0; axis < 3; axis++)
          sum += ((W[axis] + (kappa * (to[axis] + p[axis])) / size) * half[axis]) ** 2;
        const scale = sum > 0 ? 1 / Math.sqrt(sum) : 0;
        for (let axis = 0; axis < 3; axis++) {
          const c = W[axis] + (kappa * (to[axis] + p[axis])) / size;
          this.next[axis] = centre[axis] - half[axis] ** 2 * c * scale;
        }
        for (let axis = 0; axis < 3; axis++) {
          moved = Math.max(moved, Math.abs(this.next[axis] - to[axis]));
          to[axis] = this.next[axis];
        }
        if (moved <= 1e-9 * this.widest) break;
      }
    }
    return norm(to[0] + p[0], to[1] + p[1], to[2] + p[2]);
  }

  /** `W . v + kappa |v|` at one of the six ends of the ellipsoid's axes. */
  private formAt(p: Float64Array, W: Float64Array, kappa: number, end: number): number {
    const { centre, half } = this;
    let along = 0;
    let square = 0;
    for (let axis = 0; axis < 3; axis++) {
      const off = axis === end >> 1 ? (end & 1 ? half[axis] : -half[axis]) : 0;
      const v = centre[axis] + off + p[axis];
      along += W[axis] * v;
      square += v * v;
    }
    return along + kappa * Math.sqrt(square);
  }

  private readonly next = new Float64Array(3);

  /**
   * Position t and vector v = t + p where `W . v + kappa |v|`, kappa >= 0, is least, nearly: by projected gradient steps in shares
   * of the set. For the length alone over a box, exactly: the nearest point.
   */
  leastOver(p: Float64Array, W: Float64Array, kappa: number, t: Float64Array, v: Float64Array): void {
    const { centre, half, isBox, widest } = this;
    for (let axis = 0; axis < 3; axis++) {
      t[axis] = centre[axis];
      v[axis] = t[axis] + p[axis];
    }
    if (widest === 0) return;
    if (isBox && W[0] === 0 && W[1] === 0 && W[2] === 0) {
      for (let axis = 0; axis < 3; axis++) {
        const near = Math.min(Math.max(-p[axis], centre[axis] - half[axis]), centre[axis] + half[axis]);
        t[axis] = near;
        v[axis] = near + p[axis];
      }
      return;
    }
    const s = this.next;
    s.fill(0);
    // the value bends by at most kappa d^2/|v| along a share; |v| of the middle less the extent is a lower bound
    const middle = norm(v[0], v[1], v[2]);
    const nearest = Math.max(middle - this.support(v) / middle, NEAREST_SHARE * middle);
    const bend = Math.max((kappa * widest * widest) / nearest, 1e-3 * widest);
    for (let round = 0; round < ROUNDS; round++) {
      const size = norm(v[0], v[1], v[2]);
      let moved = 0;
      let far = 0;
      for (let axis = 0; axis < 3; axis++) {
        const slope = half[axis] * (W[axis] + (kappa * v[axis]) / size);
        let to = s[axis] - slope / bend;
        if (isBox) to = Math.min(Math.max(to, -1), 1);
        moved = Math.max(moved, Math.abs(to - s[axis]));
        s[axis] = to;
        far += to * to;
      }
      const factor = !isBox && far > 1 ? 1 / Math.sqrt(far) : 1;
      for (let axis = 0; axis < 3; axis++) {
        s[axis] *= factor;
        t[axis] = centre[axis] + half[axis] * s[axis];
        v[axis] = t[axis] + p[axis];
      }
      if (moved < 1e-7) break;
    }
  }
}

const norm = (x: number, y: number, z: number): number => Math.sqrt(x * x + y * y + z * z);
