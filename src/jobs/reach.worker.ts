import { expose, transfer } from 'comlink';
import { type ReachJobs, reachJobs } from './reach-jobs.ts';
import { buffersIn } from './transferables.ts';

/** Hands a result over with its arrays' memory instead of a copy of it. */
const handOver = <Value>(value: Value): Value => transfer(value, buffersIn(value));

const jobs: ReachJobs = {
  summary: (question) => handOver(reachJobs.summary(question)),
  picture: (question, detail) => handOver(reachJobs.picture(question, detail)),
  tilted: (question, range) => handOver(reachJobs.tilted(question, range)),
  pinned: (question, range) => handOver(reachJobs.pinned(question, range)),
  compared: (question) => handOver(reachJobs.compared(question)),
};

expose(jobs);
