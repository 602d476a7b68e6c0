import { largestLength } from '../kinematics/accuracy.ts';
import { RANK_TOLERANCE } from '../kinematics/architecture.ts';
import type { LegErrors } from '../kinematics/error-sources.ts';
import { writeJacobian } from '../kinematics/jacobian.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import { type Load, loadWrench } from '../kinematics/load.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Pose } from '../kinematics/pose.ts';
import { invertInPlace } from '../math/inverse.ts';
import { SmallestSingular } from '../math/smallest-singular.ts';
import { largestEigenvalue3 } from '../math/symmetric3.ts';
import { ToolErrorBounds } from '../reach/field/tool-error-bounds.ts';
import type { AnyPush } from './requirement.ts';

/** What the legs' directions decide at a pose, in the order of {@link PoseFigures.badness}. */
export const FIGURES = ['toolError', 'stiffness', 'push', 'pull', 'leastPush', 'firmness', 'condition'] as const;

export type Figure = (typeof FIGURES)[number];

/** Figures of which more is worse; of the others less is. */
export const MORE_IS_WORSE: Readonly<Record<Figure, boolean>> = {
  toolError: true,
  stiffness: false,
  push: true,
  pull: true,
  leastPush: false,
  firmness: false,
  condition: true,
};

/** What the figures are computed from. */
export interface FigureSettings {
  /** Six entries. */
  readonly errors: readonly LegErrors[];
  /** Springs of the six legs, joints included [N/mm]; null: stiffness is not known and counts as 0. */
  readonly springs: Float64Array | null;
  readonly load: Load;
  readonly push: AnyPush;
}

/** The figures of one pose after another, without a report's words; same values as the judgements of `kinematics`. */
export class PoseFigures {
  /** The figures at the pose last measured, turned so that more is always worse, in the order of {@link FIGURES}. */
  readonly badness = new Float64Array(FIGURES.length);
  /** Leg (0 to 5) that pushes most, pulls most and pushes least. */
  readonly legs = new Int32Array(3);
  /** Of the Jacobian with its rotation columns divided by the characteristic length. */
  determinant = 0;
  readonly J = new Float64Array(36);
  /** J^-1: three translations, three rotations by six legs. */
  readonly inverse = new Float64Array(36);
  readonly wrench = new Float64Array(6);
  /** Smallest and largest singular value of the scaled Jacobian. */
  smallest = 0;
  private readonly mechanism: Mechanism;
  private readonly settings: FigureSettings;
  private readonly errorBounds: ToolErrorBounds;
  private readonly singular = new SmallestSingular();
  private readonly scaled = new Float64Array(36);
  private readonly vectors = new Float64Array(3 * LEG_COUNT);
  private readonly lengths = new Float64Array(LEG_COUNT);

  constructor(mechanism: Mechanism, settings: FigureSettings) {
    this.mechanism = mechanism;
    this.settings = settings;
    this.errorBounds = new ToolErrorBounds(mechanism, mechanism.home.R_BP, settings.errors);
  }

  /** Measures a pose; false where it is singular, and every figure is as bad as can be. */
  measure(pose: Pose): boolean {
    const { mechanism, J, scaled, inverse, badness, legs } = this;
    const length = mechanism.characteristicLength;
    writeJacobian(mechanism, pose, J, this.vectors, this.lengths);
    for (let n = 0; n < 36; n++) scaled[n] = n % 6 < 3 ? J[n] : J[n] / length;
    this.smallest = this.singular.of(scaled);
    const largest = this.singular.largestOfLast();
    inverse.set(scaled);
    this.determinant = invertInPlace(6, inverse);
    if (!(this.smallest > RANK_TOLERANCE * largest) || this.determinant === 0) {
      badness.fill(Number.POSITIVE_INFINITY);
      badness[1] = 0;
      badness[5] = 0;
      legs.fill(0);
      return false;
    }
    for (let n = 18; n < 36; n++) inverse[n] /= length;
    badness[0] = largestLength(inverse, 0, this.errorsAt(pose));
    badness[1] = -this.stiffness();
    this.writeForces(pose);
    badness[5] = -this.smallest;
    badness[6] = largest / this.smallest;
    return true;
  }

  /** How far each leg's length can be off at the pose whose Jacobian was last written [mm]. */
  errorsAt({ R_BP }: Pose): Float64Array {
    this.errorBounds.turnTo(R_BP);
    return this.errorBounds.at(this.J);
  }

  /** Least force for 1 mm of travel in any direction, rotations free: 1 over the largest eigenvalue of J^-1 diag(1/k) J^-T. */
  private stiffness(): number {
    const { springs } = this.settings;
    if (!springs) return 0;
    const { inverse } = this;
    let xx = 0;
    let yy = 0;
    let zz = 0;
    let xy = 0;
    let xz = 0;
    let yz = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const x = inverse[leg];
      const y = inverse[6 + leg];
      const z = inverse[12 + leg];
      const give = 1 / springs[leg];
      xx += x * x * give;
      yy += y * y * give;
      zz += z * z * give;
      xy += x * y * give;
      xz += x * z * give;
      yz += y * z * give;
    }
    return 1 / largestEigenvalue3(xx, yy, zz, xy, xz, yz);
  }

  /** f = -J^-T w; a push in any direction adds its size times the length of the leg's column of J^-1, either way. */
  private writeForces(pose: Pose): void {
    const { inverse, wrench, badness, legs, settings } = this;
    wrench.set(loadWrench(this.mechanism, pose, settings.load));
    const { force, torque } = settings.push;
    badness[2] = 0;
    badness[3] = 0;
    badness[4] = Number.NEGATIVE_INFINITY;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      let own = 0;
      for (let row = 0; row < 6; row++) own -= inverse[6 * row + leg] * wrench[row];
      const more =
        force * norm(inverse[leg], inverse[6 + leg], inverse[12 + leg]) +
        torque * norm(inverse[18 + leg], inverse[24 + leg], inverse[30 + leg]);
      if (own + more > badness[2]) {
        badness[2] = own + more;
        legs[0] = leg;
      }
      if (more - own > badness[3]) {
        badness[3] = more - own;
        legs[1] = leg;
      }
      if (more - own > badness[4]) {
        badness[4] = more - own;
        legs[2] = leg;
      }
    }
  }
}

const norm = (x: number, y: number, z: number): number => Math.sqrt(x * x + y * y + z * z);
