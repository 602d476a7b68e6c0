import type { JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import { ok, type Result } from '../../math/result.ts';
import { type Floor, QUANTITY_NAMES, type QuantityName } from '../../terms/quantities.ts';
import { POSE_NUMBERS, poseNumbers } from '../pose-box.ts';
import { curveThrough, type PoseCurve } from './curves.ts';
import { type FieldSettings, isKnown } from './field-settings.ts';

/** The curves along all six pose numbers, x, y, z, roll, pitch, yaw, each over a range that shows what ends it. */
export interface PoseCurves {
  readonly curves: readonly PoseCurve[];
  /** Quantities that the curves hold. */
  readonly quantities: readonly QuantityName[];
}

/** Samples of the search for walls and of a curve. Walls closer together than the samples can be missed in pairs. */
const SEARCH_SAMPLES = 181;
const CURVE_SAMPLES = 97;

/** Positions are searched this many strokes either way of home, angles this far either way of zero [rad]. */
const SEARCHED_STROKES = 1.25;
const SEARCHED_ANGLE = (2 * Math.PI) / 3;

/** Shown on either side of the usable stretch, as a share of its width. */
const MARGIN = 0.4;

/** A singular pose is still shown when it lies within this many widths of the stretch; in yaw, where it is best known, further. */
const SINGULAR_WITHIN = [1.5, 1.5, 1.5, 1.6, 1.6, 3] as const;

/** The narrowest range shown, as a share of what was searched. */
const NARROWEST = 0.04;

/** The quantities that can be computed from these settings. */
export const knownQuantities = (settings: FieldSettings): readonly QuantityName[] =>
  QUANTITY_NAMES.filter((quantity) => isKnown(quantity, settings));

/** All known quantities along each of the six pose numbers through a pose, the other five kept. */
export function poseCurves(
  mechanism: Mechanism,
  pose: PoseAngles,
  settings: FieldSettings,
  floors: readonly Floor[] = [],
): Result<PoseCurves, JudgementFault> {
  const quantities = knownQuantities(settings);
  const curves: PoseCurve[] = [];
  for (let number = 0; number < POSE_NUMBERS; number++) {
    const searched = { number, ...searchRange(mechanism, pose, number), samples: SEARCH_SAMPLES, singularOnly: true };
    const found = curveThrough(mechanism, pose, searched, settings, [], floors);
    if (!found.ok) return found;
    const range = { number, ...shownRange(found.value, searched, number), samples: CURVE_SAMPLES };
    const curve = curveThrough(mechanism, pose, range, settings, quantities, floors);
    if (!curve.ok) return curve;
    // the ends of the wider search: a stretch that goes on to the end of it has no end there
    curves.push({ ...curve.value, usable: found.value.usable, ends: found.value.ends });
  }
  return ok({ curves, quantities });
}

interface Range {
  readonly low: number;
  readonly high: number;
}

function searchRange({ home, legs }: Mechanism, pose: PoseAngles, number: number): Range {
  const present = poseNumbers(pose)[number];
  const middle = number < 3 ? home.p_BoTo_B[number] : 0;
  const span = number < 3 ? SEARCHED_STROKES * (legs.max - legs.min) : SEARCHED_ANGLE;
  return { low: Math.min(middle - span, present - span / 4), high: Math.max(middle + span, present + span / 4) };
}

/** The usable stretch with a margin and the singular poses near it; all that was searched where nothing is usable. */
function shownRange({ usable, walls }: PoseCurve, searched: Range, number: number): Range {
  if (!usable) return { low: searched.low, high: searched.high };
  const width = Math.max(usable.high - usable.low, NARROWEST * (searched.high - searched.low));
  const within = SINGULAR_WITHIN[number] * width;
  const margin = MARGIN * width;
  const singular = walls.filter(({ cause }) => cause.kind === 'singular').map(({ at }) => at);
  const below = singular.findLast((at) => at <= usable.low && at > usable.low - within) ?? usable.low;
  const above = singular.find((at) => at >= usable.high && at < usable.high + within) ?? usable.high;
  return {
    low: Math.max(searched.low, Math.min(usable.low - margin, below - margin / 4)),
    high: Math.min(searched.high, Math.max(usable.high + margin, above + margin / 4)),
  };
}
