import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { type DesignParts, designParts } from '../../document/design-parts.ts';
import { type LegState, legStates } from '../../kinematics/legs.ts';
import type { LoosestMotion } from '../../kinematics/loosest-motion.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type Pose, poseFromAngles } from '../../kinematics/pose.ts';
import { judgePose } from '../../state/design/judged-pose.ts';
import { type NearestBodies, nearestBodies } from '../../state/design/nearest-bodies.ts';
import type { SessionState } from '../../state/session/session-store.ts';
import { loosePose, rockShare, shownAmplitude } from '../shape/loose-pose.ts';

/** The loosest motion as it is drawn. */
export interface LooseView {
  readonly motion: LoosestMotion;
  /** Units of the motion at the ends of the rock. */
  readonly amplitude: number;
  /** The two ends, drawn as ghosts where nothing may move by itself; empty while it is played. */
  readonly ends: readonly Pose[];
}

/** Everything that one drawing of the platform shows. */
export interface SceneView {
  readonly mechanism: Mechanism;
  readonly parts: DesignParts;
  /** The pose that is judged, and the one that is drawn: they differ while the loosest motion is shown. */
  readonly pose: Pose;
  readonly drawnPose: Pose;
  readonly legs: readonly LegState[];
  readonly drawnLegs: readonly LegState[];
  /** The two bodies that come nearest to each other, where that is wanted or where they meet. */
  readonly nearest: NearestBodies | null;
  readonly loose: LooseView | null;
  readonly ghost: { readonly mechanism: Mechanism; readonly pose: Pose } | null;
}

/** What is drawn of a design in a session. `still`: nothing may move by itself (the person asked for reduced motion). */
export function sceneView(document: DesignDocument, session: SessionState, still: boolean): SceneView {
  const { mechanism } = compiledDesign(document);
  const { pose, legs, independence } = judgePose(document, session.pose);
  const base = { mechanism, parts: designParts(document), pose, legs, ghost: ghostView(session) };
  const { looseMotion } = session;
  const nearest = nearestBodies(document, pose, session.clearanceShown);
  if (!looseMotion.shown) return { ...base, nearest, drawnPose: pose, drawnLegs: legs, loose: null };
  const motion = independence.loosestMotion;
  const amplitude = shownAmplitude(mechanism, motion, pose);
  if (still) {
    const ends = [loosePose(pose, motion, amplitude), loosePose(pose, motion, -amplitude)];
    return { ...base, nearest, drawnPose: pose, drawnLegs: legs, loose: { motion, amplitude, ends } };
  }
  const drawnPose = loosePose(pose, motion, amplitude * rockShare(looseMotion.phase));
  const loose = { motion, amplitude, ends: [] };
  // distances at the pose that is judged would point at places where nothing is drawn
  return { ...base, nearest: null, drawnPose, drawnLegs: legStates(mechanism, drawnPose), loose };
}

/** The layout pointed at among many, else the pinned design; at the same pose, or each at its own home. */
function ghostView({ hovered, pinned, pose }: SessionState): SceneView['ghost'] {
  const shown = hovered ?? pinned;
  if (!shown) return null;
  const { mechanism } = compiledDesign(shown);
  return { mechanism, pose: pose ? poseFromAngles(pose) : mechanism.home };
}
