import { Lu } from '../../math/lu.ts';
import type { Vec3 } from '../../math/vec3.ts';
import type { JointCentres } from '../layout.ts';
import { LEG_COUNT } from '../layout.ts';
import type { Pose } from '../pose.ts';

/** Freedoms of the platform: three of the tool point, three of rotation. */
export const FREEDOMS = 6;

/**
 * The six equations "leg i is as long as asked" at a pose that is moved in place, with Newton's linear solve.
 * Everything is kept in arrays made once; nothing is allocated afterwards.
 *
 * The pose is the tool point's position and a unit quaternion (w, x, y, z); its twist is in base axes about the tool point.
 */
export class LegEquations {
  /** p_BoTo_B, any one length unit throughout. */
  readonly position = new Float64Array(3);
  readonly quaternion = Float64Array.of(1, 0, 0, 0);
  /** R_BP, row-major. */
  readonly R = new Float64Array(9);
  readonly lengths = new Float64Array(LEG_COUNT);
  /** Rows [u_i, (R b_i) x u_i]; a leg of no length has a zero row. */
  readonly J = new Float64Array(LEG_COUNT * FREEDOMS);
  readonly base: Float64Array;
  /** p_ToBi_P: platform joints from the tool point. */
  readonly platform: Float64Array;
  private readonly lu = new Lu(FREEDOMS);

  constructor(centres: JointCentres, p_PoTo_P: Vec3) {
    this.base = Float64Array.from(centres.base);
    this.platform = centres.platform.map((value, index) => value - p_PoTo_P[index % 3]);
  }

  /** Puts the platform at a position and quaternion of any non-zero length. */
  place(position: ArrayLike<number>, quaternion: ArrayLike<number>): void {
    this.position.set(position);
    this.quaternion.set(quaternion);
    this.settleRotation();
  }

  placeLike(other: LegEquations): void {
    this.position.set(other.position);
    this.quaternion.set(other.quaternion);
    this.R.set(other.R);
  }

  /** Lengths and Jacobian at the present pose. */
  evaluate(): void {
    const { position, R, base, platform, lengths, J } = this;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const i = 3 * leg;
      const bx = platform[i];
      const by = platform[i + 1];
      const bz = platform[i + 2];
      const ax = R[0] * bx + R[1] * by + R[2] * bz;
      const ay = R[3] * bx + R[4] * by + R[5] * bz;
      const az = R[6] * bx + R[7] * by + R[8] * bz;
      const x = position[0] + ax - base[i];
      const y = position[1] + ay - base[i + 1];
      const z = position[2] + az - base[i + 2];
      const size = Math.sqrt(x * x + y * y + z * z);
      lengths[leg] = size;
      const inverse = size > 0 ? 1 / size : 0;
      const ux = x * inverse;
      const uy = y * inverse;
      const uz = z * inverse;
      const row = FREEDOMS * leg;
      J[row] = ux;
      J[row + 1] = uy;
      J[row + 2] = uz;
      J[row + 3] = ay * uz - az * uy;
      J[row + 4] = az * ux - ax * uz;
      J[row + 5] = ax * uy - ay * ux;
    }
  }

  /** Writes asked minus present lengths; returns the largest by size. */
  writeMissing(asked: ArrayLike<number>, missing: Float64Array): number {
    let largest = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const value = asked[leg] - this.lengths[leg];
      missing[leg] = value;
      const size = Math.abs(value);
      // written so that NaN wins
      if (!(size <= largest)) largest = size;
    }
    return largest;
  }

  /** Factors the Jacobian of the last {@link evaluate}; returns its determinant [length^3], 0 when singular. */
  factor(): number {
    return this.lu.factor(this.J) ? this.lu.determinant() : 0;
  }

  /** Leg-length changes become the twist that makes them, by the last {@link factor}. In place. */
  twistFor(changes: Float64Array): void {
    this.lu.solve(changes);
  }

  /** Moves the pose by `share` of a twist [length, rad]; the rotation is an exact turn about the twist's axis. */
  advance(twist: Float64Array, share: number): void {
    const { position, quaternion: q } = this;
    position[0] += share * twist[0];
    position[1] += share * twist[1];
    position[2] += share * twist[2];
    const x = 0.5 * share * twist[3];
    const y = 0.5 * share * twist[4];
    const z = 0.5 * share * twist[5];
    const half = Math.sqrt(x * x + y * y + z * z);
    const s = half > 0 ? Math.sin(half) / half : 1;
    const dw = Math.cos(half);
    const dx = x * s;
    const dy = y * s;
    const dz = z * s;
    const w0 = q[0];
    const x0 = q[1];
    const y0 = q[2];
    const z0 = q[3];
    q[0] = dw * w0 - dx * x0 - dy * y0 - dz * z0;
    q[1] = dw * x0 + dx * w0 + dy * z0 - dz * y0;
    q[2] = dw * y0 - dx * z0 + dy * w0 + dz * x0;
    q[3] = dw * z0 + dx * y0 - dy * x0 + dz * w0;
    this.settleRotation();
  }

  /** The present pose as plain data. */
  pose(): Pose {
    const [x, y, z] = this.position;
    return { p_BoTo_B: [x, y, z], R_BP: Float64Array.from(this.R) };
  }

  private settleRotation(): void {
    const { quaternion: q, R } = this;
    const size = 1 / Math.sqrt(q[0] * q[0] + q[1] * q[1] + q[2] * q[2] + q[3] * q[3]);
    const w = q[0] * size;
    const x = q[1] * size;
    const y = q[2] * size;
    const z = q[3] * size;
    q[0] = w;
    q[1] = x;
    q[2] = y;
    q[3] = z;
    R[0] = 1 - 2 * (y * y + z * z);
    R[1] = 2 * (x * y - w * z);
    R[2] = 2 * (x * z + w * y);
    R[3] = 2 * (x * y + w * z);
    R[4] = 1 - 2 * (x * x + z * z);
    R[5] = 2 * (y * z - w * x);
    R[6] = 2 * (x * z - w * y);
    R[7] = 2 * (y * z + w * x);
    R[8] = 1 - 2 * (x * x + y * y);
  }
}
