import { expose } from 'comlink';
import { type ReachJobs, reachJobs } from './reach-jobs.ts';
import { handOver } from './transferables.ts';

const jobs: ReachJobs = {
  summary: (question) => handOver(reachJobs.summary(question)),
  picture: (question, detail) => handOver(reachJobs.picture(question, detail)),
  tilted: (question, range) => handOver(reachJobs.tilted(question, range)),
  pinned: (question, range) => handOver(reachJobs.pinned(question, range)),
  compared: (question) => handOver(reachJobs.compared(question)),
  comparedUsable: (question, floors) => handOver(reachJobs.comparedUsable(question, floors)),
};

expose(jobs);
