import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { assessIndependence, type Independence } from '../../kinematics/independence.ts';
import { jointReadings, type LegJointReadings } from '../../kinematics/joint-readings.ts';
import { type LegState, legStates } from '../../kinematics/legs.ts';
import { type Pose, type PoseAngles, poseFromAngles } from '../../kinematics/pose.ts';

/** A design at one pose. */
export interface PoseJudgement {
  readonly pose: Pose;
  readonly legs: readonly LegState[];
  /** Limited angles of the joints. */
  readonly joints: readonly LegJointReadings[];
  readonly independence: Independence;
}

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
