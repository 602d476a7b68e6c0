import { temporal } from 'zundo';
import { createStore } from 'zustand/vanilla';
import type { DesignDocument, SnapshotDocument } from '../../document/design.ts';
import { snapshotsOf } from '../../document/edits/snapshots.ts';
import { withSnapshots } from '../../document/snapshots.ts';

/** Where a design came from and what is kept there. */
export interface Opening {
  /** Name of the file it was opened from or saved to; null before that. */
  readonly fileName: string | null;
  /** The document as that file holds it; differs from the present one when there are unsaved changes. Null: not known. */
  readonly saved: DesignDocument | null;
}

/**
 * The design and its history. `document` is the last finished change and, with its label and origin, the only thing that undo
 * records; `draft` is the design under a moving slider, so that a drag is one step however many values it passes.
 */
export interface DesignState {
  readonly document: DesignDocument;
  /** What the last finished change did, as the undo button names it. */
  readonly label: string;
  /**
   * Which opening the document belongs to. Undo remembers it: going back past an opening goes back to the former file as
   * well, so that saving never writes one design over another's file.
   */
  readonly origin: number;
  readonly draft: DesignDocument | null;
  /** By origin. Not part of the history: what a file holds does not change by undoing. */
  readonly openings: ReadonlyMap<number, Opening>;
}

/** Steps that can be undone. */
export const UNDO_LIMIT = 200;

/** What undo and redo restore. */
type Remembered = Pick<DesignState, 'document' | 'label' | 'origin'>;

/** Makes the store for one open design. */
export function createDesignStore(initial: DesignDocument) {
  return createStore<DesignState>()(
    temporal(
      (): DesignState => ({
        document: initial,
        label: 'Open',
        origin: 0,
        draft: null,
        openings: new Map([[0, { fileName: null, saved: initial }]]),
      }),
      {
        limit: UNDO_LIMIT,
        partialize: ({ document, label, origin }): Remembered => ({ document, label, origin }),
        equality: (past, now) => past.document === now.document,
      },
    ),
  );
}

export type DesignStore = ReturnType<typeof createDesignStore>;

/** The design on screen: the draft while something is being dragged, else the document. */
export const liveDocument = (state: DesignState): DesignDocument => state.draft ?? state.document;

/** The file that the present design belongs to; the same object until it is saved or another is opened. */
export function presentOpening({ openings, origin }: DesignState): Opening {
  const opening = openings.get(origin);
  if (!opening) throw new Error(`No opening ${origin}`);
  return opening;
}

/** The design differs from what its file (or the demo it started from) holds. */
export const isUnsaved = (state: DesignState): boolean => presentOpening(state).saved !== state.document;

/** Shows a changed design without recording a step; call {@link commitDraft} or {@link dropDraft} afterwards. */
export const previewDocument = (store: DesignStore, draft: DesignDocument): void => store.setState({ draft });

/** Turns the draft into one undo step; does nothing when there is none or nothing changed. */
export function commitDraft(store: DesignStore, label: string): void {
  const { draft, document } = store.getState();
  if (!draft) return;
  store.setState(draft === document ? { draft: null } : { document: draft, draft: null, label });
}

/** Goes back to the last finished change. */
export const dropDraft = (store: DesignStore): void => store.setState({ draft: null });

/** One finished change, one undo step. */
export const changeDocument = (store: DesignStore, document: DesignDocument, label: string): void =>
  store.setState({ document, draft: null, label });

/** Replaces the design by one that was opened or reset; undo brings the former one back. */
export const openDocument = (store: DesignStore, document: DesignDocument, label: string, opening: Opening): void =>
  store.setState(({ openings }) => {
    const origin = openings.size;
    return { document, draft: null, label, origin, openings: withOpening(openings, origin, opening) };
  });

/** Starts from work that was kept: as if it had been open all along, with nothing to undo. */
export function resumeDocument(store: DesignStore, document: DesignDocument, opening: Opening): void {
  store.setState(({ openings, origin }) => ({ document, openings: withOpening(openings, origin, opening) }));
  store.temporal.getState().clear();
}

/** Notes that a document is what the present design's file holds. */
export const markSaved = (store: DesignStore, saved: DesignDocument, fileName: string): void =>
  store.setState(({ openings, origin }) => ({ openings: withOpening(openings, origin, { fileName, saved }) }));

const withOpening = (openings: DesignState['openings'], origin: number, opening: Opening): DesignState['openings'] =>
  new Map([...openings, [origin, opening]]);

export const undo = (store: DesignStore): void => stepKeeping(store, () => store.temporal.getState().undo());

export const redo = (store: DesignStore): void => stepKeeping(store, () => store.temporal.getState().redo());

/** A step of the history; snapshots stand outside of it, so that nothing kept is ever lost by it. */
function stepKeeping(store: DesignStore, step: () => void): void {
  dropDraft(store);
  const before = store.getState();
  step();
  const { document, origin } = store.getState();
  if (origin !== before.origin || sameSnapshots(document, before.document)) return;
  unrecorded(store, withSnapshots(document, snapshotsOf(before.document)));
}

/** By content: the same document must stay the same object, by which it is known whether it is saved. */
const sameSnapshots = (one: DesignDocument, other: DesignDocument): boolean =>
  one.snapshots === other.snapshots || JSON.stringify(one.snapshots) === JSON.stringify(other.snapshots);

/** Keeps, renames or removes snapshots of the design on screen: no step of the history, which leaves them alone. */
export const changeSnapshots = (store: DesignStore, snapshots: readonly SnapshotDocument[]): void =>
  unrecorded(store, withSnapshots(store.getState().document, snapshots));

/** Shows a document as the present one without a step in the history. */
function unrecorded(store: DesignStore, document: DesignDocument): void {
  if (document === store.getState().document) return;
  store.temporal.getState().pause();
  store.setState({ document, draft: null });
  store.temporal.getState().resume();
}
