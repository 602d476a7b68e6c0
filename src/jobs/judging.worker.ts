import { expose } from 'comlink';
import { type JudgingJobs, judgingJobs } from './judging-jobs.ts';
import { handOver } from './transferables.ts';

const jobs: JudgingJobs = {
  ...judgingJobs,
  curves: (question) => handOver(judgingJobs.curves(question)),
};

expose(jobs);
