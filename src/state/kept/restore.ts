import type { DesignDocument } from '../../document/design.ts';
import { z } from '../../document/zod.ts';
import type { Result } from '../../math/result.ts';
import {
  type AutosaveDatabase,
  keyParts,
  listSaves,
  type SaveRecord,
  setAside,
  writeSave,
} from './autosave-database.ts';
import { dropLastMoment, lastMoments } from './last-moment.ts';
import type { TabSession } from './tab-session.ts';

/** Unfinished work as it was kept. */
export interface KeptWork {
  readonly key: string;
  readonly document: DesignDocument;
  readonly fileName: string | null;
  readonly unsaved: boolean;
  readonly savedAt: number;
}

/** What start-up found. */
export interface Restored {
  /** The work to go on with; null when there is none. */
  readonly work: KeptWork | null;
  /** The work came from a tab that is closed now. */
  readonly adopted: boolean;
  /** Saves of other closed tabs, newest first, for whoever misses something. */
  readonly earlier: readonly SaveRecord[];
  /** First free sequence number of this tab. */
  readonly nextSequence: number;
  /** Saves that could not be read and were set aside. */
  readonly unreadable: number;
}

/** Reads a design file's text; the reasons are for people. */
export type ReadText = (text: string) => Result<DesignDocument, readonly string[]>;

const recordSchema = z.object({
  key: z.string(),
  session: z.string(),
  savedAt: z.number(),
  name: z.string(),
  text: z.string(),
  fileName: z.string().nullable(),
  unsaved: z.boolean(),
});

/**
 * Finds the work to go on with: this tab's own newest save, else the newest of the tabs that are closed. Saves of open tabs
 * are left alone. A save that cannot be read is set aside, whole, and the next one is tried.
 */
export async function restoreWork(database: AutosaveDatabase, tab: TabSession, read: ReadText): Promise<Restored> {
  const found = new Map([...(await listSaves(database)), ...(await takeLastMoments(database, tab))]);
  let unreadable = 0;
  const usable: SaveRecord[] = [];
  for (const [key, value] of found) {
    const session = keyParts(key)?.session;
    if (session !== undefined && session !== tab.id && tab.alive.has(session)) continue;
    const record = recordSchema.safeParse(value);
    if (record.success) usable.push(record.data);
    else {
      unreadable += 1;
      await setAside(database, key, value, ['The record is not one this program writes.']);
    }
  }
  usable.sort((one, other) => rank(other, tab) - rank(one, tab) || other.savedAt - one.savedAt);
  const nextSequence = 1 + highestSequence(found.keys(), tab.id);
  for (const [index, record] of usable.entries()) {
    const document = read(record.text);
    if (document.ok) {
      const { key, fileName, unsaved, savedAt, session } = record;
      const work = { key, document: document.value, fileName, unsaved, savedAt };
      return { work, adopted: session !== tab.id, earlier: usable.slice(index + 1), nextSequence, unreadable };
    }
    unreadable += 1;
    await setAside(database, record.key, record, document.fault);
  }
  return { work: null, adopted: false, earlier: [], nextSequence, unreadable };
}

/**
 * Moves what pages wrote as they were left into the database, where it is newer than what that has, and gives it back by
 * key. What cannot be moved is used all the same, and stays for the next start.
 */
async function takeLastMoments(database: AutosaveDatabase, tab: TabSession): Promise<ReadonlyMap<string, unknown>> {
  const newer = new Map<string, unknown>();
  for (const [session, value] of lastMoments()) {
    if (session !== tab.id && tab.alive.has(session)) continue;
    const left = recordSchema.safeParse(value);
    try {
      if (left.success) {
        const known = recordSchema.safeParse(await database.get('saves', left.data.key));
        const isNewer = !known.success || known.data.savedAt < left.data.savedAt;
        if (isNewer) newer.set(left.data.key, left.data);
        if (isNewer) await writeSave(database, left.data);
      }
      dropLastMoment(session);
    } catch {
      // a store that is full may have room next time
    }
  }
  return newer;
}

/** This tab's own work comes before that of closed tabs. */
const rank = (record: SaveRecord, tab: TabSession): number => (record.session === tab.id ? 1 : 0);

function highestSequence(keys: Iterable<string>, session: string): number {
  let highest = 0;
  for (const key of keys) {
    const parts = keyParts(key);
    if (parts?.session === session) highest = Math.max(highest, parts.sequence);
  }
  return highest;
}
