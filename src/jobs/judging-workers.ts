import { proxy } from 'comlink';
import type { PoseCurves } from '../reach/field/pose-curves.ts';
import type { BoxDecision } from '../reach/prove/prove.ts';
import type { HelpReport } from '../reach/what-helps.ts';
import type { CurvesQuestion } from './curves-jobs.ts';
import type { HelpsQuestion } from './helps-jobs.ts';
import type { JudgingJobs, ReportShare } from './judging-jobs.ts';
import { LatestQueue } from './latest-queue.ts';
import type { JobOutcome } from './outcome.ts';
import type { ProveQuestion } from './prove-jobs.ts';
import { WorkerHost } from './worker-host.ts';

/** Whoever answers these questions: workers in the browser, plain functions in tests. No promise rejects. */
export interface JudgingService {
  curves(question: CurvesQuestion): Promise<JobOutcome<PoseCurves>>;
  prove(question: ProveQuestion, report: ReportShare): Promise<JobOutcome<BoxDecision>>;
  helps(question: HelpsQuestion, report: ReportShare): Promise<JobOutcome<HelpReport>>;
  /** Stops what runs of this kind and drops what waits; its answer is `cancelled`. */
  stop(job: 'prove' | 'helps'): void;
}

const spawn = () => new Worker(new URL('./judging.worker.ts', import.meta.url), { type: 'module', name: 'judging' });

/**
 * Curves, proofs and derivatives off the main thread, each in a worker of its own that is started when it is first needed: a
 * proof of minutes stands in nobody's way.
 * @param onDeath is told in words when a worker died
 */
export function createJudgingWorkers(onDeath: (message: string) => void): JudgingService {
  const host = () => new WorkerHost<JudgingJobs>(spawn, onDeath);
  const workers = { curves: host(), prove: host(), helps: host() };
  const queues = {
    curves: new LatestQueue(['curves']),
    prove: new LatestQueue(['prove']),
    helps: new LatestQueue(['helps']),
  };
  return {
    curves: (question) => queues.curves.ask('curves', () => workers.curves.call((jobs) => jobs.curves(question))),
    prove: (question, report) =>
      queues.prove.ask('prove', () => workers.prove.call((jobs) => jobs.prove(question, proxy(report)))),
    helps: (question, report) =>
      queues.helps.ask('helps', () => workers.helps.call((jobs) => jobs.helps(question, proxy(report)))),
    stop: (job) => {
      if (job === 'prove') queues.prove.cancelWaiting(job);
      else queues.helps.cancelWaiting(job);
      if (queues[job].running !== null) workers[job].stop();
    },
  };
}
