import { expose } from 'comlink';
import { type FieldJobs, fieldJobs } from './field-jobs.ts';
import { handOver } from './transferables.ts';

const jobs: FieldJobs = {
  field: (question, places) => handOver(fieldJobs.field(question, places)),
  cut: (question, cut) => handOver(fieldJobs.cut(question, cut)),
  signs: (question, box) => handOver(fieldJobs.signs(question, box)),
  usable: (question, floors) => handOver(fieldJobs.usable(question, floors)),
};

expose(jobs);
