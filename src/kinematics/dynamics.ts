import { Lu } from '../math/lu.ts';
import { wholeInertia } from './inertia.ts';
import { writeJacobian } from './jacobian.ts';
import { LEG_COUNT } from './layout.ts';
import type { LegMasses } from './leg-masses.ts';
import { type Load, loadWrench } from './load.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';

/** A pose on the move: velocities and accelerations of the tool point and of the platform's turning, base axes. */
export interface Moment {
  readonly pose: Pose;
  /** v_To_B [mm/s] and a_To_B [mm/s^2]. */
  readonly velocity: ArrayLike<number>;
  readonly acceleration: ArrayLike<number>;
  /** w_P_B [rad/s] and alpha_P_B [rad/s^2]. */
  readonly turning: ArrayLike<number>;
  readonly turningAcceleration: ArrayLike<number>;
}

/** Millimetres in a metre: a kilogram times 1 mm/s^2 is a thousandth of a newton, times 1 mm^2/s^2 a thousandth of an N mm. */
const MM = 1000;

/**
 * What the legs do and carry along a motion; one object is used for many moments and allocates nothing in between.
 *
 * Each leg is cut free of the platform. About its base joint the barrel and the rod balance the force across the leg that the
 * platform must give, `L u x F = u x (sum of r m (g - a)) - (sum of I) u x u''`, with r the distance of a mass centre from the
 * base joint; ball joints pass no moment. What is left of the six forces lies along the legs and follows from the
 * platform's own balance, `J^T f = -(w + forces across)`. The force between barrel and rod is that force less the rod's own
 * weight and inertia along the leg. (Newton and Euler, body by body; derived.)
 */
export class InverseDynamics {
  /** Pin to pin [mm], its rate [mm/s] and acceleration [mm/s^2], leg 1 first. */
  readonly lengths = new Float64Array(LEG_COUNT);
  readonly speeds = new Float64Array(LEG_COUNT);
  readonly accelerations = new Float64Array(LEG_COUNT);
  /** Force between barrel and rod along the leg [N], positive when the leg pushes; without friction, screw and rotor. */
  readonly forces = new Float64Array(LEG_COUNT);
  /** Force of each leg on its platform joint, base axes, flat 18 [N]. */
  readonly jointForces = new Float64Array(3 * LEG_COUNT);
  /** p_AiBi_B, flat 18 [mm]. */
  readonly vectors = new Float64Array(3 * LEG_COUNT);
  /** Rows `[u_i, (R b_i) x u_i]`, flat 6x6. */
  readonly J = new Float64Array(6 * LEG_COUNT);

  private readonly mechanism: Mechanism;
  private readonly load: Load;
  private readonly masses: LegMasses;
  private readonly lu = new Lu(6);
  private readonly wrench = new Float64Array(6);
  private readonly inertia: Float64Array;
  private readonly turned = new Float64Array(9);

  /** @param masses the same in all six legs; finite, masses and inertias at least 0 */
  constructor(mechanism: Mechanism, load: Load, masses: LegMasses) {
    this.mechanism = mechanism;
    this.load = load;
    this.masses = masses;
    const [xx, yy, zz, xy, xz, yz] = wholeInertia(load.payload.inertia ?? [0, 0, 0]);
    this.inertia = Float64Array.of(xx, xy, xz, xy, yy, yz, xz, yz, zz);
  }

  /**
   * Fills the arrays for one moment. False when the legs are not independent there, to the last digit: forces then mean
   * nothing, lengths, speeds and accelerations hold all the same. A leg of no length counts as one that stands still.
   */
  at(moment: Moment): boolean {
    const { pose } = moment;
    writeJacobian(this.mechanism, pose, this.J, this.vectors, this.lengths);
    this.startWrench(moment);
    for (let leg = 0; leg < LEG_COUNT; leg++) this.cutLeg(leg, moment);
    return this.solve();
  }

  /** Determinant of J at the moment last asked for [mm^3]; 0 where the legs are not independent, to the last digit. */
  determinant(): number {
    return this.lu.determinant();
  }

