import { expose, transfer } from 'comlink';
import { type FieldJobs, fieldJobs } from './field-jobs.ts';
import { buffersIn } from './transferables.ts';

/** Hands a result over with its arrays' memory instead of a copy of it. */
const handOver = <Value>(value: Value): Value => transfer(value, buffersIn(value));

const jobs: FieldJobs = {
  field: (question, places) => handOver(fieldJobs.field(question, places)),
  cut: (question, cut) => handOver(fieldJobs.cut(question, cut)),
  signs: (question, box) => handOver(fieldJobs.signs(question, box)),
  usable: (question, floors) => handOver(fieldJobs.usable(question, floors)),
};

expose(jobs);
