import type { Mat3 } from '../math/rotation.ts';
import { rotationFromAngles } from '../math/rotation.ts';
import { anglesFromNumbers } from '../reach/pose-box.ts';
import { type Piece, writeRotation, writeTilted } from './piece.ts';

/**
 * Three numbers u that give every rotation of a piece: roll, pitch, yaw of a box; azimuth and angle of the tilt and the turn of a
 * round piece. At a point of the chart: the rotation, the axes about which it turns with each number, and how far it is
 * from what those axes say over a cell around the point.
 */
export class RotationChart {
  readonly R: Mat3 = new Float64Array(9);
  /** Three vectors, base axes: dR/du_j = axis_j x R. Of an azimuth the vector is not of unit length. */
  readonly axes = new Float64Array(9);
  /** Cell that covers the whole piece. */
  readonly centre = new Float64Array(3);
  readonly half = new Float64Array(3);
  private readonly round: boolean;
  private readonly R0: Mat3;

  constructor({ kind, centre, half }: Piece) {
    this.round = kind === 'round';
    this.R0 = rotationFromAngles(anglesFromNumbers(centre));
    if (!this.round) {
      this.centre.set(centre.subarray(3));
      this.half.set(half.subarray(3));
      return;
    }
    const tilt = half[3];
    this.centre.set([0, tilt / 2, 0]);
    this.half.set([tilt > 0 ? Math.PI : 0, tilt / 2, half[5]]);
  }

  /** Rotation and axes at a point. */
  set(u: Float64Array): void {
    const { R, axes } = this;
    if (!this.round) {
      writeRotation(R, u[0], u[1], u[2]);
      const cy = Math.cos(u[2]);
      const sy = Math.sin(u[2]);
      axes[0] = R[0];
      axes[1] = R[3];
      axes[2] = R[6];
      axes[3] = -sy;
      axes[4] = cy;
      axes[5] = 0;
      axes[6] = 0;
      axes[7] = 0;
      axes[8] = 1;
      return;
    }
    const { R0 } = this;
    writeTilted(R, R0, u[0], u[1], u[2]);
    const ca = Math.cos(u[0]);
    const sa = Math.sin(u[0]);
    for (let row = 0; row < 3; row++) {
      const r = 3 * row;
      axes[row] = R0[r + 2] - R[r + 2];
      axes[3 + row] = -R0[r] * sa + R0[r + 1] * ca;
      axes[6 + row] = R[r + 2];
    }
  }

  /**
   * Over the cell `u +- h`, `|R(u + x) a - R(u) a - sum_j x_j axis_j x R(u) a|` is at most half of this times |a|: the sum
   * of the second derivatives, bounded. Roll, pitch and yaw: each at most 1. A tilt by t toward n is `I + sin t [n] + (1 - cos t) [n]^2`, and
   * [n]'s derivative with the azimuth is [n'], n' a unit vector square to n: at most `sin t + 2 (1 - cos t)` for the azimuth twice,
   * `2 sin(t/2)` with the turn, `1 + sin t` with the tilt.
   */
  curvature(u: Float64Array, h: Float64Array): number {
    if (!this.round) return (h[0] + h[1] + h[2]) ** 2;
    const tilt = Math.min(u[1] + h[1], Math.PI);
    const sine = tilt < Math.PI / 2 ? Math.sin(tilt) : 1;
    const [a, t, y] = h;
    const twice = sine + 2 * (1 - Math.cos(tilt));
    return twice * a * a + 4 * Math.sin(tilt / 2) * a * y + 2 * (1 + sine) * a * t + (t + y) ** 2;
  }

  /** How far any rotation of the cell turns from the one in its middle [rad], at most. */
  radius(u: Float64Array, h: Float64Array): number {
    if (!this.round) return h[0] + h[1] + h[2];
    return 2 * Math.sin(Math.min(u[1] + h[1], Math.PI) / 2) * h[0] + h[1] + h[2];
  }

  /** The number whose halving narrows the bound most. */
  widest(u: Float64Array, h: Float64Array): number {
    const azimuth = this.round ? h[0] * Math.sqrt(Math.sin(Math.min(u[1] + h[1], Math.PI / 2)) + LEAN_FLOOR) : h[0];
    if (azimuth >= h[1] && azimuth >= h[2]) return 0;
    return h[1] >= h[2] ? 1 : 2;
  }
}

/** A cell that holds the upright pose has an azimuth that means next to nothing, but it must be halved in the end. */
const LEAN_FLOOR = 1e-3;
