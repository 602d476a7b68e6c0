import type { SaveRecord } from './autosave-database.ts';
import { simpleStorage } from './simple-storage.ts';

/** Before the session's name in the key of what was written at the last moment. */
const PREFIX = 'legroom-last-moment/';

/**
 * Keeps a save in the one place that is written before a page is gone: a database may be closed under a writing that has
 * begun. False when the browser refuses.
 */
export const putLastMoment = (record: SaveRecord): boolean =>
  simpleStorage('localStorage').setItem(PREFIX + record.session, JSON.stringify(record));

export const dropLastMoment = (session: string): void => {
  simpleStorage('localStorage').removeItem(PREFIX + session);
};

/** What pages wrote as they were left, by session, as found. */
export function lastMoments(): ReadonlyMap<string, unknown> {
  const storage = simpleStorage('localStorage');
  const found = new Map<string, unknown>();
  for (const name of storage.names()) {
    if (name.startsWith(PREFIX)) found.set(name.slice(PREFIX.length), parsed(storage.getItem(name)));
  }
  return found;
}

function parsed(text: string | null): unknown {
  try {
    return JSON.parse(text ?? '');
  } catch {
    return text;
  }
}
