import { transfer } from 'comlink';
import { figureOptions } from '../../document/build-inputs.ts';
import type { DesignDocument } from '../../document/design.ts';
import { type SweepDocument, sweepAxes, sweepSize, validateSweep } from '../../document/sweep-file.ts';
import { sweptDesign } from '../../document/swept-design.ts';
import { FIGURE_COUNT } from '../../explore/layout-figures.ts';
import type { Sweep } from '../../explore/sweep.ts';
import type { ChunkRun } from '../../jobs/chunk-pool.ts';
import { chunkCount, chunkSize } from '../../jobs/explore-jobs.ts';
import type { ExploreWorkers } from '../../jobs/explore-workers.ts';
import { reasonOf } from '../../jobs/outcome.ts';
import { MOST_DEATHS, WorkerLost } from '../../jobs/worker-host.ts';
import { dimensionsOf } from '../../kinematics/dimensions.ts';
import { type DesignStore, liveDocument } from '../design/design-store.ts';
import { sweepIdentity } from './explore-identity.ts';
import {
  cutsThrough,
  type ExploreStore,
  NO_PICTURES,
  type SweepRun,
  type SweepStatus,
  viewFor,
} from './explore-store.ts';
import { Stopwatch } from './stopwatch.ts';
import type { Chunk, SweepKeeper } from './sweep-keeper.ts';

/** How often measured rows go on to the table [ms], and after how many such times into the browser's store. */
const FLUSH_TIME = 200;
const FLUSHES_A_WRITE = 3;

/** Rows of a kept sweep that are measured again to see whether they are still what this program finds. */
const CHECKED_ROWS = 4;

/** Chunks that are read from the browser's store at once: about a megabyte, so that no frame waits for it. */
const CHUNKS_A_READ = 16;

/** Layouts that a sweep must have measured on this page for its pace to count. */
const PACE_LAYOUTS = 1000;

export interface RunStores {
  readonly design: DesignStore;
  readonly explore: ExploreStore;
}

/** Runs sweeps: one at a time, what is known first, the rest shared among the workers. */
export class SweepRunner {
  readonly #stores: RunStores;
  readonly #workers: ExploreWorkers;
  readonly #keeper: SweepKeeper;
  readonly #clock: Stopwatch;
  /** Rises with every sweep that is opened; what belongs to an older one is dropped. */
  #turn = 0;
  #chunks = new Set<number>();
  #run: ChunkRun | null = null;
  #pending: Chunk[] = [];
  /** Rows that the table has and the browser's store does not. */
  #unwritten: Chunk[] = [];
  #flushes = 0;
  /** Settles when the browser's store knows of the sweep; rows go there afterwards. */
  #entered: Promise<unknown> = Promise.resolve();
  #tableLosses = 0;
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(
    stores: RunStores,
    workers: ExploreWorkers,
    keeper: SweepKeeper,
    now: () => number = () => performance.now(),
  ) {
    this.#stores = stores;
    this.#workers = workers;
    this.#keeper = keeper;
    this.#clock = new Stopwatch(now);
  }

  /** Runs the sweep of the set-up about the present design; goes on where a kept one stopped. */
  async start(): Promise<void> {
    const document = liveDocument(this.#stores.design.getState());
    const valid = validateSweep(this.#stores.explore.getState().setup);
    if (!valid.ok) return;
    this.#tableLosses = 0;
    const { run } = this.#stores.explore.getState();
    if (run && run.status !== 'loading' && isSame(run, document, valid.value)) {
      if (run.status !== 'running' && run.status !== 'done') this.resume();
      return;
    }
    if (await this.open(document, valid.value)) this.#compute();
  }

  pause(): void {
    if (this.#status !== 'running') return;
    this.#run?.pause();
    this.#clock.stop();
    this.#change({ status: 'paused' });
    void this.#write();
  }

  resume(): void {
    if (this.#run) {
      this.#run.resume();
      this.#clock.start();
      this.#change({ status: 'running' });
    } else this.#compute();
  }

  /** Ends the sweep; what is known stays. */
  cancel(): void {
    this.#run?.cancel();
  }

  /**
   * Puts a sweep on screen with whatever is known of it. False when the design cannot be swept, or another sweep was opened
   * meanwhile.
   */
  async open(document: DesignDocument, sweep: SweepDocument): Promise<boolean> {
    const design = sweptDesign(document);
    if (!design.ok) return false;
    this.#leave();
    const turn = this.#turn;
    const grid = sweepAxes(sweep);
    const identity = sweepIdentity(design.value, grid, sweep, figureOptions(document, sweep).build);
    const run: SweepRun = {
      identity,
      sweep,
      document,
      design: design.value,
      grid,
      layouts: sweepSize(sweep),
      known: 0,
      status: 'loading',
      secondsLeft: null,
      seconds: 0,
      measured: 0,
      kept: this.#keeper.works ? 'browser' : 'memory',
      failure: null,
    };
    this.#stores.explore.setState(({ view }) => ({
      run,
      stale: false,
      setup: sweep,
      view: { ...viewFor(view, grid), cuts: cutsThrough(grid, dimensionsOf(design.value)) },
      pictures: NO_PICTURES,
      drawn: 0,
      pointed: null,
    }));
    const question = questionOf(run);
    await this.#workers.table.call((table) => table.open(identity.key, question));
    await this.#readKept(turn, run, question);
    if (turn !== this.#turn) return false;
    this.#change({ status: this.#isWhole(run) ? 'done' : 'paused' });
    return true;
  }

  get #status(): SweepStatus | null {
    return this.#stores.explore.getState().run?.status ?? null;
  }

