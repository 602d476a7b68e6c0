/** Names of the locks that open tabs hold. */
const LOCK_PREFIX = 'legroom-session/';

/** Where a tab remembers its own name over a reload. */
const STORAGE_KEY = 'legroom-session';

/** This tab's name for its work, and the names of all tabs that are open now. */
export interface TabSession {
  readonly id: string;
  readonly alive: ReadonlySet<string>;
}

/**
 * Gives this tab a name that it keeps over a reload and shares with no open tab (a duplicated tab starts with its parent's
 * name and gets another). Without the browser's lock manager (plain http) every load gets a new name and all others count
 * as closed, which costs nothing but the order in which old work is offered.
 */
export async function openTabSession(): Promise<TabSession> {
  const remembered = sessionStorage.getItem(STORAGE_KEY);
  const id = remembered !== null && (await hold(remembered)) ? remembered : await freshName();
  sessionStorage.setItem(STORAGE_KEY, id);
  return { id, alive: await namesHeld() };
}

async function freshName(): Promise<string> {
  const values = crypto.getRandomValues(new Uint32Array(2));
  const name = [...values].map((value) => value.toString(36)).join('');
  await hold(name);
  return name;
}

const lockManager = (): LockManager | null => ('locks' in navigator ? navigator.locks : null);

/** Takes the lock of a name until the page is left; false when another tab holds it. */
function hold(name: string): Promise<boolean> {
  const locks = lockManager();
  if (!locks) return Promise.resolve(false);
  return new Promise((settle) => {
    void locks.request(`${LOCK_PREFIX}${name}`, { ifAvailable: true }, (lock) => {
      settle(lock !== null);
      return lock ? new Promise<never>(() => undefined) : undefined;
    });
  });
}

async function namesHeld(): Promise<ReadonlySet<string>> {
  const snapshot = await lockManager()?.query();
  const names = (snapshot?.held ?? []).flatMap(({ name }) =>
    name?.startsWith(LOCK_PREFIX) ? [name.slice(LOCK_PREFIX.length)] : [],
  );
  return new Set(names);
}
