import { expose } from 'comlink';
import { ExploreTableJobs } from './explore-table-jobs.ts';
import { handOver } from './transferables.ts';

/** {@link ExploreTableJobs} whose large answers change hands instead of being copied; what is kept is not handed over. */
class WorkerJobs extends ExploreTableJobs {
  override heat(...question: Parameters<ExploreTableJobs['heat']>) {
    return handOver(super.heat(...question));
  }

  override scatter(...question: Parameters<ExploreTableJobs['scatter']>) {
    return handOver(super.scatter(...question));
  }

  override front(...question: Parameters<ExploreTableJobs['front']>) {
    return handOver(super.front(...question));
  }
}

expose(new WorkerJobs());