  #leave(): void {
    this.#turn += 1;
    this.#run?.cancel();
    this.#run = null;
    this.#chunks = new Set();
    this.#pending = [];
    this.#unwritten = [];
    this.#clock.reset();
  }

  async #readKept(turn: number, run: SweepRun, question: Sweep): Promise<void> {
    const { key } = run.identity;
    const kept = await this.#keeper.chunks(run);
    if (kept.length === 0 || turn !== this.#turn) return;
    if (!(await this.#stillHolds(run, question, kept))) {
      await this.#keeper.drop(key);
      return;
    }
    for (let n = 0; n < kept.length; n += CHUNKS_A_READ) {
      const chunks = await this.#keeper.read(key, kept[n], kept[Math.min(n + CHUNKS_A_READ, kept.length) - 1]);
      if (turn !== this.#turn) return;
      for (const [chunk] of chunks) this.#chunks.add(chunk);
      await this.#toTable(key, chunks);
      this.#change({ known: this.#knownLayouts(run) });
    }
  }

  /** Measures a few rows of the first and last kept chunk again: figures of another version of the program are not mixed in. */
  async #stillHolds(run: SweepRun, question: Sweep, kept: readonly number[]): Promise<boolean> {
    const { key } = run.identity;
    for (const chunk of new Set([kept[0], kept[kept.length - 1]])) {
      const [[, rows] = []] = await this.#keeper.read(key, chunk, chunk);
      const fresh = await this.#workers.single.call((worker) => worker.sweepChunk(key, question, chunk, CHECKED_ROWS));
      if (!rows || rows.length !== chunkSize(run.layouts, chunk) * FIGURE_COUNT) return false;
      if (fresh.some((value, n) => !Object.is(value, rows[n]))) return false;
    }
    return true;
  }

  #compute(): void {
    const { run } = this.#stores.explore.getState();
    if (!run || run.status === 'done') return;
    const turn = this.#turn;
    const { key } = run.identity;
    const question = questionOf(run);
    this.#entered = this.#keeper.enter(run);
    this.#clock.start();
    this.#change({ status: 'running', failure: null });
    this.#run = this.#workers.pool.run({
      chunks: missing(chunkCount(run.layouts), this.#chunks),
      compute: (worker, chunk) => worker.sweepChunk(key, question, chunk),
      onChunk: (chunk, rows) => {
        if (turn === this.#turn) this.#take(chunk, rows);
      },
    });
    void this.#run.finished.then(async (outcome) => {
      if (turn !== this.#turn) return;
      this.#run = null;
      await this.#flush();
      await this.#write();
      this.#clock.stop();
      if (turn !== this.#turn) return;
      if (outcome.kind === 'failed') this.#change({ status: 'failed', failure: outcome.reason });
      // the last pieces may still have come in after a cancel
      else this.#change({ status: this.#isWhole(run) ? 'done' : 'partial', secondsLeft: null });
    });
  }

  #take(chunk: number, rows: Float64Array): void {
    this.#chunks.add(chunk);
    this.#pending.push([chunk, rows]);
    // the first chunk spans the whole picture: it goes on at once, and nothing goes before it, whichever worker is done first
    if (!this.#chunks.has(0)) return;
    const wait = chunk === 0 ? 0 : FLUSH_TIME;
    this.#timer ??= setTimeout(() => {
      this.#timer = null;
      void this.#flush();
    }, wait);
  }

  /** Hands a copy of measured rows to the table and keeps them for the browser's store. */
  async #flush(): Promise<void> {
    const { run } = this.#stores.explore.getState();
    const chunks = this.#pending;
    if (!run || chunks.length === 0) return;
    this.#pending = [];
    const measured = run.measured + chunks.reduce((sum, [, rows]) => sum + rows.length / FIGURE_COUNT, 0);
    this.#change({ known: this.#knownLayouts(run), measured, ...this.#timing(run, measured) });
    this.#notePace();
    this.#unwritten.push(...chunks);
    this.#flushes += 1;
    if (this.#flushes % FLUSHES_A_WRITE === 0 || run.status !== 'running') void this.#write();
    await this.#toTable(
      run.identity.key,
      chunks.map(([chunk, rows]) => [chunk, rows.slice()] as const),
    );
  }

  async #write(): Promise<void> {
    const { run } = this.#stores.explore.getState();
    const chunks = this.#unwritten;
    if (!run || chunks.length === 0) return;
    this.#unwritten = [];
    const turn = this.#turn;
    await this.#entered;
    const kept = await this.#keeper.write(run.identity.key, chunks);
    if (!kept && turn === this.#turn) this.#change({ kept: 'memory' });
  }

  async #toTable(key: string, chunks: readonly Chunk[]): Promise<void> {
    const turn = this.#turn;
    try {
      const buffers = chunks.map(([, rows]) => rows.buffer);
      await this.#workers.table.call((table) => table.add(key, transfer([...chunks], buffers)));
    } catch {
      if (turn === this.#turn) await this.#afterTableLoss();
    }
  }

  /** The worker that held the figures died: opens the sweep again and goes on; what was kept is read, the rest measured again. */
  async #afterTableLoss(): Promise<void> {
    const { run } = this.#stores.explore.getState();
    if (!run) return;
    const going = run.status === 'running';
    this.#tableLosses += 1;
    try {
      if (this.#tableLosses > MOST_DEATHS) throw new WorkerLost('The table of layouts keeps stopping.');
      if ((await this.open(run.document, run.sweep)) && going) this.#compute();
    } catch (thrown) {
      this.#change({ status: 'failed', failure: reasonOf(thrown) });
    }
  }

  /** What a sweep really takes tells better than any sample how long the next one will take. */
  #notePace(): void {
    const { run } = this.#stores.explore.getState();
    if (!run || run.measured < PACE_LAYOUTS) return;
    this.#stores.explore.setState({ pace: (run.seconds * this.#workers.pool.size) / run.measured });
  }

  #isWhole({ layouts }: SweepRun): boolean {
    return this.#chunks.size === chunkCount(layouts);
  }

  #knownLayouts({ layouts }: SweepRun): number {
    const last = chunkCount(layouts) - 1;
    const full = chunkSize(layouts, 0) * this.#chunks.size;
    return this.#chunks.has(last) ? full - chunkSize(layouts, 0) + chunkSize(layouts, last) : full;
  }

  #timing(run: SweepRun, measured: number): Pick<SweepRun, 'seconds' | 'secondsLeft'> {
    const { seconds } = this.#clock;
    const left = run.layouts - this.#knownLayouts(run);
    return { seconds, secondsLeft: measured > 0 ? (left * seconds) / measured : null };
  }

  #change(change: Partial<SweepRun>): void {
    this.#stores.explore.setState(({ run }) => (run ? { run: { ...run, ...change } } : {}));
  }
}

export const questionOf = ({ document, design, grid, sweep }: SweepRun): Sweep => ({
  design,
  grid,
  options: figureOptions(document, sweep),
});

function isSame({ identity }: SweepRun, document: DesignDocument, sweep: SweepDocument): boolean {
  const design = sweptDesign(document);
  return (
    design.ok &&
    sweepIdentity(design.value, sweepAxes(sweep), sweep, figureOptions(document, sweep).build).text === identity.text
  );
}

function* missing(count: number, known: ReadonlySet<number>): Generator<number> {
  for (let chunk = 0; chunk < count; chunk++) if (!known.has(chunk)) yield chunk;
}
