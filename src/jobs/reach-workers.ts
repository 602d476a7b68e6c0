import { COMPARED_COLUMNS, type CompareService } from './compare-service.ts';
import { LatestQueue } from './latest-queue.ts';
import type { ReachJobs } from './reach-jobs.ts';
import type { ReachService } from './reach-service.ts';
import { WorkerHost } from './worker-host.ts';

const spawn = () => new Worker(new URL('./reach.worker.ts', import.meta.url), { type: 'module', name: 'reach' });

/**
 * A job that is not wanted any more is let run to its end if it has run for less than this [ms]: a new worker would have to
 * load and compile everything anew, and be slower for a second than the one that was stopped.
 */
const PATIENCE = 500;

/**
 * The reach computed off the main thread. One worker answers what follows a slider, numbers before drawings; what takes
 * longer has its own, so that it never stands in the way and can be stopped at once.
 * @param onDeath is told in words when a worker died
 */
export function createReachWorkers(onDeath: (message: string) => void): ReachService & CompareService {
  const quick = new WorkerHost<ReachJobs>(spawn, onDeath);
  const slow = new WorkerHost<ReachJobs>(spawn, onDeath);
  quick.start();
  const quickQueue = new LatestQueue(['summary', 'coarse']);
  const slowQueue = new LatestQueue([
    'fine',
    'tilted',
    'pinned',
    ...COMPARED_COLUMNS.map((column) => `compared ${column}` as const),
    ...COMPARED_COLUMNS.map((column) => `compared usable ${column}` as const),
    ...COMPARED_COLUMNS.map((column) => `compared tilts ${column}` as const),
  ]);
  return {
    summary: (question) => quickQueue.ask('summary', () => quick.call((remote) => remote.summary(question))),
    picture: (question, detail) =>
      detail === 'coarse'
        ? quickQueue.ask('coarse', () => quick.call((remote) => remote.picture(question, 'coarse')))
        : slowQueue.ask('fine', () => slow.call((remote) => remote.picture(question, 'fine'))),
    tilted: (question, range) => slowQueue.ask('tilted', () => slow.call((remote) => remote.tilted(question, range))),
    pinned: (question, range) => slowQueue.ask('pinned', () => slow.call((remote) => remote.pinned(question, range))),
    compared: (column, question) =>
      slowQueue.ask(`compared ${column}`, () => slow.call((remote) => remote.compared(question))),
    comparedTilts: (column, question, range) =>
      slowQueue.ask(`compared tilts ${column}`, () => slow.call((remote) => remote.tilted(question, range))),
    comparedUsable: (column, question, floors) =>
      slowQueue.ask(`compared usable ${column}`, () => slow.call((remote) => remote.comparedUsable(question, floors))),
    stop: (job) => {
      slowQueue.cancelWaiting(job);
      if (slowQueue.running === job && slowQueue.runningTime > PATIENCE) slow.stop();
    },
  };
}
