import { ChunkPool } from './chunk-pool.ts';
import type { ExploreJobs } from './explore-jobs.ts';
import type { ExploreTableJobs } from './explore-table-jobs.ts';
import type { HoleTableJobs } from './hole-table-jobs.ts';
import { WorkerHost } from './worker-host.ts';

/** The workers of the place Explore. None is started before it is first used. */
export interface ExploreWorkers {
  /** One worker for each core, for work in pieces. */
  readonly pool: ChunkPool<ExploreJobs>;
  /** One more for single questions and searches, so that they do not wait behind a sweep. */
  readonly single: WorkerHost<ExploreJobs>;
  /** Holds the figures of the sweep on screen and takes pictures of them. */
  readonly table: WorkerHost<ExploreTableJobs>;
  /** Holds the figures of all hole choices and ranks them. */
  readonly holes: WorkerHost<HoleTableJobs>;
}

const spawnExplorer = () =>
  new Worker(new URL('./explore.worker.ts', import.meta.url), { type: 'module', name: 'explore' });

const spawnTable = () =>
  new Worker(new URL('./explore-table.worker.ts', import.meta.url), { type: 'module', name: 'explore-table' });

const spawnHoles = () =>
  new Worker(new URL('./hole-table.worker.ts', import.meta.url), { type: 'module', name: 'hole-table' });

/**
 * @param cores processors of this machine
 * @param onDeath is told in words when a worker died
 */
export function createExploreWorkers(cores: number, onDeath: (message: string) => void): ExploreWorkers {
  const count = Math.max(1, Math.floor(cores) || 1);
  return {
    pool: new ChunkPool(Array.from({ length: count }, () => new WorkerHost<ExploreJobs>(spawnExplorer, onDeath))),
    single: new WorkerHost<ExploreJobs>(spawnExplorer, onDeath),
    table: new WorkerHost<ExploreTableJobs>(spawnTable, onDeath),
    holes: new WorkerHost<HoleTableJobs>(spawnHoles, onDeath),
  };
}
