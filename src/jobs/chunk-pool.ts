import type { Remote } from 'comlink';
import { JobCancelled } from './latest-queue.ts';
import { type JobOutcome, reasonOf } from './outcome.ts';
import { MOST_DEATHS, type WorkerHost, WorkerLost } from './worker-host.ts';

/** Work in numbered pieces that do not depend on each other. */
export interface ChunkedJob<Api, Value> {
  /** Numbers of the pieces, in the order in which they are wanted. */
  readonly chunks: Iterable<number>;
  readonly compute: (remote: Remote<Api>, chunk: number) => Promise<Value>;
  /** Is told each piece once, in the order in which they come in. */
  readonly onChunk: (chunk: number, value: Value) => void;
}

/** A job under way. */
export interface ChunkRun {
  /** Resolves once: all pieces in, ended by `cancel`, or given up because the workers keep dying. Never rejects. */
  readonly finished: Promise<JobOutcome<null>>;
  /** Starts no further piece; those under way still come in. */
  readonly pause: () => void;
  readonly resume: () => void;
  readonly cancel: () => void;
}

/** A piece that takes longer than this is taken for lost with its worker [ms]: a thousand times what it should take. */
export const CHUNK_TIME_LIMIT = 60_000;

/** Pieces that a worker is given at a time: one to work on and one that waits there, so that it never waits for this thread. */
const PIECES_A_WORKER = 2;

/**
 * Shares pieces of work among some workers, {@link PIECES_A_WORKER} each at a time. A piece whose worker dies goes back to the front of the
 * queue and its worker is started again; nothing is lost and nothing comes in twice.
 */
export class ChunkPool<Api> {
  readonly #hosts: readonly WorkerHost<Api>[];
  readonly #timeLimit: number;

  constructor(hosts: readonly WorkerHost<Api>[], timeLimit = CHUNK_TIME_LIMIT) {
    this.#hosts = hosts;
    this.#timeLimit = timeLimit;
  }

  /** Workers that share the work. */
  get size(): number {
    return this.#hosts.length;
  }

  /** Has every worker do something small, so that all of them are up when work comes; failures show when it does. */
  warm(use: (remote: Remote<Api>) => Promise<unknown>): void {
    for (const host of this.#hosts) host.call(use).catch(() => undefined);
  }

  run<Value>(job: ChunkedJob<Api, Value>): ChunkRun {
    const queue = new ChunkQueue(job.chunks);
    const lanes = Array.from({ length: PIECES_A_WORKER }, () =>
      this.#hosts.map((host) => this.#lane(host, job, queue)),
    ).flat();
    const finished = Promise.all(lanes).then((ends): JobOutcome<null> => {
      if (queue.cancelled) return { kind: 'cancelled' };
      const reason = ends.find((end) => end !== null);
      return queue.done
        ? { kind: 'done', value: null }
        : { kind: 'failed', reason: reason ?? 'The work was not finished.' };
    });
    return {
      finished,
      pause: () => queue.pause(),
      resume: () => queue.resume(),
      cancel: () => queue.cancel(),
    };
  }

  /** Works through the queue with one worker, a piece at a time; resolves with the reason when that worker is given up, else null. */
  async #lane<Value>(
    host: WorkerHost<Api>,
    { compute, onChunk }: ChunkedJob<Api, Value>,
    queue: ChunkQueue,
  ): Promise<string | null> {
    let deaths = 0;
    for (;;) {
      const chunk = await queue.next();
      if (chunk === null) return null;
      let value: Value;
      try {
        value = await withTimeLimit(host, this.#timeLimit, () => host.call((remote) => compute(remote, chunk)));
      } catch (thrown) {
        queue.giveBack(chunk);
        if (queue.cancelled) return null;
        const died = thrown instanceof WorkerLost || thrown instanceof JobCancelled;
        deaths += 1;
        if (!died || deaths >= MOST_DEATHS) return reasonOf(thrown);
        continue;
      }
      deaths = 0;
      queue.settle();
      onChunk(chunk, value);
    }
  }
}

/** Stops the host, which fails the call, when it does not answer in time. */
async function withTimeLimit<Value>(
  host: Pick<WorkerHost<never>, 'stop'>,
  limit: number,
  call: () => Promise<Value>,
): Promise<Value> {
  const timer = setTimeout(() => host.stop(), limit);
  try {
    return await call();
  } finally {
    clearTimeout(timer);
  }
}

/** Hands out pieces; waits while paused, or while pieces that are out may still come back. */
class ChunkQueue {
  cancelled = false;
  readonly #source: Iterator<number>;
  readonly #returned: number[] = [];
  #exhausted = false;
  #out = 0;
  #paused = false;
  #waiting: (() => void)[] = [];

  constructor(chunks: Iterable<number>) {
    this.#source = chunks[Symbol.iterator]();
  }

  get done(): boolean {
    return this.#exhausted && this.#returned.length === 0 && this.#out === 0;
  }

  /** The next piece; null when there will be none. */
  async next(): Promise<number | null> {
    for (;;) {
      if (this.cancelled) return null;
      const chunk = this.#paused ? null : this.#take();
      if (chunk !== null) {
        this.#out += 1;
        return chunk;
      }
      if (!this.#paused && this.#out === 0) return null;
      await new Promise<void>((wake) => this.#waiting.push(wake));
    }
  }

  settle(): void {
    this.#out -= 1;
    this.#wake();
  }

  giveBack(chunk: number): void {
    this.#returned.push(chunk);
    this.settle();
  }

  pause(): void {
    this.#paused = true;
  }

  resume(): void {
    this.#paused = false;
    this.#wake();
  }

  cancel(): void {
    this.cancelled = true;
    this.#wake();
  }

  #take(): number | null {
    const returned = this.#returned.pop();
    if (returned !== undefined) return returned;
    if (this.#exhausted) return null;
    const { done, value } = this.#source.next();
    if (done) this.#exhausted = true;
    return done ? null : value;
  }

  #wake(): void {
    const waiting = this.#waiting;
    this.#waiting = [];
    for (const wake of waiting) wake();
  }
}
