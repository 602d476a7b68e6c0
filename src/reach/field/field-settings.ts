import { type LegErrors, legErrorBounds } from '../../kinematics/error-sources.ts';
import type { JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import { type ClearanceSpec, clearanceFault } from '../../kinematics/keep-out.ts';
import { type Load, loadFault } from '../../kinematics/load.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type LegStiffness, seriesStiffness } from '../../kinematics/stiffness.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { type Need, QUANTITIES, type QuantityName } from '../../terms/quantities.ts';

/** What the quantities are computed from; null leaves out those that need it. */
export interface FieldSettings {
  readonly errors: readonly LegErrors[] | null;
  readonly stiffness: readonly LegStiffness[] | null;
  readonly load: Load | null;
  readonly clearance: ClearanceSpec | null;
}

/** Settings whose numbers have been looked at. */
export interface UsableSettings extends Readonly<Record<Need, unknown>> {
  readonly errors: readonly LegErrors[] | null;
  /** Of each leg with its joints [N/mm]. */
  readonly stiffness: Float64Array | null;
  readonly load: Load | null;
  readonly clearance: ClearanceSpec | null;
}

/** Whether the settings say what a quantity is computed from. */
export function isKnown(quantity: QuantityName, settings: Readonly<Record<Need, unknown>>): boolean {
  const { needs } = QUANTITIES[quantity];
  return needs === null || settings[needs] !== null;
}

/** Looks at all numbers of the settings; the first unusable one is reported. */
export function usableSettings(
  mechanism: Mechanism,
  { errors, stiffness, load, clearance }: FieldSettings,
): Result<UsableSettings, JudgementFault> {
  const springs = stiffness ? seriesStiffness(stiffness) : null;
  if (springs && !springs.ok) return springs;
  // any direction of the legs will do to look at their errors
  const upright = Float64Array.from({ length: 36 }, (_, n) => (n % 6 === 2 ? 1 : 0));
  const bounds = errors ? legErrorBounds(mechanism, upright, (u) => u, errors) : null;
  if (bounds && !bounds.ok) return bounds;
  const fault = (load && loadFault(load)) ?? (clearance && clearanceFault(clearance));
  if (fault) return failed(fault);
  return ok({ errors, stiffness: springs ? springs.value : null, load, clearance });
}
