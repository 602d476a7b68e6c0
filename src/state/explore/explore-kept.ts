import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { SweepDocument } from '../../document/sweep-file.ts';
import { openInTime } from '../kept/browser-store.ts';

/** A sweep whose figures are kept in the browser, whole or in part. */
export interface KeptSweep {
  readonly key: string;
  /** All that the figures depend on; two sweeps with the same key and another text are different ones. */
  readonly text: string;
  readonly sweep: SweepDocument;
  /** Milliseconds since 1970. */
  readonly savedAt: number;
}

interface KeptSchema extends DBSchema {
  sweeps: { key: string; value: KeptSweep };
  chunks: { key: [sweep: string, chunk: number]; value: Float64Array };
}

export type KeptSweeps = IDBPDatabase<KeptSchema>;

const DATABASE_NAME = 'legroom-explore';

/** Sweeps that are kept; the oldest goes when there are more. */
export const MOST_KEPT = 12;

/** Opens, or makes, the store of figures; rejects where the browser allows none. */
export const openKeptSweeps = (): Promise<KeptSweeps> =>
  openInTime(() =>
    openDB<KeptSchema>(DATABASE_NAME, 1, {
      upgrade(database) {
        database.createObjectStore('sweeps', { keyPath: 'key' });
        database.createObjectStore('chunks');
      },
    }),
  );

export const listKept = (database: KeptSweeps): Promise<KeptSweep[]> => database.getAll('sweeps');

/** Enters a sweep; drops what was kept under the same key for other content, and the oldest sweeps beyond {@link MOST_KEPT}. */
export async function enterSweep(database: KeptSweeps, sweep: KeptSweep): Promise<void> {
  const known = await database.get('sweeps', sweep.key);
  if (known && known.text !== sweep.text) await dropKept(database, sweep.key);
  await database.put('sweeps', sweep);
  const others = (await listKept(database)).filter(({ key }) => key !== sweep.key);
  others.sort((a, b) => b.savedAt - a.savedAt);
  for (const { key } of others.slice(MOST_KEPT - 1)) await dropKept(database, key);
}

/** Removes a sweep with all its figures. */
export async function dropKept(database: KeptSweeps, key: string): Promise<void> {
  const transaction = database.transaction(['sweeps', 'chunks'], 'readwrite');
  await Promise.all([
    transaction.objectStore('sweeps').delete(key),
    transaction.objectStore('chunks').delete(chunksOf(key)),
    transaction.done,
  ]);
}

/** Writes some chunks, all or none of them. */
export async function writeChunks(
  database: KeptSweeps,
  key: string,
  chunks: readonly (readonly [chunk: number, rows: Float64Array])[],
): Promise<void> {
  const transaction = database.transaction('chunks', 'readwrite', { durability: 'relaxed' });
  try {
    await Promise.all([...chunks.map(([chunk, rows]) => transaction.store.put(rows, [key, chunk])), transaction.done]);
  } catch (thrown) {
    // the requests only say that they were given up; the transaction says why
    throw transaction.error ?? thrown;
  }
}

/** Numbers of the chunks that are kept. */
export async function keptChunks(database: KeptSweeps, key: string): Promise<readonly number[]> {
  const keys = await database.getAllKeys('chunks', chunksOf(key));
  return keys.map(([, chunk]) => chunk);
}

/** Rows of consecutive kept chunks, from one number to another, both included. */
export async function readChunks(
  database: KeptSweeps,
  key: string,
  from: number,
  to: number,
): Promise<readonly (readonly [chunk: number, rows: Float64Array])[]> {
  const range = IDBKeyRange.bound([key, from], [key, to]);
  const transaction = database.transaction('chunks');
  const [keys, rows] = await Promise.all([transaction.store.getAllKeys(range), transaction.store.getAll(range)]);
  return keys.map(([, chunk], n) => [chunk, rows[n]] as const);
}

const chunksOf = (key: string): IDBKeyRange => IDBKeyRange.bound([key, 0], [key, Number.POSITIVE_INFINITY]);
