import { ChunkPool } from '../../src/jobs/chunk-pool.ts';
import { ExploreJobs } from '../../src/jobs/explore-jobs.ts';
import { ExploreTableJobs } from '../../src/jobs/explore-table-jobs.ts';
import type { ExploreWorkers } from '../../src/jobs/explore-workers.ts';
import { HoleTableJobs } from '../../src/jobs/hole-table-jobs.ts';
import { WorkerHost } from '../../src/jobs/worker-host.ts';
import { StandInWorker } from '../jobs/stand-in-worker.ts';

/** Notes which chunks were measured. */
class NotingJobs extends ExploreJobs {
  constructor(private readonly note: (chunk: number, most: number | undefined) => void) {
    super();
  }

  override sweepChunk(...[key, sweep, chunk, most]: Parameters<ExploreJobs['sweepChunk']>): Float64Array {
    this.note(chunk, most);
    return super.sweepChunk(key, sweep, chunk, most);
  }
}

/** The workers of the place Explore as message channels in this thread. */
export function standInWorkers() {
  const made: { readonly kind: string; readonly worker: StandInWorker }[] = [];
  /** Whole chunks measured, in order. */
  const measured: number[] = [];
  const host = <Api>(kind: string, api: () => unknown) =>
    new WorkerHost<Api>(
      () => {
        const worker = new StandInWorker(api());
        made.push({ kind, worker });
        return worker;
      },
      () => undefined,
    );
  const jobs = () => new NotingJobs((chunk, most) => void (most === undefined && measured.push(chunk)));
  const workers: ExploreWorkers = {
    pool: new ChunkPool([0, 1].map(() => host<ExploreJobs>('pool', jobs))),
    single: host<ExploreJobs>('single', jobs),
    table: host<ExploreTableJobs>('table', () => new ExploreTableJobs()),
    holes: host<HoleTableJobs>('holes', () => new HoleTableJobs()),
  };
  return {
    workers,
    measured,
    kill: (kind: string) => made.findLast((one) => one.kind === kind)?.worker.die(),
    close: () => {
      for (const { worker } of made) worker.terminate();
    },
  };
}
