import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Mat3 } from '../../math/rotation.ts';
import { CODE_COUNT, type Constraints, limitIndexOf, writeMargins } from '../columns/constraints.ts';
import { FixedOrientation } from '../columns/problem.ts';

/** Room to the nearest limit of the legs at many positions of one orientation. */
export class LimitRoom {
  /** The limit with the least room at the place last asked about: its place in LIMIT_NAMES. */
  nearest = 0;
  private readonly constraints: Constraints;
  private readonly margins = new Float64Array(CODE_COUNT);

  constructor(mechanism: Mechanism, R_BP: Mat3) {
    this.constraints = new FixedOrientation().problem(mechanism, R_BP).sets[0];
  }

  /** Least room at (x, y, z) [mm]: positive inside of the reach, negative outside. */
  at(x: number, y: number, z: number): number {
    const { margins } = this;
    writeMargins(this.constraints, x, y, z, margins);
    let least = 0;
    for (let code = 1; code < CODE_COUNT; code++) if (margins[code] < margins[least]) least = code;
    this.nearest = limitIndexOf(least);
    return margins[least];
  }
}
