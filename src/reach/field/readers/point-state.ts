import { writeJacobian } from '../../../kinematics/jacobian.ts';
import { LEG_COUNT } from '../../../kinematics/layout.ts';
import { type Load, loadWrench } from '../../../kinematics/load.ts';
import type { Mechanism } from '../../../kinematics/mechanism.ts';
import { invertInPlace } from '../../../math/inverse.ts';
import type { Mat3 } from '../../../math/rotation.ts';
import { SmallestSingular } from '../../../math/smallest-singular.ts';

/** One position after the other at a fixed orientation, as all readers see it. Nothing is allocated per position. */
export class PointState {
  readonly mechanism: Mechanism;
  readonly R_BP: Mat3;
  /** Tool point, base axes [mm]. */
  readonly position: [number, number, number] = [0, 0, 0];
  /** Jacobian, its rows in base axes, and its inverse; the latter only after {@link invert}. */
  readonly J = new Float64Array(6 * LEG_COUNT);
  readonly inverse = new Float64Array(6 * LEG_COUNT);
  /** det J [mm^3]; 0 when exactly singular. */
  determinant = 0;
  /** From base joint to platform joint, base axes [mm]. */
  readonly vectors = new Float64Array(3 * LEG_COUNT);
  readonly lengths = new Float64Array(LEG_COUNT);
  /** Force of each leg [N], push positive; of the last regular position after {@link solveForces}. */
  readonly forces = new Float64Array(LEG_COUNT);
  /** Whether `forces` are those of the present position. */
  hasForces = false;

  private readonly pose: { readonly p_BoTo_B: [number, number, number]; readonly R_BP: Mat3 };
  private readonly scaled = new Float64Array(6 * LEG_COUNT);
  private readonly singular = new SmallestSingular();
  private scaledIsOld = true;
  private smallest = 0;

  constructor(mechanism: Mechanism, R_BP: Mat3) {
    this.mechanism = mechanism;
    this.R_BP = R_BP;
    this.pose = { p_BoTo_B: this.position, R_BP };
  }

  /** Moves the tool point to (x, y, z). */
  moveTo(x: number, y: number, z: number): void {
    const { position } = this;
    position[0] = x;
    position[1] = y;
    position[2] = z;
    writeJacobian(this.mechanism, this.pose, this.J, this.vectors, this.lengths);
    this.scaledIsOld = true;
    this.hasForces = false;
  }

  invert(): void {
    this.inverse.set(this.J);
    this.determinant = invertInPlace(6, this.inverse);
  }

  /** The load's wrench here; after {@link invert} for {@link solveForces}. */
  wrenchOf(load: Load): Float64Array {
    return loadWrench(this.mechanism, this.pose, load);
  }

  /** Forces of the legs against a wrench on the platform; none at a singular pose. */
  solveForces(wrench: Float64Array): void {
    if (this.determinant === 0) return;
    const { inverse, forces } = this;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      let force = 0;
      for (let row = 0; row < 6; row++) force -= inverse[6 * row + leg] * wrench[row];
      forces[leg] = force;
    }
    this.hasForces = true;
  }

  /** Smallest singular value of the Jacobian with its rotation columns divided by the characteristic length. */
  smallestSingular(): number {
    if (this.scaledIsOld) {
      const { J, scaled } = this;
      const factor = 1 / this.mechanism.characteristicLength;
      for (let i = 0; i < 36; i++) scaled[i] = i % 6 < 3 ? J[i] : J[i] * factor;
      this.smallest = this.singular.of(scaled);
      this.scaledIsOld = false;
    }
    return this.smallest;
  }

  /** The largest one. */
  largestSingular(): number {
    this.smallestSingular();
    return this.singular.largestOfLast();
  }
}
