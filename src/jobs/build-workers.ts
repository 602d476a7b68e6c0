import { proxy } from 'comlink';
import type { BuildWorkerJobs } from './build.worker.ts';
import type { BuildPreview, BuildQuestion, SavedBuild, SaveQuestion } from './build-jobs.ts';
import { LatestQueue } from './latest-queue.ts';
import type { JobOutcome } from './outcome.ts';
import { WorkerHost } from './worker-host.ts';

/** Whoever makes what leaves the program: workers in the browser, plain functions in tests. No promise rejects. */
export interface BuildService {
  /** The newest question wins. */
  preview(question: BuildQuestion): Promise<JobOutcome<BuildPreview>>;
  save(question: SaveQuestion, report: (share: number) => void): Promise<JobOutcome<SavedBuild>>;
  /** Stops saving; its answer is `cancelled`, and no file is left. */
  stopSaving(): void;
}

const spawn = () => new Worker(new URL('./build.worker.ts', import.meta.url), { type: 'module', name: 'build' });

/**
 * One worker that draws what is shown and one that writes what is saved, so that neither waits for the other; each is started when it is first needed.
 * @param onDeath is told in words when a worker died
 */
export function createBuildWorkers(onDeath: (message: string) => void): BuildService {
  const preview = new WorkerHost<BuildWorkerJobs>(spawn, onDeath);
  const save = new WorkerHost<BuildWorkerJobs>(spawn, onDeath);
  const shown = new LatestQueue(['preview']);
  const saved = new LatestQueue(['save']);
  return {
    preview: (question) => shown.ask('preview', () => preview.call((jobs) => jobs.preview(question))),
    save: (question, report) => saved.ask('save', () => save.call((jobs) => jobs.save(question, proxy(report)))),
    stopSaving: () => {
      saved.cancelWaiting('save');
      if (saved.running !== null) save.stop();
    },
  };
}
