import { FIRST_ORDER_TURN, firstOrderShift, largestLength } from '../../kinematics/accuracy.ts';
import { RANK_TOLERANCE } from '../../kinematics/architecture.ts';
import { place } from '../../kinematics/bodies.ts';
import { SmallestClearance } from '../../kinematics/clearance.ts';
import { clearanceModel } from '../../kinematics/clearance-pairs.ts';
import { type LegErrors, legErrorBounds } from '../../kinematics/error-sources.ts';
import type { JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import { writeJacobian } from '../../kinematics/jacobian.ts';
import { type ClearanceSpec, clearanceFault } from '../../kinematics/keep-out.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import { writeSegments } from '../../kinematics/leg-bodies.ts';
import { type Load, loadFault, loadWrench } from '../../kinematics/load.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { platformOrigin } from '../../kinematics/pose.ts';
import { type LegStiffness, seriesStiffness } from '../../kinematics/stiffness.ts';
import { invertInPlace } from '../../math/inverse.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import type { Mat3 } from '../../math/rotation.ts';
import { SmallestSingular } from '../../math/smallest-singular.ts';
import { largestEigenvalue3 } from '../../math/symmetric3.ts';
import { FIELD_QUANTITIES, type FieldQuantity } from './field-quantities.ts';
import { JointRoom } from './joint-room.ts';
import { ToolErrorBounds } from './tool-error-bounds.ts';

/** What the quantities are computed from; null leaves out those that need it. */
export interface FieldSettings {
  readonly errors: readonly LegErrors[] | null;
  readonly stiffness: readonly LegStiffness[] | null;
  readonly load: Load | null;
  readonly clearance: ClearanceSpec | null;
}

/** Place of each quantity in the values of a point. */
export const QUANTITY_INDEX: Readonly<Record<FieldQuantity, number>> = {
  condition: 0,
  toolError: 1,
  stiffness: 2,
  legForce: 3,
  leastPush: 4,
  clearance: 5,
  shortMargin: 6,
  longMargin: 7,
  baseMargin: 8,
  platformMargin: 9,
};

/** Quantities that need the inverse Jacobian. */
const NEEDS_INVERSE: ReadonlySet<FieldQuantity> = new Set([
  'condition',
  'toolError',
  'stiffness',
  'legForce',
  'leastPush',
] as const);

/** Whether a quantity has no value at a singular pose. */
export const needsRegular = (quantity: FieldQuantity): boolean => NEEDS_INVERSE.has(quantity);

/** Whether a condition is that of a singular pose but for rounding; one that is not a number is. */
export const isSingularCondition = (condition: number): boolean => !(condition < 1 / RANK_TOLERANCE);

/** Judges one position after the other at a fixed orientation; nothing is allocated per position. */
export class FieldPoint {
  /** Quantities at the position last judged, in the order of FIELD_QUANTITIES; those not wanted keep NaN. */
  readonly values = new Float64Array(FIELD_QUANTITIES.length).fill(Number.NaN);
  /** det J there [mm^3]; 0 when exactly singular. */
  determinant = 0;
  /** Force of each leg there [N], leg 1 first, push positive; of the last regular position, and only where a force is wanted. */
  readonly forces = new Float64Array(LEG_COUNT);

  private readonly mechanism: Mechanism;
  /** Which quantities are wanted, by their place. */
  private readonly wants: Readonly<Record<FieldQuantity, boolean>>;
  private readonly needsInverse: boolean;
  private readonly position: [number, number, number] = [0, 0, 0];
  private readonly pose: { readonly p_BoTo_B: [number, number, number]; readonly R_BP: Mat3 };
  private readonly J = new Float64Array(36);
  private readonly scaled = new Float64Array(36);
  private readonly inverse = new Float64Array(36);
  private readonly vectors = new Float64Array(3 * LEG_COUNT);
  private readonly lengths = new Float64Array(LEG_COUNT);
  private readonly singular = new SmallestSingular();
  private readonly baseRoom: JointRoom;
  private readonly platformRoom: JointRoom;
  private readonly errors: ToolErrorBounds | null;
  /** Past this shift [mm] no figure of the first order holds. */
  private readonly shiftLimit: number;
  private readonly springs: Float64Array | null;
  private readonly load: Load | null;
  /** The load's wrench, when it does not depend on the position. */
  private readonly fixedWrench: Float64Array | null;
  private readonly bodies: SmallestClearance | null;
  /** Tool point from the platform origin, base axes. */
  private readonly toOrigin: readonly [number, number, number];

  private constructor(
    mechanism: Mechanism,
    R_BP: Mat3,
    settings: FieldSettings,
    wanted: ReadonlySet<FieldQuantity>,
    springs: Float64Array | null,
  ) {
    this.mechanism = mechanism;
    const has = (quantity: FieldQuantity) => wanted.has(quantity);
    this.wants = {
      condition: has('condition'),
      toolError: has('toolError'),
      stiffness: has('stiffness'),
      legForce: has('legForce'),
      leastPush: has('leastPush'),
      clearance: has('clearance'),
      shortMargin: has('shortMargin'),
      longMargin: has('longMargin'),
      baseMargin: has('baseMargin'),
      platformMargin: has('platformMargin'),
    };
    this.needsInverse = [...NEEDS_INVERSE].some((quantity) => wanted.has(quantity));
    this.pose = { p_BoTo_B: this.position, R_BP };
    this.baseRoom = new JointRoom(mechanism, 'base', R_BP);
    this.platformRoom = new JointRoom(mechanism, 'platform', R_BP);
    this.errors = settings.errors ? new ToolErrorBounds(mechanism, R_BP, settings.errors) : null;
    this.shiftLimit = firstOrderShift(mechanism);
    this.springs = springs;
    this.load = settings.load;
    // springs and counterweights pull from fixed points, so only with them does the wrench change from place to place
    this.fixedWrench =
      settings.load && settings.load.balances.length === 0 ? loadWrench(mechanism, this.pose, settings.load) : null;
    this.bodies = settings.clearance ? new SmallestClearance(clearanceModel(mechanism, settings.clearance)) : null;
    this.toOrigin = platformOrigin({ p_BoTo_B: [0, 0, 0], R_BP }, mechanism.p_PoTo_P);
    if (this.bodies) place(this.bodies.model.placements.platform, R_BP, [0, 0, 0]);
  }

  /**
   * Prepares judging; the first unusable number is reported.
   * @param wanted quantities to compute; one whose settings are null is a fault
   */
  static create(
    mechanism: Mechanism,
    R_BP: Mat3,
    settings: FieldSettings,
    wanted: readonly FieldQuantity[],
  ): Result<FieldPoint, JudgementFault> {
    const missing = wanted.find((quantity) => !isKnown(quantity, settings));
    if (missing) return failed({ kind: 'input', message: `Nothing is known to compute "${missing}" from.` });
    const springs = settings.stiffness ? seriesStiffness(settings.stiffness) : null;
    if (springs && !springs.ok) return springs;
    const upright = Float64Array.from({ length: 36 }, (_, n) => (n % 6 === 2 ? 1 : 0));
    const errors = settings.errors ? legErrorBounds(mechanism, upright, (u) => u, settings.errors) : null;
    if (errors && !errors.ok) return errors;
    const fault =
      (settings.load && loadFault(settings.load)) ?? (settings.clearance && clearanceFault(settings.clearance));
    if (fault) return failed(fault);
    return ok(new FieldPoint(mechanism, R_BP, settings, new Set(wanted), springs ? springs.value : null));
  }

  /** Judges the tool position (x, y, z), base axes [mm]. */
  judge(x: number, y: number, z: number): void {
    const { wants, values, position, J, lengths } = this;
    position[0] = x;
    position[1] = y;
    position[2] = z;
    writeJacobian(this.mechanism, this.pose, J, this.vectors, lengths);
    if (wants.shortMargin || wants.longMargin) this.judgeLengths();
    if (wants.baseMargin) values[QUANTITY_INDEX.baseMargin] = this.baseRoom.least(J);
    if (wants.platformMargin) values[QUANTITY_INDEX.platformMargin] = this.platformRoom.least(J);
    if (this.needsInverse) this.judgeInverse();
    if (wants.clearance) this.judgeClearance();
  }

  private judgeLengths(): void {
    const { lengths, values } = this;
    let shortest = lengths[0];
    let longest = lengths[0];
    for (let leg = 1; leg < LEG_COUNT; leg++) {
      if (lengths[leg] < shortest) shortest = lengths[leg];
      if (lengths[leg] > longest) longest = lengths[leg];
    }
    values[QUANTITY_INDEX.shortMargin] = shortest - this.mechanism.legs.min;
    values[QUANTITY_INDEX.longMargin] = this.mechanism.legs.max - longest;
  }

  private judgeInverse(): void {
    const { wants, values, J, scaled, inverse } = this;
    inverse.set(J);
    this.determinant = invertInPlace(6, inverse);
    if (wants.condition) {
      const factor = 1 / this.mechanism.characteristicLength;
      for (let i = 0; i < 36; i++) scaled[i] = i % 6 < 3 ? J[i] : J[i] * factor;
      const smallest = this.singular.of(scaled);
      values[QUANTITY_INDEX.condition] =
        smallest > 0 ? this.singular.largestOfLast() / smallest : Number.POSITIVE_INFINITY;
    }
    const regular = this.determinant !== 0;
    if (wants.toolError)
      values[QUANTITY_INDEX.toolError] =
        regular && this.errors ? this.worstShift(this.errors.at(J)) : Number.POSITIVE_INFINITY;
    if (wants.stiffness) values[QUANTITY_INDEX.stiffness] = regular ? this.weakestStiffness() : 0;
    if (wants.legForce || wants.leastPush) this.judgeForces(regular);
  }

  /** The longest translation that leg errors within these bounds can cause [mm]; infinite where no figure of the first order holds. */
  private worstShift(bounds: Float64Array): number {
    const { inverse } = this;
    const shift = largestLength(inverse, 0, bounds);
    if (!(shift <= this.shiftLimit)) return Number.POSITIVE_INFINITY;
    // the sums of every row's sizes bound the turn at less cost; only where they do not settle it the corners are tried
    let square = 0;
    for (let row = 18; row < 36; row += 6) {
      let sum = 0;
      for (let leg = 0; leg < LEG_COUNT; leg++) sum += Math.abs(inverse[row + leg]) * bounds[leg];
      square += sum * sum;
    }
    if (square <= FIRST_ORDER_TURN * FIRST_ORDER_TURN) return shift;
    return largestLength(inverse, 3, bounds) <= FIRST_ORDER_TURN ? shift : Number.POSITIVE_INFINITY;
  }

  /** 1 / largest eigenvalue of the translation block of J^-1 diag(1/k) J^-T [N/mm]. */
  private weakestStiffness(): number {
    const { inverse: M, springs } = this;
    if (!springs) return Number.NaN;
    let xx = 0;
    let yy = 0;
    let zz = 0;
    let xy = 0;
    let xz = 0;
    let yz = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const give = 1 / springs[leg];
      const x = M[leg];
      const y = M[6 + leg];
      const z = M[12 + leg];
      xx += give * x * x;
      yy += give * y * y;
      zz += give * z * z;
      xy += give * x * y;
      xz += give * x * z;
      yz += give * y * z;
    }
    return 1 / largestEigenvalue3(xx, yy, zz, xy, xz, yz);
  }

  private judgeForces(regular: boolean): void {
    const { values, inverse, load, forces } = this;
    const wrench = this.fixedWrench ?? (load && loadWrench(this.mechanism, this.pose, load));
    values[QUANTITY_INDEX.legForce] = Number.POSITIVE_INFINITY;
    values[QUANTITY_INDEX.leastPush] = Number.NEGATIVE_INFINITY;
    if (!wrench || !regular) return;
    let largest = 0;
    let least = Number.POSITIVE_INFINITY;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      let force = 0;
      for (let row = 0; row < 6; row++) force -= inverse[6 * row + leg] * wrench[row];
      forces[leg] = force;
      if (Math.abs(force) > largest) largest = Math.abs(force);
      if (force < least) least = force;
    }
    values[QUANTITY_INDEX.legForce] = largest;
    values[QUANTITY_INDEX.leastPush] = least;
  }

  private judgeClearance(): void {
    const { bodies, mechanism, position, toOrigin } = this;
    if (!bodies) return;
    const { segments, placements, spec } = bodies.model;
    writeSegments(mechanism, spec, this.vectors, this.lengths, segments);
    const { p } = placements.platform;
    p[0] = position[0] + toOrigin[0];
    p[1] = position[1] + toOrigin[1];
    p[2] = position[2] + toOrigin[2];
    this.values[QUANTITY_INDEX.clearance] = bodies.now();
  }
}

/** Whether the settings say what a quantity is computed from. */
export function isKnown(quantity: FieldQuantity, { errors, stiffness, load, clearance }: FieldSettings): boolean {
  switch (quantity) {
    case 'toolError':
      return errors !== null;
    case 'stiffness':
      return stiffness !== null;
    case 'legForce':
    case 'leastPush':
      return load !== null;
    case 'clearance':
      return clearance !== null;
    default:
      return true;
  }
}
