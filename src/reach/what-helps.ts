import { assessAccuracy, boundedTranslation } from '../kinematics/accuracy.ts';
import type { JudgementFault } from '../kinematics/inverse-jacobian.ts';
import { compileMechanism, type Mechanism, type MechanismSpec } from '../kinematics/mechanism.ts';
import { type LongWork, neverStop } from '../math/long-work.ts';
import { failed, ok, type Result } from '../math/result.ts';
import type { Floor } from '../terms/quantities.ts';
import { ReachMeter } from './columns/meter.ts';
import { usableReach } from './columns/usable.ts';
import { type Dimension, dimensionsOf } from './dimensions.ts';
import type { FieldSettings } from './field/field-settings.ts';

/** A number of a design without the means to change it: plain data. */
export type NamedDimension = Omit<Dimension, 'apply'>;

/** What a millimetre or radian of a dimension does to each figure; null as in {@link Help}. */
export interface Slopes {
  readonly reach: number;
  readonly usable: number | null;
  readonly toolError: number | null;
}

/** What one more millimetre or radian of a dimension does, at the present design. */
export interface Help<Named extends NamedDimension = NamedDimension> {
  readonly dimension: Named;
  /** Change of the reach connected to home [mm^3 per mm or rad]. */
  readonly reach: number;
  /** How far off that may be: both volumes carry their own error. */
  readonly reachError: number;
  /** Change of the usable volume [mm^3 per mm or rad]; null when not asked for. */
  readonly usable: number | null;
  readonly usableError: number | null;
  /** Change of the worst tool error at home [mm per mm or rad]; null without error limits and where home is too near to a singular pose. */
  readonly toolError: number | null;
  /**
   * Slopes on the upper and on the lower side alone. They differ where a limit starts to bind just here: more of it then gains
   * nothing though less costs much. Equal where the lower side was not looked at.
   */
  readonly up: Slopes;
  readonly down: Slopes;
  /** How far off each of those may be. */
  readonly sideError: { readonly reach: number; readonly usable: number | null };
}

export interface HelpReport<Named extends NamedDimension = NamedDimension> {
  /** At the present design: connected to home [mm^3], usable [mm^3], worst tool error at home [mm]. */
  readonly reach: number;
  readonly usable: number | null;
  readonly toolError: number | null;
  /** In the order of the dimensions; fewer when the work was stopped. */
  readonly helps: readonly Help<Named>[];
}

/** What the settings of a changed design are; joint kinds and bodies depend on the design itself. */
export type SettingsFor = (mechanism: Mechanism) => FieldSettings;

/**
 * Step to either side as a share of a length, or in radians: large against the error of a volume, small enough for the
 * change to be nearly linear.
 */
export const LENGTH_STEP = 0.02;
export const ANGLE_STEP = 0.02;

/** Asked errors of the volumes whose differences are taken: some hundredth of a usual difference of reach, a tenth of one of usable volume. */
export const VOLUME_ERROR = 0.0001;
export const USABLE_ERROR = 0.003;

/** A design with what its figures are computed from. */
export interface HelpCase {
  readonly spec: MechanismSpec;
  readonly settings: FieldSettings;
}

/** The two designs whose difference tells what a dimension does. */
export interface HelpStep {
  readonly dimension: NamedDimension;
  readonly more: HelpCase;
  /** Null: the present design is the lower one. */
  readonly less: HelpCase | null;
  /** Difference of the dimension between the upper and the lower one, and of the upper and the present one [mm or rad]. */
  readonly run: number;
  readonly rise: number;
}

/** Everything that {@link helpsOfPlan} computes: plain data, so that it can cross to a worker. */
export interface HelpPlan {
  readonly present: HelpCase;
  readonly steps: readonly HelpStep[];
}

/** A dimension with the designs that have other values of it. */
export interface SteppedDimension extends NamedDimension {
  caseAt(value: number): HelpCase;
}

/** Steps every dimension of a design to either side; one of zero length is left out. */
export function helpPlan(present: HelpCase, dimensions: readonly SteppedDimension[]): HelpPlan {
  const steps = dimensions.flatMap(({ name, words, value, unit, caseAt }): readonly HelpStep[] => {
    const step = unit === 'mm' ? LENGTH_STEP * Math.abs(value) : ANGLE_STEP;
    if (step === 0) return [];
    // an angle of zero has nothing below it
    const lower = unit === 'rad' && value < step && !name.endsWith('Turn') ? value : value - step;
    const less = lower === value ? null : caseAt(lower);
    return [
      {
        dimension: { name, words, value, unit },
        more: caseAt(value + step),
        less,
        run: value + step - lower,
        rise: step,
      },
    ];
  });
  return { present, steps };
}

