import { CANCELLED, type JobOutcome, reasonOf } from './outcome.ts';

interface WaitingJob {
  /** Runs to the end; what comes back hands the outcome to whoever asked. */
  run(): Promise<() => void>;
  drop(): void;
}

/**
 * Jobs for one worker. One runs at a time; of each kind only the newest one waits, and asking again drops the one that
 * waited. When the running job ends, the waiting kind that stands first in `order` goes next.
 */
export class LatestQueue<Kind extends string> {
  readonly #order: readonly Kind[];
  readonly #waiting = new Map<Kind, WaitingJob>();
  #running: Kind | null = null;
  #since = 0;

  constructor(order: readonly Kind[]) {
    this.#order = order;
  }

  /** The kind under way, or null. */
  get running(): Kind | null {
    return this.#running;
  }

  /** How long the running job has been at it [ms]; 0 when none is. */
  get runningTime(): number {
    return this.#running === null ? 0 : performance.now() - this.#since;
  }

  /** Runs `work` when its turn comes; the promise never rejects. */
  ask<Value>(kind: Kind, work: () => Promise<Value>): Promise<JobOutcome<Value>> {
    this.cancelWaiting(kind);
    return new Promise((settle) => {
      this.#waiting.set(kind, {
        run: async () => {
          const outcome = await outcomeOf(work);
          return () => settle(outcome);
        },
        drop: () => settle(CANCELLED),
      });
      this.#next();
    });
  }

  /** Drops the waiting job of a kind; the running one goes on. */
  cancelWaiting(kind: Kind): void {
    const waiting = this.#waiting.get(kind);
    this.#waiting.delete(kind);
    waiting?.drop();
  }

  #next(): void {
    if (this.#running !== null) return;
    const kind = this.#order.find((candidate) => this.#waiting.has(candidate));
    if (kind === undefined) return;
    const job = this.#waiting.get(kind);
    this.#waiting.delete(kind);
    this.#running = kind;
    this.#since = performance.now();
    void job?.run().then((report) => {
      this.#running = null;
      report();
      this.#next();
    });
  }
}

async function outcomeOf<Value>(work: () => Promise<Value>): Promise<JobOutcome<Value>> {
  try {
    return { kind: 'done', value: await work() };
  } catch (thrown) {
    return thrown instanceof JobCancelled ? CANCELLED : { kind: 'failed', reason: reasonOf(thrown) };
  }
}

/** Thrown by a job that was stopped on purpose. */
export class JobCancelled extends Error {
  override readonly name = 'JobCancelled';
}
