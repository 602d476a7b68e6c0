import { assessAccuracy } from '../kinematics/accuracy.ts';
import type { JudgementFault } from '../kinematics/inverse-jacobian.ts';
import { compileMechanism, type Mechanism, type MechanismSpec } from '../kinematics/mechanism.ts';
import { type LongWork, neverStop } from '../math/long-work.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { type Dimension, dimensionsOf } from './dimensions.ts';
import type { FieldSettings } from './field-point.ts';
import { ReachMeter } from './meter.ts';
import { usableReach } from './usable.ts';
import type { Floor } from './usable-cutter.ts';

/** What one more millimetre or radian of a dimension does, at the present design. */
export interface Help {
  readonly dimension: Dimension;
  /** Change of the reach connected to home [mm^3 per mm or rad]. */
  readonly reach: number;
  /** Change of the usable volume [mm^3 per mm or rad]; null when not asked for. */
  readonly usable: number | null;
  /** Change of the worst tool error at home [mm per mm or rad]; null without error limits or at a singular home. */
  readonly toolError: number | null;
}

export interface HelpReport {
  /** At the present design: connected to home [mm^3], usable [mm^3], worst tool error at home [mm]. */
  readonly reach: number;
  readonly usable: number | null;
  readonly toolError: number | null;
  /** In the order of the dimensions; fewer when the work was stopped. */
  readonly helps: readonly Help[];
}

/** What the settings of a changed design are; joint kinds and bodies depend on the design itself. */
export type SettingsFor = (mechanism: Mechanism) => FieldSettings;

/**
 * Step to either side as a share of a length, or in radians: large against the error of a volume, small enough for the
 * change to be nearly linear.
 */
const LENGTH_STEP = 0.02;
const ANGLE_STEP = 0.02;

/** Asked error of the volumes whose difference is taken: a fortieth of a usual difference. */
const VOLUME_ERROR = 0.001;
const USABLE_ERROR = 0.003;

/**
 * Central differences of reach, usable volume and worst error with respect to every dimension, others kept. Rotation of the
 * home pose; mounts that are aimed follow the change.
 * @param floors null: usable volume is not computed (it takes most of the time)
 */
export function whatHelps(
  spec: MechanismSpec,
  settingsFor: SettingsFor,
  floors: readonly Floor[] | null,
  work: LongWork = neverStop,
): Result<HelpReport, JudgementFault> {
  const meter = new ReachMeter();
  const present = figures(meter, spec, settingsFor, floors);
  if (!present.ok) return present;
  const dimensions = dimensionsOf(spec);
  const helps: Help[] = [];
  for (const [n, dimension] of dimensions.entries()) {
    work.report(n, dimensions.length);
    if (work.shouldStop()) return ok({ ...present.value, helps });
    const { value, unit } = dimension;
    const step = unit === 'mm' ? LENGTH_STEP * Math.abs(value) : ANGLE_STEP;
    if (step === 0) continue;
    const more = figures(meter, dimension.apply(value + step), settingsFor, floors);
    // an angle of zero has nothing below it
    const lower = unit === 'rad' && value < step && !dimension.name.endsWith('Turn') ? value : value - step;
    const less = lower === value ? present : figures(meter, dimension.apply(lower), settingsFor, floors);
    if (!more.ok) return more;
    if (!less.ok) return less;
    helps.push(difference(dimension, more.value, less.value, value + step - lower));
  }
  work.report(dimensions.length, dimensions.length);
  return ok({ ...present.value, helps });
}

interface Figures {
  readonly reach: number;
  readonly usable: number | null;
  readonly toolError: number | null;
}

function figures(
  meter: ReachMeter,
  spec: MechanismSpec,
  settingsFor: SettingsFor,
  floors: readonly Floor[] | null,
): Result<Figures, JudgementFault> {
  const mechanism = compileMechanism(spec);
  const settings = settingsFor(mechanism);
  const { R_BP } = mechanism.home;
  const reach = meter.measure(mechanism, R_BP, { relativeError: VOLUME_ERROR }).home.volume;
  const usable = floors && usableReach(mechanism, R_BP, settings, floors, { relativeError: USABLE_ERROR });
  if (usable && !usable.ok) return usable;
  const accuracy = settings.errors && assessAccuracy(mechanism, mechanism.home, settings.errors);
  if (accuracy && !accuracy.ok && accuracy.fault.kind === 'input') return failed(accuracy.fault);
  return ok({
    reach,
    usable: usable ? usable.value.usable : null,
    toolError: accuracy?.ok ? accuracy.value.worst.translationLength : null,
  });
}

function difference(dimension: Dimension, more: Figures, less: Figures, run: number): Help {
  const slope = (high: number | null, low: number | null) =>
    high === null || low === null ? null : (high - low) / run;
  return {
    dimension,
    reach: (more.reach - less.reach) / run,
    usable: slope(more.usable, less.usable),
    toolError: slope(more.toolError, less.toolError),
  };
}
