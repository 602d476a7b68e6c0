import { expose } from 'comlink';
import { HoleTableJobs } from './hole-table-jobs.ts';

expose(new HoleTableJobs());
