import { expose } from 'comlink';
import { ExploreJobs } from './explore-jobs.ts';
import { handOver } from './transferables.ts';

/** {@link ExploreJobs} whose rows change hands instead of being copied. */
class WorkerJobs extends ExploreJobs {
  override sweepChunk(...question: Parameters<ExploreJobs['sweepChunk']>): Float64Array {
    return handOver(super.sweepChunk(...question));
  }

  override holeChunk(...question: Parameters<ExploreJobs['holeChunk']>): Float64Array {
    return handOver(super.holeChunk(...question));
  }
}

expose(new WorkerJobs());
