import type { JudgementFault } from '../kinematics/inverse-jacobian.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { ok, type Result } from '../math/result.ts';
import type { Mat3 } from '../math/rotation.ts';
import { fieldOver } from '../reach/field/field.ts';
import { isSingularCondition, needsRegular } from '../reach/field/field-point.ts';
import { type ValueRange, valueRange } from '../reach/field/field-range.ts';
import { type FieldSettings, isKnown } from '../reach/field/field-settings.ts';
import { QUANTITY_NAMES, type QuantityName } from '../terms/quantities.ts';

/** Positions whose field is wanted: the points of a reach as it is drawn, flat xyz, base axes [mm]. */
export interface FieldPlaces {
  readonly cloud: Float64Array;
  readonly shell: Float64Array;
}

/** Values of each quantity at the points of a drawing, inner units; NaN where the pose is singular and there is none. */
export type FieldValues = Readonly<Partial<Record<QuantityName, Float32Array<ArrayBuffer>>>>;

/** The field at the points of a drawn reach. A quantity that the design says too little for is left out. */
export interface FieldPicture {
  readonly cloud: FieldValues;
  readonly shell: FieldValues;
  /** Spread of each quantity over cloud and shell; left out where no point has a value. */
  readonly ranges: Readonly<Partial<Record<QuantityName, ValueRange>>>;
  /** Points, of cloud and shell, that are singular but for rounding. */
  readonly singular: number;
}

/** Every quantity at the points of a drawing. */
export function fieldPicture(
  mechanism: Mechanism,
  R_BP: Mat3,
  settings: FieldSettings,
  places: FieldPlaces,
): Result<FieldPicture, JudgementFault> {
  const wanted = QUANTITY_NAMES.filter((quantity) => isKnown(quantity, settings));
  const cloud = fieldOver(mechanism, R_BP, places.cloud, settings, wanted);
  if (!cloud.ok) return cloud;
  const shell = fieldOver(mechanism, R_BP, places.shell, settings, wanted);
  if (!shell.ok) return shell;
  const parts = [cloud.value.quantities, shell.value.quantities];
  const singular = parts.reduce((sum, values) => sum + blankSingular(values), 0);
  const ranges: Partial<Record<QuantityName, ValueRange>> = {};
  for (const quantity of wanted) {
    const range = valueRange(...parts.flatMap((values) => values[quantity] ?? []));
    if (range) ranges[quantity] = range;
  }
  return ok({ cloud: parts[0], shell: parts[1], ranges, singular });
}

/** Takes away the values of singular points, which are rounding; how many points there are. */
function blankSingular(values: FieldValues): number {
  const { condition } = values;
  if (!condition) return 0;
  const arrays = QUANTITY_NAMES.filter(needsRegular).flatMap((quantity) => values[quantity] ?? []);
  const singular: number[] = [];
  for (let n = 0; n < condition.length; n++) if (isSingularCondition(condition[n])) singular.push(n);
  for (const array of arrays) for (const n of singular) array[n] = Number.NaN;
  return singular.length;
}
