import { expose } from 'comlink';
import type { LongWork } from '../math/long-work.ts';
import { previewJob, type SaveQuestion, saveJob } from './build-jobs.ts';

/** Told how much is written, 0 to 1. */
type ReportShare = (share: number) => void;

/** Whoever wants the work to stop stops the worker. */
const reporting = (report: ReportShare): LongWork => ({
  report: (done, total) => report(total > 0 ? done / total : 0),
  shouldStop: () => false,
});

const jobs = {
  preview: previewJob,
  save: (question: SaveQuestion, report: ReportShare) => saveJob(question, reporting(report)),
};

export type BuildWorkerJobs = typeof jobs;

expose(jobs);
