import type { DesignDocument } from '../../document/design.ts';
import { type DesignState, type DesignStore, isUnsaved, presentOpening } from '../design/design-store.ts';
import { type AutosaveDatabase, dropSave, type SaveRecord, saveKey, writeSave } from './autosave-database.ts';
import { answered } from './browser-store.ts';
import { dropLastMoment, putLastMoment } from './last-moment.ts';

/**
 * Quiet time after a change before it is kept [ms]: short enough to lose nothing that matters, long enough for a drag.
 */
export const AUTOSAVE_DELAY = 400;

/** Time after a save that failed until it is tried again [ms]; it doubles with each further failure up to the longest. */
export const FIRST_RETRY = 5000;
const LONGEST_RETRY = 60_000;

export interface AutosaveOptions {
  readonly database: AutosaveDatabase;
  readonly session: string;
  /** First sequence number to write; above all that this session has stored. */
  readonly firstSequence: number;
  /** The save of a closed tab that this tab goes on with; dropped once this tab has one of its own. */
  readonly adopted: string | null;
  readonly write: (document: DesignDocument) => string;
  /** Told once when saves begin to fail. */
  readonly onFailure: (reason: unknown) => void;
  /** Told once when a save works again. */
  readonly onRecovery: () => void;
}

/** A running autosave. */
export interface Autosave {
  /** Keeps the present state now, without waiting for quiet. */
  flush(): Promise<void>;
  /** Keeps the present state a second time, as work of its own that later saves do not replace; null when that failed. */
  keepAside(): Promise<SaveRecord | null>;
  /**
   * Keeps what the browser's store does not have yet in the one way that ends before the page does. False when the work
   * may be lost: the last save failed, or this one did.
   */
  leave(): boolean;
  stop(): void;
}

/** Keeps every finished change of the design shortly after it is made, and tries again after a failure. */
export function startAutosave(store: DesignStore, options: AutosaveOptions): Autosave {
  const { database, session, write, onFailure, onRecovery } = options;
  let sequence = options.firstSequence;
  let timer: ReturnType<typeof setTimeout> | null = null;
  let kept = store.getState();
  let { adopted } = options;
  let writing = Promise.resolve();
  let failures = 0;

  const keep = async (): Promise<void> => {
    const state = store.getState();
    if (isSameWork(kept, state)) return;
    const record = recordOf(state, session, sequence, write);
    sequence += 1;
    try {
      await answered(writeSave(database, record));
    } catch (reason) {
      failures += 1;
      wait(Math.min(FIRST_RETRY * 2 ** (failures - 1), LONGEST_RETRY));
      if (failures === 1) onFailure(reason);
      return;
    }
    kept = state;
    dropLastMoment(session);
    if (failures > 0) onRecovery();
    failures = 0;
    if (adopted === null) return;
    const dropped = adopted;
    adopted = null;
    // an old save that stays is offered again at the next start, and no more
    await answered(dropSave(database, dropped)).catch(() => undefined);
  };

  const flush = (): Promise<void> => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    writing = writing.then(keep);
    return writing;
  };

  const wait = (time: number): void => {
    if (timer !== null) clearTimeout(timer);
    timer = setTimeout(flush, time);
  };

  const keepAside = async (): Promise<SaveRecord | null> => {
    const record = recordOf(store.getState(), `${session}-aside-${Date.now()}`, 1, write);
    try {
      await answered(writeSave(database, record));
      return record;
    } catch (reason) {
      onFailure(reason);
      return null;
    }
  };

  const leave = (): boolean => {
    const state = store.getState();
    if (isSameWork(kept, state)) return true;
    const put = putLastMoment(recordOf(state, session, sequence, write));
    void flush();
    return put && failures === 0;
  };

  const unsubscribe = store.subscribe((state, previous) => {
    if (!isSameWork(state, previous)) wait(AUTOSAVE_DELAY);
  });

  return {
    flush,
    keepAside,
    leave,
    stop: () => {
      unsubscribe();
      if (timer !== null) clearTimeout(timer);
    },
  };
}

const recordOf = (
  state: DesignState,
  session: string,
  sequence: number,
  write: AutosaveOptions['write'],
): SaveRecord => ({
  key: saveKey(session, sequence),
  session,
  savedAt: Date.now(),
  name: state.document.name,
  text: write(state.document),
  fileName: presentOpening(state).fileName,
  unsaved: isUnsaved(state),
});

const isSameWork = (one: DesignState, other: DesignState): boolean =>
  one.document === other.document && presentOpening(one) === presentOpening(other);
