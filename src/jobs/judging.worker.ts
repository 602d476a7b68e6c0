import { expose, transfer } from 'comlink';
import { type JudgingJobs, judgingJobs } from './judging-jobs.ts';
import { buffersIn } from './transferables.ts';

const jobs: JudgingJobs = {
  ...judgingJobs,
  curves: (question) => {
    const curves = judgingJobs.curves(question);
    return transfer(curves, buffersIn(curves));
  },
};

expose(jobs);
