import { createStore } from 'zustand/vanilla';
import type { DesignDocument } from '../../document/design.ts';
import type { PinnedReach, ReachSummary, TiltedSummary } from '../../jobs/reach-jobs.ts';
import type { ReachPicture } from '../../jobs/reach-picture.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import { sameReach } from './same-reach.ts';

/** What a reach result was computed for; a result for anything else is shown as stale. */
export interface ReachSubject {
  readonly document: DesignDocument;
  /** The pose whose orientation was taken; null for the home orientation. */
  readonly pose: PoseAngles | null;
}

/** What the reach over a tilt range was computed for [rad]. */
export interface TiltedSubject {
  readonly document: DesignDocument;
  readonly tiltRange: number;
  readonly yawRange: number;
}

/** A finished job's value with what it was computed for. */
export interface Finished<Value, Subject = ReachSubject> {
  readonly subject: Subject;
  readonly value: Value;
}

/** One kind of result: the last value, whether a newer one is under way, and why the last attempt failed. */
export interface Outcome<Value, Subject = ReachSubject> {
  readonly finished: Finished<Value, Subject> | null;
  readonly working: boolean;
  readonly failure: string | null;
}

/** What the workers found last, kind by kind. */
export interface ResultsState {
  /** Reach at one orientation, in numbers. */
  readonly summary: Outcome<ReachSummary>;
  /** The same reach to draw. */
  readonly picture: Outcome<ReachPicture>;
  /** Reach at all orientations of the tilt range. */
  readonly tilted: Outcome<TiltedSummary, TiltedSubject>;
  /** Both reaches of the pinned design. */
  readonly pinned: Outcome<PinnedReach, TiltedSubject>;
}

const NOTHING_YET = { finished: null, working: false, failure: null };

/** Same design and same orientation: the value still holds, wherever the platform has moved to. */
export const isCurrent = (subject: ReachSubject, document: DesignDocument, pose: PoseAngles | null): boolean =>
  sameReach(subject.document, document) && sameOrientation(subject.pose, pose);

/** Same angles, or both at home. */
export function sameOrientation(one: PoseAngles | null, other: PoseAngles | null): boolean {
  if (!one || !other) return one === other;
  return one.roll === other.roll && one.pitch === other.pitch && one.yaw === other.yaw;
}

export const createResultsStore = () =>
  createStore<ResultsState>()(() => ({
    summary: NOTHING_YET,
    picture: NOTHING_YET,
    tilted: NOTHING_YET,
    pinned: NOTHING_YET,
  }));

export type ResultsStore = ReturnType<typeof createResultsStore>;
