import { writeDesign } from '../document/write-design.ts';
import { within } from '../jobs/within.ts';
import { type DesignStore, isUnsaved, resumeDocument } from '../state/design/design-store.ts';
import { type Autosave, startAutosave } from '../state/kept/autosave.ts';
import { openAutosaves } from '../state/kept/autosave-database.ts';
import { type Restored, restoreWork } from '../state/kept/restore.ts';
import { openTabSession } from '../state/kept/tab-session.ts';
import { isFull } from '../state/mesh/kept-meshes.ts';
import type { MeshKeepingFault } from '../state/mesh/mesh-keeper.ts';
import { type NoticesStore, notify } from '../state/session/notices-store.ts';
import { designStore, earlierWorkStore, noticesStore } from '../state/stores.ts';
import { readKeptText } from './files/design-file.ts';
import type { FileDesk } from './files/file-desk.ts';
import { whenWords } from './when-words.ts';

/**
 * Goes on with the work that was kept, if there is any, and keeps this tab's work from now on. Null where the browser keeps
 * nothing (a private window, storage that is missing, refused or never answers); the design is then on screen only, and a
 * notice says so.
 */
export async function resumeWork(desk: Pick<FileDesk, 'save'>): Promise<Autosave | null> {
  const save = { label: 'Save to a file', run: () => void desk.save() };
  try {
    const [tab, database] = await Promise.all([openTabSession(), openAutosaves()]);
    const restored = await within(LONGEST_RESTORING, restoreWork(database, tab, readKeptText));
    takeUp(restored, noticesStore);
    return startAutosave(designStore, {
      database,
      session: tab.id,
      firstSequence: restored.nextSequence,
      adopted: restored.adopted ? (restored.work?.key ?? null) : null,
      write: writeDesign,
      onFailure: (reason) =>
        notify(noticesStore, isFull(reason) ? FULL : NOT_ANSWERING, { tone: 'warning', action: save }),
      onRecovery: () => notify(noticesStore, 'Your work is kept again.'),
    });
  } catch {
    notify(noticesStore, NOT_KEPT, { tone: 'warning', action: save });
    return null;
  }
}

/** Kept work that is not read by then is left alone [ms]; the page must not wait for ever. */
const LONGEST_RESTORING = 5000;

/**
 * Keeps what is not kept yet when the page is left or hidden, and has the browser ask before unsaved work is left that
 * nothing keeps.
 */
export function guardLeaving(store: DesignStore, autosave: Autosave | null): void {
  window.addEventListener('beforeunload', (event) => {
    const kept = autosave?.leave() ?? false;
    if (!kept && isUnsaved(store.getState())) event.preventDefault();
  });
  window.addEventListener('pagehide', () => autosave?.leave());
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') autosave?.leave();
  });
}

/** Saves of closed tabs that the file menu offers; older ones stay in the browser's store. */
const LISTED_EARLIER = 5;

const NOT_KEPT = 'This browser cannot keep unfinished work; save the design to a file before leaving.';

const FULL =
  'The latest changes could not be kept: this browser’s storage is full. It is tried again; until then, save the design to a file before leaving.';

const NOT_ANSWERING =
  'The latest changes could not be kept: this browser’s storage does not take them. It is tried again; until then, save the design to a file before leaving.';

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
