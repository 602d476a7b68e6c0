import { compileMechanism, type MechanismSpec } from '../kinematics/mechanism.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import type { FieldSettings } from '../reach/field/field-settings.ts';
import { type PoseCurves, poseCurves } from '../reach/field/pose-curves.ts';
import type { Floor } from '../terms/quantities.ts';
import { foundOrThrow } from './outcome.ts';

/** A layout, a pose, and what its quantities are computed from. Plain data: it crosses to the worker as it is. */
export interface CurvesQuestion {
  readonly spec: MechanismSpec;
  readonly pose: PoseAngles;
  readonly settings: FieldSettings;
  readonly floors: readonly Floor[];
}

/** All quantities along the six numbers of a pose. Throws with the reason when an input cannot be used. */
export function curvesJob({ spec, pose, settings, floors }: CurvesQuestion): PoseCurves {
  return foundOrThrow(poseCurves(compileMechanism(spec), pose, settings, floors));
}
