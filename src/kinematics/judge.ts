import type { Result } from '../math/result.ts';
import { type AccuracyReport, assessAccuracy, type OffsetEffects, offsetEffects } from './accuracy.ts';
import type { Architecture } from './architecture.ts';
import { assessClearance, type ClearanceReport } from './clearance.ts';
import type { LegErrors } from './error-sources.ts';
import { assessIndependence, type Independence } from './independence.ts';
import type { JudgementFault } from './inverse-jacobian.ts';
import { type JointState, jointStates, type LegTwist, legTwists } from './joint-limits.ts';
import { jointReadings, type LegJointReadings } from './joint-readings.ts';
import type { ClearanceSpec } from './keep-out.ts';
import { type LegState, legStates } from './legs.ts';
import type { Load } from './load.ts';
import type { Mechanism } from './mechanism.ts';
import type { Pose } from './pose.ts';
import { assessForces, type ForceReport } from './statics.ts';
import { assessStiffness, type LegStiffness, type StiffnessReport } from './stiffness.ts';

/** What is known of a design beyond its geometry. */
export interface PoseSettings {
  /** Six entries. */
  readonly errors: readonly LegErrors[];
  /** Null: nothing is said of it. */
  readonly stiffness: readonly LegStiffness[] | null;
  readonly load: Load;
  readonly clearance: ClearanceSpec;
  /** Advance of the legs' screws in one turn [mm]; null where nothing is said of it. */
  readonly screwLead: number | null;
}

/** Length offset for which one leg is compared with all of them [mm]: what a careless zero leaves. */
export const REFERENCE_OFFSET = 1;

/** All that is true of a mechanism at one pose. A part that a singular pose leaves without an answer says so itself. */
export interface JudgedPose {
  readonly mechanism: Mechanism;
  readonly pose: Pose;
  readonly legs: readonly LegState[];
  /** Limited angles of the joints. */
  readonly joints: readonly LegJointReadings[];
  /** Their room before each limit. */
  readonly jointStates: readonly JointState[];
  /** Null unless both ends of every leg are universal joints. */
  readonly twists: readonly LegTwist[] | null;
  readonly independence: Independence;
  readonly accuracy: Result<AccuracyReport, JudgementFault>;
  /** All legs against one leg, each {@link REFERENCE_OFFSET} too long. */
  readonly offsets: Result<OffsetEffects, JudgementFault>;
  readonly forces: Result<ForceReport, JudgementFault>;
  /** Null where the settings say nothing of it. */
  readonly stiffness: Result<StiffnessReport, JudgementFault> | null;
  readonly clearance: Result<ClearanceReport, JudgementFault>;
}

/**
 * Gathers what is true of a pose, in millimetres and newtons. Each part is computed when it is first asked for, and kept: panels,
 * Compare and the command line read the same object.
 */
export function judgedAt(
  mechanism: Mechanism,
  pose: Pose,
  architecture: Architecture,
  settings: PoseSettings,
): JudgedPose {
  const legs = once(() => legStates(mechanism, pose));
  const joints = once(() => jointReadings(mechanism, pose));
  const states = once(() => jointStates(mechanism, pose));
  const twists = once(() => legTwists(mechanism, pose, settings.screwLead ?? 0));
  const independence = once(() => assessIndependence(mechanism, pose, architecture));
  const accuracy = once(() => assessAccuracy(mechanism, pose, settings.errors));
  const offsets = once(() => offsetEffects(mechanism, pose, REFERENCE_OFFSET));
  const forces = once(() => assessForces(mechanism, pose, settings.load));
  const stiffness = once(
    () => settings.stiffness && assessStiffness(mechanism, pose, settings.stiffness, settings.load),
  );
  const clearance = once(() => assessClearance(mechanism, pose, settings.clearance));
  return {
    mechanism,
    pose,
    get legs() {
      return legs();
    },
    get joints() {
      return joints();
    },
    get jointStates() {
      return states();
    },
    get twists() {
      return twists();
    },
    get independence() {
      return independence();
    },
    get accuracy() {
      return accuracy();
    },
    get offsets() {
      return offsets();
    },
    get forces() {
      return forces();
    },
    get stiffness() {
      return stiffness();
    },
    get clearance() {
      return clearance();
    },
  };
}

/** Computed when first asked for. */
function once<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}
