import { RANK_TOLERANCE } from '../../kinematics/architecture.ts';
import { writeJacobian } from '../../kinematics/jacobian.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Mat3 } from '../../math/rotation.ts';
import { SmallestSingular } from '../../math/smallest-singular.ts';

/**
 * Independence of the legs at many positions of one orientation, without allocation: smallest singular value and condition
 * number of the Jacobian with its rotation columns divided by the characteristic length.
 */
export class PoseQuality {
  smallest = 0;
  condition = 0;
  private readonly position: [number, number, number] = [0, 0, 0];
  private readonly pose: { readonly p_BoTo_B: readonly [number, number, number]; readonly R_BP: Mat3 };
  private readonly J = new Float64Array(6 * LEG_COUNT);
  private readonly vectors = new Float64Array(3 * LEG_COUNT);
  private readonly lengths = new Float64Array(LEG_COUNT);
  private readonly singular = new SmallestSingular();
  private readonly mechanism: Mechanism;

  constructor(mechanism: Mechanism, R_BP: Mat3) {
    this.mechanism = mechanism;
    this.pose = { p_BoTo_B: this.position, R_BP };
  }

  /** Judges the tool point at (x, y, z); the results are in `smallest` (0 when singular) and `condition` (then Infinity). */
  at(x: number, y: number, z: number): void {
    const { J, position } = this;
    position[0] = x;
    position[1] = y;
    position[2] = z;
    writeJacobian(this.mechanism, this.pose, J, this.vectors, this.lengths);
    const inverse = 1 / this.mechanism.characteristicLength;
    for (let row = 0; row < 36; row += 6) {
      J[row + 3] *= inverse;
      J[row + 4] *= inverse;
      J[row + 5] *= inverse;
    }
    const smallest = this.singular.of(J);
    const largest = this.singular.largestOfLast();
    const regular = smallest > RANK_TOLERANCE * largest;
    this.smallest = regular ? smallest : 0;
    this.condition = regular ? largest / smallest : Number.POSITIVE_INFINITY;
  }
}