  /** The platform's share: load, weight, and inertia of the payload, as force and moment about the tool point [N, N mm]. */
  private startWrench({ pose, acceleration, turning, turningAcceleration }: Moment): void {
    const { mechanism, load, wrench } = this;
    const { mass, centre } = load.payload;
    wrench.set(loadWrench(mechanism, pose, load));
    const R = pose.R_BP;
    const [wx, wy, wz] = [turning[0], turning[1], turning[2]];
    const [ex, ey, ez] = [turningAcceleration[0], turningAcceleration[1], turningAcceleration[2]];
    const tool = mechanism.p_PoTo_P;
    const px = centre[0] - tool[0];
    const py = centre[1] - tool[1];
    const pz = centre[2] - tool[2];
    const cx = R[0] * px + R[1] * py + R[2] * pz;
    const cy = R[3] * px + R[4] * py + R[5] * pz;
    const cz = R[6] * px + R[7] * py + R[8] * pz;
    // acceleration of the centre of mass: a + alpha x c + w x (w x c) = a + alpha x c + w (w . c) - c |w|^2
    const along = wx * cx + wy * cy + wz * cz;
    const square = wx * wx + wy * wy + wz * wz;
    const kilo = mass / MM;
    const fx = -kilo * (acceleration[0] + ey * cz - ez * cy + wx * along - cx * square);
    const fy = -kilo * (acceleration[1] + ez * cx - ex * cz + wy * along - cy * square);
    const fz = -kilo * (acceleration[2] + ex * cy - ey * cx + wz * along - cz * square);
    wrench[0] += fx;
    wrench[1] += fy;
    wrench[2] += fz;
    // rate of the spin: I alpha + w x I w with I = R I_P R^T
    const I = this.turnInertia(R);
    const hx = I[0] * wx + I[1] * wy + I[2] * wz;
    const hy = I[3] * wx + I[4] * wy + I[5] * wz;
    const hz = I[6] * wx + I[7] * wy + I[8] * wz;
    wrench[3] += cy * fz - cz * fy - (I[0] * ex + I[1] * ey + I[2] * ez + wy * hz - wz * hy) / MM;
    wrench[4] += cz * fx - cx * fz - (I[3] * ex + I[4] * ey + I[5] * ez + wz * hx - wx * hz) / MM;
    wrench[5] += cx * fy - cy * fx - (I[6] * ex + I[7] * ey + I[8] * ez + wx * hy - wy * hx) / MM;
  }

  /** R I R^T, flat 9. */
  private turnInertia(R: Float64Array): Float64Array {
    const { inertia: I, turned } = this;
    for (let row = 0; row < 9; row += 3)
      for (let column = row; column < 9; column += 3) {
        let sum = 0;
        for (let k = 0; k < 3; k++) {
          const inner = I[3 * k] * R[column] + I[3 * k + 1] * R[column + 1] + I[3 * k + 2] * R[column + 2];
          sum += R[row + k] * inner;
        }
        turned[row + column / 3] = sum;
        turned[column + row / 3] = sum;
      }
    return turned;
  }

