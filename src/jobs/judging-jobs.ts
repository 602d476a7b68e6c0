import type { LongWork } from '../math/long-work.ts';
import { curvesJob } from './curves-jobs.ts';
import { type HelpsQuestion, helpsJob } from './helps-jobs.ts';
import { type ProveQuestion, proveJob } from './prove-jobs.ts';

/** Told how much of the work is done, 0 to 1. */
export type ReportShare = (share: number) => void;

/** Least time between two reports [ms]: a person sees no more. */
const REPORT_TIME = 50;

/** Reports now and then; whoever wants the work to stop stops its worker. */
function reporting(report: ReportShare): LongWork {
  let last = Number.NEGATIVE_INFINITY;
  return {
    report: (done, total) => {
      const now = performance.now();
      if (now - last < REPORT_TIME) return;
      last = now;
      report(total > 0 ? done / total : 0);
    },
    shouldStop: () => false,
  };
}

/** What a worker is asked about a design beside its reach: curves, proofs, and what would help. */
export const judgingJobs = {
  curves: curvesJob,
  prove: (question: ProveQuestion, report: ReportShare) => proveJob(question, reporting(report)),
  helps: (question: HelpsQuestion, report: ReportShare) => helpsJob(question, reporting(report)),
};

export type JudgingJobs = typeof judgingJobs;
