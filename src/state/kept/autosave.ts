import type { DesignDocument } from '../../document/design.ts';
import { type DesignState, type DesignStore, isUnsaved, presentOpening } from '../design/design-store.ts';
import { type AutosaveDatabase, dropSave, type SaveRecord, saveKey, writeSave } from './autosave-database.ts';

/** Quiet time after a change before it is kept [ms]: short enough to lose nothing that matters, long enough for a drag. */
export const AUTOSAVE_DELAY = 400;

export interface AutosaveOptions {
  readonly database: AutosaveDatabase;
  readonly session: string;
  /** First sequence number to write; above all that this session has stored. */
  readonly firstSequence: number;
  /** The save of a closed tab that this tab goes on with; dropped once this tab has one of its own. */
  readonly adopted: string | null;
  readonly write: (document: DesignDocument) => string;
  readonly onFailure: (reason: unknown) => void;
}

/** A running autosave. */
export interface Autosave {
  /** Keeps the present state now, without waiting for quiet. */
  flush(): Promise<void>;
  /** Keeps the present state a second time, as work of its own that later saves do not replace; null when that failed. */
  keepAside(): Promise<SaveRecord | null>;
  stop(): void;
}

/** Keeps every finished change of the design shortly after it is made. */
export function startAutosave(store: DesignStore, options: AutosaveOptions): Autosave {
  const { database, session, write, onFailure } = options;
  let sequence = options.firstSequence;
  let timer: ReturnType<typeof setTimeout> | null = null;
  let kept = store.getState();
  let { adopted } = options;
  let writing = Promise.resolve();

  const keep = async (): Promise<void> => {
    const state = store.getState();
    if (isSameWork(kept, state)) return;
    kept = state;
    const record = recordOf(state, session, sequence, write);
    sequence += 1;
    try {
      await writeSave(database, record);
      if (adopted !== null) await dropSave(database, adopted);
      adopted = null;
    } catch (reason) {
      onFailure(reason);
    }
  };

  const flush = (): Promise<void> => {
    if (timer !== null) clearTimeout(timer);
    timer = null;
    writing = writing.then(keep);
    return writing;
  };

  const keepAside = async (): Promise<SaveRecord | null> => {
    const record = recordOf(store.getState(), `${session}-aside-${Date.now()}`, 1, write);
    try {
      await writeSave(database, record);
      return record;
    } catch (reason) {
      onFailure(reason);
      return null;
    }
  };

  const unsubscribe = store.subscribe((state, previous) => {
    if (isSameWork(state, previous)) return;
    if (timer !== null) clearTimeout(timer);
    timer = setTimeout(flush, AUTOSAVE_DELAY);
  });

  return {
    flush,
    keepAside,
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