  /** Motion of one leg, and the force across it that its own weight and inertia ask of the platform. */
  private cutLeg(leg: number, { velocity, acceleration, turning, turningAcceleration, pose }: Moment): void {
    const { J, lengths, vectors, wrench, jointForces, masses } = this;
    const { gravity } = this.load;
    const i = 3 * leg;
    const L = lengths[leg];
    const inverse = L > 0 ? 1 / L : 0;
    const [ux, uy, uz] = [vectors[i] * inverse, vectors[i + 1] * inverse, vectors[i + 2] * inverse];
    const R = pose.R_BP;
    const b = this.mechanism.p_ToBi_P;
    const mx = R[0] * b[i] + R[1] * b[i + 1] + R[2] * b[i + 2];
    const my = R[3] * b[i] + R[4] * b[i + 1] + R[5] * b[i + 2];
    const mz = R[6] * b[i] + R[7] * b[i + 1] + R[8] * b[i + 2];
    const [wx, wy, wz] = [turning[0], turning[1], turning[2]];
    // velocity and acceleration of the platform joint
    const vx = velocity[0] + wy * mz - wz * my;
    const vy = velocity[1] + wz * mx - wx * mz;
    const vz = velocity[2] + wx * my - wy * mx;
    const [ex, ey, ez] = [turningAcceleration[0], turningAcceleration[1], turningAcceleration[2]];
    const along = wx * mx + wy * my + wz * mz;
    const square = wx * wx + wy * wy + wz * wz;
    const ax = acceleration[0] + ey * mz - ez * my + wx * along - mx * square;
    const ay = acceleration[1] + ez * mx - ex * mz + wy * along - my * square;
    const az = acceleration[2] + ex * my - ey * mx + wz * along - mz * square;
    // L' = u . v, L'' = u . a + (|v|^2 - L'^2) / L, u'' = (a - L'' u - 2 L' u') / L
    const speed = ux * vx + uy * vy + uz * vz;
    const acc = ux * ax + uy * ay + uz * az + (vx * vx + vy * vy + vz * vz - speed * speed) * inverse;
    this.speeds[leg] = speed;
    this.accelerations[leg] = acc;
    const twice = 2 * speed * inverse;
    const ddx = (ax - acc * ux - twice * (vx - speed * ux)) * inverse;
    const ddy = (ay - acc * uy - twice * (vy - speed * uy)) * inverse;
    const ddz = (az - acc * uz - twice * (vz - speed * uz)) * inverse;
    // sum over barrel and rod of r m (g - a) - I u'', to be taken across the leg
    const { barrelMass, barrelCentre, barrelInertia, rodMass, rodCentre, rodInertia } = masses;
    const reach = L - rodCentre;
    const lever = barrelMass * barrelCentre + rodMass * reach;
    const lazy =
      (barrelMass * barrelCentre * barrelCentre + barrelInertia + rodInertia - rodMass * reach * rodCentre) / MM;
    const push = (rodMass * reach) / MM;
    const qx = (lever * gravity[0] - lazy * ddx - push * ax) * inverse;
    const qy = (lever * gravity[1] - lazy * ddy - push * ay) * inverse;
    const qz = (lever * gravity[2] - lazy * ddz - push * az) * inverse;
    const axial = ux * qx + uy * qy + uz * qz;
    const [tx, ty, tz] = [qx - axial * ux, qy - axial * uy, qz - axial * uz];
    jointForces[i] = tx;
    jointForces[i + 1] = ty;
    jointForces[i + 2] = tz;
    wrench[0] += tx;
    wrench[1] += ty;
    wrench[2] += tz;
    wrench[3] += my * tz - mz * ty;
    wrench[4] += mz * tx - mx * tz;
    wrench[5] += mx * ty - my * tx;
    // the rod's own share along the leg: its mass centre accelerates by a - e u''
    const own = rodMass / MM;
    const rx = rodMass * gravity[0] - own * (ax - rodCentre * ddx);
    const ry = rodMass * gravity[1] - own * (ay - rodCentre * ddy);
    const rz = rodMass * gravity[2] - own * (az - rodCentre * ddz);
    this.forces[leg] = -(ux * rx + uy * ry + uz * rz);
    // row of J is what writeJacobian left; a leg of no length has a zero row and carries nothing
    if (L === 0) J.fill(0, 6 * leg, 6 * leg + 6);
  }

  /** J^T f = -w; adds the forces along the legs to what {@link cutLeg} left. */
  private solve(): boolean {
    const { lu, J, wrench, vectors, lengths, forces, jointForces } = this;
    if (!lu.factor(J)) return false;
    for (let n = 0; n < 6; n++) wrench[n] = -wrench[n];
    lu.solveTransposed(wrench);
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      forces[leg] += wrench[leg];
      const factor = wrench[leg] / lengths[leg];
      for (let n = 3 * leg; n < 3 * leg + 3; n++) jointForces[n] += factor * vectors[n];
    }
    return true;
  }
}
