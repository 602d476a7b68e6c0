import { within } from '../../jobs/within.ts';
import { simpleStorage } from './simple-storage.ts';

/** Names of the locks that open tabs hold. */
const LOCK_PREFIX = 'legroom-session/';

/** Where a tab remembers its own name over a reload. */
const STORAGE_KEY = 'legroom-session';

/** A lock manager that has not answered by then is taken for missing [ms]. */
const LONGEST_LOCKING = 1000;

/** This tab's name for its work, and the names of all tabs that are open now. */
export interface TabSession {
  readonly id: string;
  readonly alive: ReadonlySet<string>;
}

/**
 * Gives this tab a name that it keeps over a reload and shares with no open tab (a duplicated tab starts with its parent's
 * name and gets another). Without the browser's lock manager (plain http, or one that refuses or never answers) every load
 * gets a new name and all others count as closed, which costs nothing but the order in which old work is offered.
 */
export async function openTabSession(): Promise<TabSession> {
  const storage = simpleStorage('sessionStorage');
  const session = await within(LONGEST_LOCKING, lockedSession(storage.getItem(STORAGE_KEY))).catch(
    (): TabSession => ({ id: freshName(), alive: new Set() }),
  );
  storage.setItem(STORAGE_KEY, session.id);
  return session;
}

async function lockedSession(remembered: string | null): Promise<TabSession> {
  const { locks } = navigator;
  const fresh = freshName();
  const id = remembered !== null && (await hold(locks, remembered)) ? remembered : fresh;
  if (id === fresh) await hold(locks, fresh);
  return { id, alive: await namesHeld(locks) };
}

function freshName(): string {
  const values = crypto.getRandomValues(new Uint32Array(2));
  return [...values].map((value) => value.toString(36)).join('');
}

/** Takes the lock of a name until the page is left; false when another tab holds it, a rejection when there are no locks. */
function hold(locks: LockManager, name: string): Promise<boolean> {
  return new Promise((settle, refuse) => {
    locks
      .request(`${LOCK_PREFIX}${name}`, { ifAvailable: true }, (lock) => {
        settle(lock !== null);
        return lock ? new Promise<never>(() => undefined) : undefined;
      })
      .catch(refuse);
  });
}

async function namesHeld(locks: LockManager): Promise<ReadonlySet<string>> {
  const { held = [] } = await locks.query();
  const names = held.flatMap(({ name }) => (name?.startsWith(LOCK_PREFIX) ? [name.slice(LOCK_PREFIX.length)] : []));
  return new Set(names);
}
