import { writeDesign } from '../document/write-design.ts';
import { type DesignStore, isUnsaved, resumeDocument } from '../state/design/design-store.ts';
import { type Autosave, startAutosave } from '../state/kept/autosave.ts';
import { openAutosaves } from '../state/kept/autosave-database.ts';
import { type Restored, restoreWork } from '../state/kept/restore.ts';
import { openTabSession } from '../state/kept/tab-session.ts';
import type { MeshKeepingFault } from '../state/mesh/mesh-keeper.ts';
import { type NoticesStore, notify } from '../state/session/notices-store.ts';
import { designStore, earlierWorkStore, noticesStore } from '../state/stores.ts';
import { readKeptText } from './files/design-file.ts';
import { whenWords } from './when-words.ts';

/**
 * Goes on with the work that was kept, if there is any, and keeps this tab's work from now on. Null where the browser keeps
 * nothing (a private window, storage refused); the design is then on screen only, and a notice says so.
 */
export async function resumeWork(): Promise<Autosave | null> {
  try {
    const tab = await openTabSession();
    const database = await within(LONGEST_OPENING, openAutosaves());
    const restored = await restoreWork(database, tab, readKeptText);
    takeUp(restored, noticesStore);
    return startAutosave(designStore, {
      database,
      session: tab.id,
      firstSequence: restored.nextSequence,
      adopted: restored.adopted ? (restored.work?.key ?? null) : null,
      write: writeDesign,
      onFailure: () => notify(noticesStore, NOT_KEPT, { tone: 'warning' }),
    });
  } catch {
    notify(noticesStore, NOT_KEPT, { tone: 'warning' });
    return null;
  }
}

/** A browser that has not opened its store by then is taken to have none [ms]; the page must not wait for ever. */
const LONGEST_OPENING = 3000;

/** The value, or a rejection when it takes longer than `time` [ms]. */
function within<Value>(time: number, value: Promise<Value>): Promise<Value> {
  const late = new Promise<never>((_, refuse) => {
    setTimeout(() => refuse(new Error(`nothing within ${time} ms`)), time);
  });
  return Promise.race([value, late]);
}

/** Has the browser ask before unsaved work is left, for where nothing keeps it. */
export function guardLeaving(store: DesignStore): void {
  window.addEventListener('beforeunload', (event) => {
    if (isUnsaved(store.getState())) event.preventDefault();
  });
}

/** Saves of closed tabs that the file menu offers; older ones stay in the browser's store. */
const LISTED_EARLIER = 5;

const NOT_KEPT = 'This browser cannot keep unfinished work; save the design to a file before leaving.';

/** Says that a mesh is not there for the next visit, and what is. */
export const meshNotKept = (fault: MeshKeepingFault, source: string): string => {
  const why = fault === 'full' ? 'This browser’s storage is full' : 'This browser keeps nothing here';
  return `${why}: ${source} is drawn until the page is closed, after that only its hull, which the design keeps.`;
};

function takeUp({ work, earlier, unreadable }: Restored, notices: NoticesStore): void {
  earlierWorkStore.setState({ earlier: earlier.slice(0, LISTED_EARLIER) });
  if (unreadable > 0) {
    const saves = unreadable === 1 ? 'A kept design' : `${unreadable} kept designs`;
    notify(notices, `${saves} could not be read and was set aside; nothing was overwritten.`, { tone: 'warning' });
  }
  if (!work) return;
  const { document, fileName, unsaved, savedAt } = work;
  resumeDocument(designStore, document, { fileName, saved: unsaved ? null : document });
  notify(notices, `Picked up ${document.name || 'the design'} as it was ${whenWords(savedAt)}.`);
}
