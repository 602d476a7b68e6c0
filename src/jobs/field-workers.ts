import type { FieldJobs } from './field-jobs.ts';
import type { FieldService } from './field-service.ts';
import { LatestQueue } from './latest-queue.ts';
import { WorkerHost } from './worker-host.ts';

const spawn = () => new Worker(new URL('./field.worker.ts', import.meta.url), { type: 'module', name: 'field' });

/**
 * Fields computed off the main thread, in workers that start with their first question. A cut that is dragged comes before all
 * else; the usable volume, which takes longest, has a worker of its own, so that it never stands in the way.
 * @param onDeath is told in words when a worker died
 */
export function createFieldWorkers(onDeath: (message: string) => void): FieldService {
  const host = new WorkerHost<FieldJobs>(spawn, onDeath);
  const slow = new WorkerHost<FieldJobs>(spawn, onDeath);
  const queue = new LatestQueue(['cut', 'field', 'signs']);
  const slowQueue = new LatestQueue(['usable']);
  return {
    field: (question, places) => queue.ask('field', () => host.call((remote) => remote.field(question, places))),
    cut: (question, cut) => queue.ask('cut', () => host.call((remote) => remote.cut(question, cut))),
    signs: (question, box) => queue.ask('signs', () => host.call((remote) => remote.signs(question, box))),
    usable: (question, floors) => slowQueue.ask('usable', () => slow.call((remote) => remote.usable(question, floors))),
  };
}
