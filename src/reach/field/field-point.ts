import { RANK_TOLERANCE } from '../../kinematics/architecture.ts';
import type { JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import type { Load } from '../../kinematics/load.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { recordOf } from '../../math/record.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import type { Mat3 } from '../../math/rotation.ts';
import { QUANTITIES, QUANTITY_NAMES, type QuantityName } from '../../terms/quantities.ts';
import { type FieldSettings, usableSettings } from './field-settings.ts';
import { PointState } from './readers/point-state.ts';
import type { Reader } from './readers/reader.ts';
import { READERS } from './readers/readers.ts';

/** Place of each quantity in the values of a point. */
export const QUANTITY_INDEX: Readonly<Record<QuantityName, number>> = recordOf(QUANTITY_NAMES, (_, index) => index);

/** Whether a quantity has no value at a singular pose. */
export const needsRegular = (quantity: QuantityName): boolean => QUANTITIES[quantity].regular;

/** Whether a condition is that of a singular pose but for rounding; one that is not a number is. */
export const isSingularCondition = (condition: number): boolean => !(condition < 1 / RANK_TOLERANCE);

/** Judges one position after the other at a fixed orientation; nothing is allocated per position. */
export class FieldPoint {
  /** Quantities at the position last judged, in the order of QUANTITY_NAMES; those not wanted keep NaN. */
  readonly values = new Float64Array(QUANTITY_NAMES.length).fill(Number.NaN);
  /** det J there [mm^3]; 0 when exactly singular; computed only where a quantity needs the inverse Jacobian. */
  determinant = 0;
  /** Force of each leg there [N], leg 1 first, push positive; of the last regular position, and only where a force is wanted. */
  readonly forces: Float64Array;

  private readonly state: PointState;
  /** Readers of the quantities wanted, and the places of what they read. */
  private readonly readers: readonly Reader[];
  private readonly places: readonly number[];
  private readonly needsInverse: boolean;
  /** Where a force is wanted. */
  private readonly load: Load | null;
  /** The load's wrench, when it does not depend on the position. */
  private readonly fixedWrench: Float64Array | null;

  private constructor(state: PointState, readers: ReadonlyMap<QuantityName, Reader>, load: Load | null) {
    this.state = state;
    this.forces = state.forces;
    this.readers = [...readers.values()];
    this.places = Array.from(readers.keys(), (quantity) => QUANTITY_INDEX[quantity]);
    const names = [...readers.keys()];
    this.needsInverse = names.some(needsRegular);
    this.load = names.some((quantity) => QUANTITIES[quantity].needs === 'load') ? load : null;
    // springs and counterweights pull from fixed points, so only with them does the wrench change from place to place
    this.fixedWrench = this.load && this.load.balances.length === 0 ? state.wrenchOf(this.load) : null;
  }

  /**
   * Prepares judging; the first unusable number is reported.
   * @param wanted quantities to compute; one whose settings are null is a fault
   */
  static create(
    mechanism: Mechanism,
    R_BP: Mat3,
    settings: FieldSettings,
    wanted: readonly QuantityName[],
  ): Result<FieldPoint, JudgementFault> {
    const usable = usableSettings(mechanism, settings);
    if (!usable.ok) return usable;
    const state = new PointState(mechanism, R_BP);
    const readers = new Map<QuantityName, Reader>();
    for (const quantity of wanted) {
      const reader = READERS[quantity](state, usable.value);
      if (!reader) return failed({ kind: 'input', message: `Nothing is known to compute "${quantity}" from.` });
      readers.set(quantity, reader);
    }
    return ok(new FieldPoint(state, readers, usable.value.load));
  }

  /** Judges the tool position (x, y, z), base axes [mm]. */
  judge(x: number, y: number, z: number): void {
    const { state, values, readers, places } = this;
    state.moveTo(x, y, z);
    if (this.needsInverse) {
      state.invert();
      this.determinant = state.determinant;
      if (this.load) state.solveForces(this.fixedWrench ?? state.wrenchOf(this.load));
    }
    for (let n = 0; n < readers.length; n++) values[places[n]] = readers[n]();
  }
}