/**
 * Central differences of reach, usable volume and worst error with respect to every dimension, others kept. Rotation of the
 * home pose; mounts that are aimed follow the change.
 * @param floors null: usable volume is not computed (it takes most of the time)
 */
export function helpsOfPlan(
  { present: ownCase, steps }: HelpPlan,
  floors: readonly Floor[] | null,
  work: LongWork = neverStop,
): Result<HelpReport, JudgementFault> {
  const meter = new ReachMeter();
  const present = figures(meter, ownCase, floors);
  if (!present.ok) return present;
  const helps: Help[] = [];
  for (const [n, own] of steps.entries()) {
    work.report(n, steps.length);
    if (work.shouldStop()) return ok({ ...present.value, helps });
    const high = figures(meter, own.more, floors);
    const low = own.less ? figures(meter, own.less, floors) : present;
    if (!high.ok) return high;
    if (!low.ok) return low;
    helps.push(difference(own, high.value, present.value, low.value));
  }
  work.report(steps.length, steps.length);
  return ok({ ...present.value, helps });
}

/** {@link helpsOfPlan} of a design, with dimensions that can be applied. */
export function whatHelps(
  spec: MechanismSpec,
  settingsFor: SettingsFor,
  floors: readonly Floor[] | null,
  work: LongWork = neverStop,
): Result<HelpReport<Dimension>, JudgementFault> {
  const caseOf = (own: MechanismSpec): HelpCase => ({ spec: own, settings: settingsFor(compileMechanism(own)) });
  const dimensions = dimensionsOf(spec);
  const stepped = dimensions.map((dimension) => ({
    ...dimension,
    caseAt: (value: number) => caseOf(dimension.apply(value)),
  }));
  const report = helpsOfPlan(helpPlan(caseOf(spec), stepped), floors, work);
  if (!report.ok) return report;
  const byName = new Map(dimensions.map((dimension) => [dimension.name, dimension] as const));
  const helps = report.value.helps.flatMap((help) => {
    const dimension = byName.get(help.dimension.name);
    return dimension ? [{ ...help, dimension }] : [];
  });
  return ok({ ...report.value, helps });
}

interface Figures {
  readonly reach: number;
  /** Estimated errors of the volumes [mm^3]. */
  readonly reachError: number;
  readonly usableError: number | null;
  readonly usable: number | null;
  readonly toolError: number | null;
}

function figures(
  meter: ReachMeter,
  { spec, settings }: HelpCase,
  floors: readonly Floor[] | null,
): Result<Figures, JudgementFault> {
  const mechanism = compileMechanism(spec);
  const { R_BP } = mechanism.home;
  const { home, errorEstimate } = meter.measure(mechanism, R_BP, { relativeError: VOLUME_ERROR });
  const usable = floors && usableReach(mechanism, R_BP, settings, floors, { relativeError: USABLE_ERROR });
  if (usable && !usable.ok) return usable;
  const accuracy = settings.errors && assessAccuracy(mechanism, mechanism.home, settings.errors);
  if (accuracy && !accuracy.ok && accuracy.fault.kind === 'input') return failed(accuracy.fault);
  return ok({
    reach: home.volume,
    // an estimate below what was asked for is luck as often as not
    reachError: Math.max(errorEstimate, VOLUME_ERROR) * home.volume,
    usable: usable ? usable.value.usable : null,
    usableError: usable ? Math.max(usable.value.errorEstimate, USABLE_ERROR) * usable.value.usable : null,
    toolError: accuracy?.ok ? boundedTranslation(mechanism, accuracy.value.worst) : null,
  });
}

function difference({ dimension, run, rise }: HelpStep, more: Figures, present: Figures, less: Figures): Help {
  const whole = slopes(more, less, run);
  const up = slopes(more, present, rise);
  const fall = run - rise;
  const usableError = (high: Figures, low: Figures, over: number) =>
    high.usableError === null || low.usableError === null ? null : (high.usableError + low.usableError) / over;
  return {
    dimension,
    ...whole,
    reachError: (more.reachError + less.reachError) / run,
    usableError: usableError(more, less, run),
    up,
    down: fall > 0 ? slopes(present, less, fall) : up,
    sideError: {
      reach: (more.reachError + present.reachError) / rise,
      usable: usableError(more, present, rise),
    },
  };
}

function slopes(high: Figures, low: Figures, run: number): Slopes {
  const slope = (one: number | null, other: number | null) =>
    one === null || other === null ? null : (one - other) / run;
  return {
    reach: (high.reach - low.reach) / run,
    usable: slope(high.usable, low.usable),
    toolError: slope(high.toolError, low.toolError),
  };
}
