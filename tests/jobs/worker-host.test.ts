import { expose, transfer } from 'comlink';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { JobCancelled } from '../../src/jobs/latest-queue.ts';
import { buffersIn } from '../../src/jobs/transferables.ts';
import { LONGEST_START, MOST_DEATHS, WorkerHost, type WorkerLike, WorkerLost } from '../../src/jobs/worker-host.ts';

const api = {
  double: (value: number) => 2 * value,
  squares: (count: number) => {
    const value = { squares: Float64Array.from({ length: count }, (_, n) => n * n), name: 'squares' };
    return transfer(value, buffersIn(value));
  },
  fail: (): number => {
    throw new Error('impossible layout');
  },
  never: () => new Promise<number>(() => undefined),
};

/** A message channel in a worker's clothes: the far end answers, and it can be made to die. */
class StandInWorker extends EventTarget implements WorkerLike {
  readonly #channel = new MessageChannel();
  terminated = false;

  constructor() {
    super();
    expose(api, this.#channel.port2);
    this.#channel.port1.onmessage = ({ data }) => this.dispatchEvent(new MessageEvent('message', { data }));
  }

  postMessage(message: unknown, moved: Transferable[] = []): void {
    if (!this.terminated) this.#channel.port1.postMessage(message, moved);
  }

  terminate(): void {
    this.terminated = true;
    this.#channel.port1.close();
  }

  die(): void {
    this.dispatchEvent(new Event('error', { cancelable: true }));
  }
}

const made: StandInWorker[] = [];
const told: string[] = [];
const host = () =>
  new WorkerHost<typeof api>(
    () => {
      const worker = new StandInWorker();
      made.push(worker);
      return worker;
    },
    (message) => told.push(message),
  );

afterEach(() => {
  for (const worker of made) worker.terminate();
  made.length = 0;
  told.length = 0;
});

describe('the worker host', () => {
  it('calls one and the same worker', async () => {
    const workers = host();
    expect(await workers.call((remote) => remote.double(21))).toBe(42);
    expect(await workers.call((remote) => remote.squares(4))).toEqual({
      squares: Float64Array.of(0, 1, 4, 9),
      name: 'squares',
    });
    expect(made).toHaveLength(1);
  });

  it("passes on a job's own error and keeps the worker", async () => {
    const workers = host();
    await expect(workers.call((remote) => remote.fail())).rejects.toThrow('impossible layout');
    expect(await workers.call((remote) => remote.double(1))).toBe(2);
    expect(made).toHaveLength(1);
  });

  it('fails the running call when the worker dies, says so, and starts another', async () => {
    const workers = host();
    const waiting = workers.call((remote) => remote.never());
    made[0].die();
    await expect(waiting).rejects.toBeInstanceOf(WorkerLost);
    expect(made[0].terminated).toBe(true);
    expect(told).toEqual(['The calculation stopped unexpectedly and was started again.']);
    expect(await workers.call((remote) => remote.double(3))).toBe(6);
    expect(made).toHaveLength(2);
  });

  it('gives up after several deaths in a row', async () => {
    const workers = host();
    for (let n = 0; n < MOST_DEATHS; n++) {
      const waiting = workers.call((remote) => remote.never());
      made[n].die();
      await expect(waiting).rejects.toBeInstanceOf(WorkerLost);
    }
    await expect(workers.call((remote) => remote.double(1))).rejects.toThrow('reload');
    expect(made).toHaveLength(MOST_DEATHS);
  });

  it('stops a running call on purpose without a word', async () => {
    const workers = host();
    const waiting = workers.call((remote) => remote.never());
    workers.stop();
    await expect(waiting).rejects.toBeInstanceOf(JobCancelled);
    expect(told).toEqual([]);
    expect(await workers.call((remote) => remote.double(4))).toBe(8);
  });
});

describe('a browser without workers', () => {
  it('is told apart at once, also where the worker is started before it is needed', async () => {
    const workers = new WorkerHost<typeof api>(
      () => {
        throw new ReferenceError('Worker is not defined');
      },
      (message) => told.push(message),
    );
    workers.start();
    await expect(workers.call((remote) => remote.double(1))).rejects.toThrow('starts no workers');
    expect(told).toEqual([expect.stringContaining('starts no workers')]);
    await expect(workers.call((remote) => remote.double(1))).rejects.toBeInstanceOf(WorkerLost);
    expect(told).toHaveLength(1);
  });

  it('or whose workers never say anything fails the call after a while', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    class Silent extends EventTarget implements WorkerLike {
      postMessage(): void {}
      terminate(): void {}
    }
    const workers = new WorkerHost<typeof api>(
      () => new Silent(),
      (message) => told.push(message),
    );
    const waiting = workers.call((remote) => remote.double(1));
    vi.advanceTimersByTime(LONGEST_START);
    vi.useRealTimers();
    await expect(waiting).rejects.toBeInstanceOf(WorkerLost);
    expect(told).toHaveLength(1);
  });

  it('a long job of a living worker is left to itself', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const workers = host();
    expect(await workers.call((remote) => remote.double(2))).toBe(4);
    const waiting = workers.call((remote) => remote.never());
    vi.advanceTimersByTime(10 * LONGEST_START);
    vi.useRealTimers();
    workers.stop();
    await expect(waiting).rejects.toBeInstanceOf(JobCancelled);
    expect(told).toEqual([]);
  });
});

describe('buffersIn', () => {
  it('finds every buffer once', () => {
    const shared = new ArrayBuffer(64);
    const value = {
      cloud: { points: new Float32Array(shared, 0, 4), colours: new Uint8Array(shared, 16, 4) },
      parts: [{ mesh: Uint32Array.of(1, 2, 3) }],
      count: 3,
      nothing: null,
    };
    expect(buffersIn(value)).toEqual([shared, value.parts[0].mesh.buffer]);
  });
});
