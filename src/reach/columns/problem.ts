import { LIMIT_SLACK } from '../../kinematics/limits.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Mat3 } from '../../math/rotation.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { type Box, newBox, writeBoundingBox } from './bounding-box.ts';
import { ColumnReach } from './column.ts';
import type { ColumnCutter } from './column-cutter.ts';
import { ALL_LIMITS, Constraints } from './constraints.ts';
import { type ThreeFoldMirror, threeFoldMirror } from './symmetry.ts';

/** A reach to be measured: the limits, a cutter of columns, and a box around it all. */
export interface ReachProblem {
  /** Every one of these holds: one set for one orientation, several for a range of orientations. */
  readonly sets: readonly Constraints[];
  readonly cutter: ColumnCutter;
  /** Surely holds the whole reach [mm]. */
  readonly box: Box;
  /** False when the box itself is empty. */
  readonly possible: boolean;
  readonly symmetry: ThreeFoldMirror | null;
  /** Home position of the tool point [mm]. */
  readonly home: Vec3;
  /** A margin above minus this counts as within the limits [mm]. */
  readonly slack: number;
}

/** How far off the three-fold axis home may be, as a share of the longest leg, to be its own image under the symmetry. */
const ON_AXIS = 1e-11;

/** Turns mechanisms into problems, one at a time, reusing its arrays: a problem is valid until the next one is made. */
export class FixedOrientation {
  private readonly constraints = new Constraints();
  private readonly column = new ColumnReach();
  private readonly box = newBox();

  problem(mechanism: Mechanism, R_BP: Mat3, enabled: number = ALL_LIMITS): ReachProblem {
    const { constraints, column, box } = this;
    constraints.setMechanism(mechanism, R_BP, enabled);
    column.setLayout(constraints);
    const home = mechanism.home.p_BoTo_B;
    return {
      sets: [constraints],
      cutter: column,
      box,
      possible: writeBoundingBox(constraints, box),
      symmetry: symmetryAbout(constraints, home),
      home,
      slack: LIMIT_SLACK * Math.max(mechanism.size, constraints.max),
    };
  }
}

/** The limits' symmetry if home stands on its axis; else a part and its images could be taken for one another. */
export function symmetryAbout(constraints: Constraints, home: Vec3): ThreeFoldMirror | null {
  const symmetry = threeFoldMirror(constraints);
  if (!symmetry) return null;
  return Math.hypot(home[0] - symmetry.x, home[1] - symmetry.y) <= ON_AXIS * constraints.max ? symmetry : null;
}
