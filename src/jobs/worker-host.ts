import { type Endpoint, type Remote, releaseProxy, wrap } from 'comlink';
import { JobCancelled } from './latest-queue.ts';

/** The part of a `Worker` that is needed here; tests stand in a message port. */
export interface WorkerLike extends Endpoint {
  terminate(): void;
}

/** The worker died under a job. */
export class WorkerLost extends Error {
  override readonly name = 'WorkerLost';
}

/** Deaths in a row, with no finished job between, after which no new worker is started. */
export const MOST_DEATHS = 3;

/** A worker that has not answered by then is taken for dead [ms]; one that lives loads within a second or two. */
export const LONGEST_START = 30_000;

const NO_WORKERS =
  'This browser starts no workers for the calculation. Drawing, leg lengths and judgement at a pose go on; reach, curves and sweeps are not computed.';

interface Living<Api> {
  readonly worker: WorkerLike;
  readonly remote: Remote<Api>;
  /** Never resolves; rejects when this worker dies or is stopped. */
  readonly ended: Promise<never>;
  readonly end: (reason: Error) => void;
}

/**
 * Keeps one worker alive. A call to a worker that dies fails instead of waiting for ever, and the next call gets a fresh
 * worker, until {@link MOST_DEATHS} deaths in a row.
 */
export class WorkerHost<Api> {
  readonly #spawn: () => WorkerLike;
  readonly #onDeath: (message: string) => void;
  #living: Living<Api> | null = null;
  #deaths = 0;

  /**
   * @param spawn makes a worker that exposes `Api`
   * @param onDeath is told, in words for the person at the screen, that a worker died
   */
  constructor(spawn: () => WorkerLike, onDeath: (message: string) => void) {
    this.#spawn = spawn;
    this.#onDeath = onDeath;
  }

  /** Calls the worker; rejects with the job's own error, {@link WorkerLost}, or {@link JobCancelled} after {@link stop}. */
  async call<Value>(use: (remote: Remote<Api>) => Promise<Value>): Promise<Value> {
    if (this.#deaths >= MOST_DEATHS)
      throw new WorkerLost('The calculation keeps stopping; reload the page to try again.');
    const { remote, ended } = this.#alive();
    const value = await Promise.race([use(remote), ended]);
    this.#deaths = 0;
    return value;
  }

  /**
   * Starts the worker before anything is asked of it, so that the first question need not wait for it. Where none can be
   * started, the first question says so.
   */
  start(): void {
    try {
      this.#living ??= this.#spawnWorker();
    } catch {
      this.#living = null;
    }
  }

  /** Stops whatever runs, at once; the next call starts a fresh worker. */
  stop(): void {
    this.#endLiving(new JobCancelled('stopped'));
  }

  #alive(): Living<Api> {
    try {
      this.#living ??= this.#spawnWorker();
      return this.#living;
    } catch {
      this.#deaths = MOST_DEATHS;
      this.#onDeath(NO_WORKERS);
      throw new WorkerLost(NO_WORKERS);
    }
  }

  #spawnWorker(): Living<Api> {
    const worker = this.#spawn();
    const { promise: ended, reject: end } = promiseWithReject();
    const living = { worker, remote: wrap<Api>(worker), ended, end };
    const died = (event: Event) => {
      event.preventDefault();
      if (this.#living?.worker === worker) this.#die();
    };
    worker.addEventListener('error', died);
    worker.addEventListener('messageerror', died);
    this.#awaitLife(living);
    return living;
  }

  /** A worker answers in order, so the first sign of life comes before any job's result. */
  #awaitLife({ worker, remote }: Living<Api>): void {
    const silent = setTimeout(() => {
      if (this.#living?.worker === worker) this.#die();
    }, LONGEST_START);
    // nothing stands under this name, and the worker says so
    void Promise.resolve(Reflect.get(remote, 'alive')).then(() => clearTimeout(silent));
  }

  #die(): void {
    this.#deaths += 1;
    const again = this.#deaths < MOST_DEATHS;
    this.#endLiving(new WorkerLost('The calculation stopped unexpectedly.'));
    this.#onDeath(
      again
        ? 'The calculation stopped unexpectedly and was started again.'
        : 'The calculation keeps stopping; reload the page to try again. The design is kept.',
    );
  }

  #endLiving(reason: Error): void {
    const living = this.#living;
    this.#living = null;
    if (!living) return;
    living.end(reason);
    living.worker.terminate();
    living.remote[releaseProxy]();
  }
}

function promiseWithReject(): { promise: Promise<never>; reject: (reason: Error) => void } {
  let reject: (reason: Error) => void = () => undefined;
  const promise = new Promise<never>((_, refuse) => {
    reject = refuse;
  });
  // nobody may be waiting when a worker is stopped between two jobs
  promise.catch(() => undefined);
  return { promise, reject };
}
