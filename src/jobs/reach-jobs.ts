import { compileMechanism } from '../kinematics/mechanism.ts';
import { measureReach } from '../reach/columns/meter.ts';
import { reachOverTilt, type TiltedReach } from '../reach/columns/over-tilt.ts';
import type { ReachMeasure } from '../reach/columns/reach-measure.ts';
import { comparedLayout } from './compare-jobs.ts';
import { fieldJobs } from './field-jobs.ts';
import { type PictureDetail, type ReachPicture, reachPicture } from './reach-picture.ts';
import type { ReachQuestion, TiltRange } from './reach-question.ts';

/** The reach in numbers. */
export type ReachSummary = ReachMeasure;

/** The reach over a range of orientations in numbers, with how it was sampled. */
export type TiltedSummary = TiltedReach;

/** Both reaches of a design that is kept for comparison: at home orientation, and over the tilt range. */
export interface PinnedReach {
  readonly level: ReachSummary;
  readonly tilted: TiltedSummary;
}

/** The jobs that a worker runs; the same functions serve tests and the command line. */
export const reachJobs = {
  summary: ({ spec, R_BP }: ReachQuestion): ReachSummary => measureReach(compileMechanism(spec), R_BP),
  picture: ({ spec, R_BP }: ReachQuestion, detail: PictureDetail): ReachPicture =>
    reachPicture(compileMechanism(spec), R_BP, detail),
  tilted: ({ spec, R_BP }: ReachQuestion, range: TiltRange): TiltedSummary =>
    reachOverTilt(compileMechanism(spec), { ...range, R_BP }),
  pinned: (question: ReachQuestion, range: TiltRange): PinnedReach => ({
    level: reachJobs.summary(question),
    tilted: reachJobs.tilted(question, range),
  }),
  compared: comparedLayout,
  comparedUsable: fieldJobs.usable,
};

export type ReachJobs = typeof reachJobs;
