import type { DesignDocument } from '../document/design.ts';
import { mechanismFromDocument, poseAnglesFromDocument } from '../document/units.ts';
import { type Architecture, assessArchitecture } from '../kinematics/architecture.ts';
import { assessIndependence, type Independence } from '../kinematics/independence.ts';
import { jointReadings, type LegJointReadings } from '../kinematics/joint-readings.ts';
import { type LegState, legStates } from '../kinematics/legs.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { type Pose, type PoseAngles, poseFromAngles } from '../kinematics/pose.ts';

/** A design compiled, with what holds at every pose. */
export interface CompiledDesign {
  readonly mechanism: Mechanism;
  readonly architecture: Architecture;
}

/** A design at one pose. */
export interface PoseJudgement {
  readonly pose: Pose;
  readonly legs: readonly LegState[];
  /** Limited angles of the joints. */
  readonly joints: readonly LegJointReadings[];
  readonly independence: Independence;
}

const compiled = new WeakMap<DesignDocument, CompiledDesign>();

/** Compiles a document once; the same document object always gives the same compiled object. */
export function compiledDesign(document: DesignDocument): CompiledDesign {
  let known = compiled.get(document);
  if (!known) {
    const mechanism = mechanismFromDocument(document);
    known = { mechanism, architecture: assessArchitecture(mechanism) };
    compiled.set(document, known);
  }
  return known;
}

const homes = new WeakMap<DesignDocument, PoseAngles>();

/** The home pose as the document writes it; the same document object always gives the same object. */
export function homePose(document: DesignDocument): PoseAngles {
  let known = homes.get(document);
  if (!known) {
    known = poseAnglesFromDocument(document.home);
    homes.set(document, known);
  }
  return known;
}

/** The pose of the platform: the jogged one, or home. */
export const presentPose = (document: DesignDocument, pose: PoseAngles | null): PoseAngles =>
  pose ?? homePose(document);

const judged = new WeakMap<DesignDocument, { pose: PoseAngles | null; judgement: PoseJudgement }>();

/** Judges a design at a pose (null: home); remembers the last pose of each document. */
export function judgePose(document: DesignDocument, pose: PoseAngles | null): PoseJudgement {
  const known = judged.get(document);
  if (known && known.pose === pose) return known.judgement;
  const { mechanism, architecture } = compiledDesign(document);
  const at = pose ? poseFromAngles(pose) : mechanism.home;
  const judgement = {
    pose: at,
    legs: legStates(mechanism, at),
    joints: jointReadings(mechanism, at),
    independence: assessIndependence(mechanism, at, architecture),
  };
  judged.set(document, { pose, judgement });
  return judgement;
}
