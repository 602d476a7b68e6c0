import { afterEach, describe, expect, it } from 'vitest';
import { ChunkPool } from '../../src/jobs/chunk-pool.ts';
import { MOST_DEATHS, WorkerHost } from '../../src/jobs/worker-host.ts';
import { StandInWorker } from './stand-in-worker.ts';

const made: StandInWorker[] = [];

afterEach(() => {
  for (const worker of made) worker.terminate();
  made.length = 0;
});

const square = {
  square: async (chunk: number): Promise<number> => {
    await new Promise((resume) => setTimeout(resume, 1));
    if (chunk < 0) throw new Error('no such chunk');
    return chunk * chunk;
  },
};

/** A pool whose workers do something when they are made: nothing, die or fall silent. */
function pool(workers: number, onMade: (worker: StandInWorker, made: number) => void, limit?: number) {
  const hosts = Array.from(
    { length: workers },
    () =>
      new WorkerHost<typeof square>(
        () => {
          const worker = new StandInWorker(square);
          made.push(worker);
          onMade(worker, made.length);
          return worker;
        },
        () => undefined,
      ),
  );
  return new ChunkPool(hosts, limit);
}

function run(chunks: readonly number[], from: ChunkPool<typeof square>, onChunk?: (chunk: number) => void) {
  const seen = new Map<number, number>();
  let calls = 0;
  const running = from.run({
    chunks,
    compute: (remote, chunk) => remote.square(chunk),
    onChunk: (chunk, value) => {
      calls += 1;
      seen.set(chunk, value);
      onChunk?.(chunk);
    },
  });
  return { running, seen, calls: () => calls };
}

const upTo = (count: number) => Array.from({ length: count }, (_, n) => n);

describe('a pool of workers', () => {
  it('computes every piece once', async () => {
    const { running, seen, calls } = run(
      upTo(40),
      pool(3, () => undefined),
    );
    expect(await running.finished).toEqual({ kind: 'done', value: null });
    expect(calls()).toBe(40);
    expect([...seen.entries()].every(([chunk, value]) => value === chunk * chunk)).toBe(true);
  });

  it('redoes the piece of a worker that died and loses nothing', async () => {
    const from = pool(2, () => undefined);
    const { running, seen, calls } = run(upTo(30), from, (chunk) => {
      if (chunk === 5) made[0].die();
    });
    expect((await running.finished).kind).toBe('done');
    expect(seen.size).toBe(30);
    expect(calls()).toBe(30);
    expect(made.length).toBe(3);
  });

  it('takes a worker that never answers for dead', async () => {
    const from = pool(
      1,
      (worker, count) => {
        worker.silent = count === 1;
      },
      30,
    );
    const { running, seen } = run(upTo(4), from);
    expect((await running.finished).kind).toBe('done');
    expect(seen.size).toBe(4);
    expect(made).toHaveLength(2);
  });

  it('gives up when the workers keep dying, and says why', async () => {
    const from = pool(2, (worker) => void setTimeout(() => worker.die()));
    const { running, seen } = run(upTo(10), from);
    const outcome = await running.finished;
    expect(outcome.kind).toBe('failed');
    expect(seen.size).toBe(0);
    expect(made.length).toBe(2 * MOST_DEATHS);
  });

  it('ends with the reason when a piece itself cannot be computed', async () => {
    const { running } = run(
      [1, -1, 2],
      pool(1, () => undefined),
    );
    expect(await running.finished).toEqual({ kind: 'failed', reason: 'no such chunk' });
  });

  it('starts nothing while paused and goes on afterwards', async () => {
    const { running, seen } = run(
      upTo(20),
      pool(2, () => undefined),
    );
    await new Promise((resume) => setTimeout(resume, 5));
    running.pause();
    await new Promise((resume) => setTimeout(resume, 20));
    const paused = seen.size;
    await new Promise((resume) => setTimeout(resume, 20));
    expect(seen.size).toBe(paused);
    expect(paused).toBeLessThan(20);
    running.resume();
    expect((await running.finished).kind).toBe('done');
    expect(seen.size).toBe(20);
  });

  it('keeps what was computed when it is cancelled, paused or not', async () => {
    const { running, seen } = run(
      upTo(1000),
      pool(2, () => undefined),
    );
    await new Promise((resume) => setTimeout(resume, 20));
    running.pause();
    running.cancel();
    expect((await running.finished).kind).toBe('cancelled');
    expect(seen.size).toBeGreaterThan(0);
    expect(seen.size).toBeLessThan(1000);
  });
});
