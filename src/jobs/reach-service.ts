import type { MechanismSpec } from '../kinematics/mechanism.ts';
import type { Mat3 } from '../math/rotation.ts';
import type { JobOutcome } from './outcome.ts';
import type { PinnedReach, ReachSummary, TiltedSummary } from './reach-jobs.ts';
import type { PictureDetail, ReachPicture } from './reach-picture.ts';

/** A layout and the orientation at which its reach is wanted. Plain data: it crosses to the worker as it is. */
export interface ReachQuestion {
  readonly spec: MechanismSpec;
  readonly R_BP: Mat3;
}

/** Orientations within `tilt` of level in any direction and within `yaw` either way [rad]. */
export interface TiltRange {
  readonly tilt: number;
  readonly yaw: number;
}

/** Whoever computes the reach: workers in the browser, plain functions in tests. No promise rejects. */
export interface ReachService {
  summary(question: ReachQuestion): Promise<JobOutcome<ReachSummary>>;
  picture(question: ReachQuestion, detail: PictureDetail): Promise<JobOutcome<ReachPicture>>;
  tilted(question: ReachQuestion, range: TiltRange): Promise<JobOutcome<TiltedSummary>>;
  /** Both reaches of a design kept for comparison. */
  pinned(question: ReachQuestion, range: TiltRange): Promise<JobOutcome<PinnedReach>>;
  /** Stops a fine `picture` or a `tilted` that waits or runs, whose answer is not wanted any more. */
  stop(job: 'fine' | 'tilted'): void;
}
