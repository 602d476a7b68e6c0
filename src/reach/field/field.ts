import type { JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type LongWork, neverStop } from '../../math/long-work.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import type { Mat3 } from '../../math/rotation.ts';
import type { QuantityName } from '../../terms/quantities.ts';
import { FieldPoint, QUANTITY_INDEX } from './field-point.ts';
import type { FieldSettings } from './field-settings.ts';

/** Quantities at many positions, one orientation. */
export interface Field {
  /** Positions judged; fewer than asked when the work was stopped. */
  readonly count: number;
  /** One array per quantity asked for, as long as the positions; inner units, Infinity or 0 where a pose is singular. */
  readonly quantities: Readonly<Partial<Record<QuantityName, Float32Array<ArrayBuffer>>>>;
}

/** Positions between two looks at whether the work is still wanted: some milliseconds. */
const POINTS_PER_LOOK = 1024;

/**
 * Computes quantities over an array of tool positions at one orientation.
 * @param positions flat x y z, base axes [mm]
 */
export function fieldOver(
  mechanism: Mechanism,
  R_BP: Mat3,
  positions: ArrayLike<number>,
  settings: FieldSettings,
  wanted: readonly QuantityName[],
  work: LongWork = neverStop,
): Result<Field, JudgementFault> {
  if (positions.length % 3 !== 0)
    return failed({ kind: 'input', message: `${positions.length} coordinates are no whole number of positions.` });
  const point = FieldPoint.create(mechanism, R_BP, settings, wanted);
  if (!point.ok) return point;
  const total = positions.length / 3;
  const arrays = wanted.map(() => new Float32Array(total));
  const count = fill(point.value, positions, wanted, arrays, work);
  const quantities: Partial<Record<QuantityName, Float32Array<ArrayBuffer>>> = {};
  wanted.forEach((quantity, n) => {
    quantities[quantity] = arrays[n];
  });
  return ok({ count, quantities });
}

function fill(
  point: FieldPoint,
  positions: ArrayLike<number>,
  wanted: readonly QuantityName[],
  arrays: readonly Float32Array[],
  work: LongWork,
): number {
  const total = positions.length / 3;
  const { values } = point;
  const places = wanted.map((quantity) => QUANTITY_INDEX[quantity]);
  for (let n = 0; n < total; n++) {
    if (n % POINTS_PER_LOOK === 0) {
      work.report(n, total);
      if (work.shouldStop()) return n;
    }
    point.judge(positions[3 * n], positions[3 * n + 1], positions[3 * n + 2]);
    for (let k = 0; k < places.length; k++) arrays[k][n] = values[places[k]];
  }
  work.report(total, total);
  return total;
}
