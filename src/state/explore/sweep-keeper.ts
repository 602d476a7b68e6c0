import { validateSweep } from '../../document/sweep-file.ts';
import { answered } from '../kept/browser-store.ts';
import {
  dropKept,
  enterSweep,
  type KeptSweep,
  type KeptSweeps,
  keptChunks,
  listKept,
  readChunks,
  writeChunks,
} from './explore-kept.ts';
import type { SweepRun } from './explore-store.ts';

/** Rows of one numbered chunk. */
export type Chunk = readonly [chunk: number, rows: Float64Array];

/** Why nothing more is kept. */
export type KeepingFault = 'full' | 'unavailable';

/**
 * Keeps the figures of sweeps in the browser. The first failure ends the keeping, tells why once, and every later call does
 * nothing: the sweep itself must go on.
 */
export class SweepKeeper {
  readonly #opened: Promise<KeptSweeps | null>;
  readonly #onFault: (fault: KeepingFault) => void;
  #broken = false;
  #kept: readonly KeptSweep[] = [];

  /**
   * @param open opens the browser's store
   * @param onFault is told once why nothing more is kept
   */
  constructor(open: () => Promise<KeptSweeps>, onFault: (fault: KeepingFault) => void) {
    this.#onFault = onFault;
    this.#opened = open().then(
      (database) => database,
      () => {
        this.#break('unavailable');
        return null;
      },
    );
  }

  get works(): boolean {
    return !this.#broken;
  }

  /** All kept sweeps, newest first. */
  async list(): Promise<readonly KeptSweep[]> {
    const found = (await this.#with((database) => listKept(database))) ?? [];
    // another version of the program may have kept what this one does not know
    this.#kept = found.filter(({ sweep }) => validateSweep(sweep).ok);
    return this.#newestFirst();
  }

  /** The kept sweeps as last listed or entered, newest first. */
  get known(): readonly KeptSweep[] {
    return this.#newestFirst();
  }

  /** Numbers of the kept chunks of a run, rising; none when what is kept under its key is another sweep's. */
  async chunks({ identity }: SweepRun): Promise<readonly number[]> {
    const chunks = await this.#with(async (database) => {
      const entry = await database.get('sweeps', identity.key);
      return entry?.text === identity.text ? keptChunks(database, identity.key) : [];
    });
    return chunks ?? [];
  }

  async read(key: string, from: number, to: number): Promise<readonly Chunk[]> {
    return (await this.#with((database) => readChunks(database, key, from, to))) ?? [];
  }

  /** Notes a sweep before its first rows are written; false when nothing is kept. */
  async enter({ identity, sweep }: SweepRun): Promise<boolean> {
    const entry: KeptSweep = { ...identity, sweep, savedAt: Date.now() };
    this.#kept = [...this.#kept.filter(({ key }) => key !== entry.key), entry];
    return (await this.#with(async (database) => enterSweep(database, entry).then(() => true))) ?? false;
  }

  /** Writes rows; false when they are not kept. */
  async write(key: string, chunks: readonly Chunk[]): Promise<boolean> {
    return (await this.#with(async (database) => writeChunks(database, key, chunks).then(() => true))) ?? false;
  }

  async drop(key: string): Promise<void> {
    await this.#with((database) => dropKept(database, key));
  }

  #newestFirst(): readonly KeptSweep[] {
    return [...this.#kept].sort((a, b) => b.savedAt - a.savedAt);
  }

  async #with<Value>(use: (database: KeptSweeps) => Promise<Value>): Promise<Value | null> {
    const database = await this.#opened;
    if (!database || this.#broken) return null;
    try {
      return await answered(use(database));
    } catch (thrown) {
      const full = thrown instanceof DOMException && thrown.name === 'QuotaExceededError';
      this.#break(full ? 'full' : 'unavailable');
      return null;
    }
  }

  #break(fault: KeepingFault): void {
    if (this.#broken) return;
    this.#broken = true;
    this.#onFault(fault);
  }
}
