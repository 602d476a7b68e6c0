import { compiledDesign, inputsOf } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { type JudgedPose, judgedAt } from '../../kinematics/judge.ts';
import { type PoseAngles, poseFromAngles } from '../../kinematics/pose.ts';

const judged = new WeakMap<DesignDocument, { readonly pose: PoseAngles | null; readonly judgement: JudgedPose }>();

/** Judges a design at a pose (null: home); remembers the last pose of each document. */
export function judgePose(document: DesignDocument, pose: PoseAngles | null): JudgedPose {
  const known = judged.get(document);
  if (known && known.pose === pose) return known.judgement;
  const { mechanism, architecture } = compiledDesign(document);
  const at = pose ? poseFromAngles(pose) : mechanism.home;
  const judgement = judgedAt(mechanism, at, architecture, inputsOf(document));
  judged.set(document, { pose, judgement });
  return judgement;
}
