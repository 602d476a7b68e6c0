import type { JobOutcome } from './outcome.ts';
import type { PinnedReach, ReachSummary, TiltedSummary } from './reach-jobs.ts';
import type { PictureDetail, ReachPicture } from './reach-picture.ts';
import type { ReachQuestion, TiltRange } from './reach-question.ts';

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
