import type { Result } from '../math/result.ts';
import { type AccuracyReport, assessAccuracy, type OffsetEffects, offsetEffects } from './accuracy.ts';
import { assessClearance, type ClearanceReport } from './clearance.ts';
import type { LegErrors } from './error-sources.ts';
import type { JudgementFault } from './inverse-jacobian.ts';
import { type JointState, jointStates, type LegTwist, legTwists } from './joint-limits.ts';
import type { ClearanceSpec } from './keep-out.ts';
import type { Load } from './load.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';
import { assessForces, type ForceReport } from './statics.ts';
import { assessStiffness, type LegStiffness, type StiffnessReport } from './stiffness.ts';

/** What is known of a design beyond its geometry; null where nothing is. */
export interface JudgementSettings {
  /** Six entries. */
  readonly errors: readonly LegErrors[] | null;
  readonly stiffness: readonly LegStiffness[] | null;
  readonly load: Load | null;
  readonly clearance: ClearanceSpec | null;
  /** Advance of the legs' screws in one turn [mm]; 0 for legs without a turning screw. */
  readonly screwLead: number;
}

/** Length offset for which one leg is compared with all of them [mm]: what a careless zero leaves. */
export const REFERENCE_OFFSET = 1;

/** Everything this room can say about one pose; a part is null when its settings are, and says itself why it has no answer. */
export interface PoseJudgement {
  readonly accuracy: Result<AccuracyReport, JudgementFault> | null;
  /** All legs against one leg, each {@link REFERENCE_OFFSET} too long. */
  readonly offsets: Result<OffsetEffects, JudgementFault>;
  readonly stiffness: Result<StiffnessReport, JudgementFault> | null;
  readonly forces: Result<ForceReport, JudgementFault> | null;
  readonly clearance: Result<ClearanceReport, JudgementFault> | null;
  readonly joints: readonly JointState[];
  /** Null unless both ends of every leg are universal joints. */
  readonly twists: readonly LegTwist[] | null;
}

/** Judges one pose in millimetres and newtons. Stiffness needs a load; without one nothing hangs on the legs. */
export function judgePose(mechanism: Mechanism, pose: Pose, settings: JudgementSettings): PoseJudgement {
  const { errors, stiffness, load, clearance, screwLead } = settings;
  return {
    accuracy: errors && assessAccuracy(mechanism, pose, errors),
    offsets: offsetEffects(mechanism, pose, REFERENCE_OFFSET),
    stiffness: stiffness && load && assessStiffness(mechanism, pose, stiffness, load),
    forces: load && assessForces(mechanism, pose, load),
    clearance: clearance && assessClearance(mechanism, pose, clearance),
    joints: jointStates(mechanism, pose),
    twists: legTwists(mechanism, pose, screwLead),
  };
}
