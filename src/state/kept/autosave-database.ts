import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { openInTime } from './browser-store.ts';

/** One kept state of one tab's work. */
export interface SaveRecord {
  /** `session/sequence`; a later save of the same session has a larger key. */
  readonly key: string;
  readonly session: string;
  /** Milliseconds since 1970. */
  readonly savedAt: number;
  readonly name: string;
  /** The design file's text. */
  readonly text: string;
  readonly fileName: string | null;
  /** The design differs from the file it came from. */
  readonly unsaved: boolean;
}

/** A save that could not be read, kept as it was found. */
export interface SetAsideRecord {
  readonly key: string;
  readonly record: unknown;
  readonly reasons: readonly string[];
}

interface AutosaveSchema extends DBSchema {
  saves: { key: string; value: unknown };
  setAside: { key: string; value: SetAsideRecord };
}

export type AutosaveDatabase = IDBPDatabase<AutosaveSchema>;

const DATABASE_NAME = 'legroom-autosave';

/** Digits of the sequence number in a key, so that keys sort in the order of writing. */
const SEQUENCE_DIGITS = 10;

/** Opens, or makes, the database of unfinished work; rejects where the browser allows none. */
export const openAutosaves = (): Promise<AutosaveDatabase> =>
  openInTime(() =>
    openDB<AutosaveSchema>(DATABASE_NAME, 1, {
      upgrade(database) {
        database.createObjectStore('saves');
        database.createObjectStore('setAside');
      },
    }),
  );

/** Key of a session's save. */
export const saveKey = (session: string, sequence: number): string =>
  `${session}/${String(sequence).padStart(SEQUENCE_DIGITS, '0')}`;

/** Session and sequence of a key; null when the key is none of ours. */
export function keyParts(key: string): { readonly session: string; readonly sequence: number } | null {
  const slash = key.lastIndexOf('/');
  const sequence = Number(key.slice(slash + 1));
  return slash > 0 && Number.isInteger(sequence) ? { session: key.slice(0, slash), sequence } : null;
}

/** Writes the new save first and drops this session's older ones only when it is safely stored. */
export async function writeSave(database: AutosaveDatabase, record: SaveRecord): Promise<void> {
  await database.put('saves', record, record.key);
  await dropOlder(database, record.session, record.key);
}

async function dropOlder(database: AutosaveDatabase, session: string, newest: string): Promise<void> {
  const mine = IDBKeyRange.bound(`${session}/`, newest, false, true);
  await database.delete('saves', mine);
}

export const dropSave = (database: AutosaveDatabase, key: string): Promise<void> => database.delete('saves', key);

/** All saves as found, by key. */
export async function listSaves(database: AutosaveDatabase): Promise<ReadonlyMap<string, unknown>> {
  const transaction = database.transaction('saves');
  const [keys, values] = await Promise.all([transaction.store.getAllKeys(), transaction.store.getAll()]);
  await transaction.done;
  return new Map(keys.map((key, index) => [key, values[index]]));
}

/** Moves an unreadable save out of the way, whole. */
export async function setAside(
  database: AutosaveDatabase,
  key: string,
  record: unknown,
  reasons: readonly string[],
): Promise<void> {
  const transaction = database.transaction(['saves', 'setAside'], 'readwrite');
  await Promise.all([
    transaction.objectStore('setAside').put({ key, record, reasons }, key),
    transaction.objectStore('saves').delete(key),
    transaction.done,
  ]);
}
