import { temporal } from 'zundo';
import { createStore } from 'zustand/vanilla';
import type { DesignDocument } from '../document/design.ts';

/**
 * The design and its history. `document` is the last finished change and the only thing that undo records; `draft` is the
 * design under a moving slider, so that a drag is one step however many values it passes.
 */
export interface DesignState {
  readonly document: DesignDocument;
  /** What the last finished change did, as the undo button names it. */
  readonly label: string;
  readonly draft: DesignDocument | null;
  /** The document as last saved or opened; differs from `document` when there are unsaved changes. */
  readonly saved: DesignDocument;
  /** Name of the file it was opened from or saved to; null before that. */
  readonly fileName: string | null;
}

/** Steps that can be undone. */
export const UNDO_LIMIT = 200;

/** What undo and redo restore. */
type Remembered = Pick<DesignState, 'document' | 'label'>;

/** Makes the store for one open design. */
export function createDesignStore(initial: DesignDocument) {
  return createStore<DesignState>()(
    temporal(
      (): DesignState => ({
        document: initial,
        label: 'Open',
        draft: null,
        saved: initial,
        fileName: null,
      }),
      {
        limit: UNDO_LIMIT,
        partialize: ({ document, label }): Remembered => ({ document, label }),
        equality: (past, now) => past.document === now.document,
      },
    ),
  );
}

export type DesignStore = ReturnType<typeof createDesignStore>;

/** The design on screen: the draft while something is being dragged, else the document. */
export const liveDocument = (state: DesignState): DesignDocument => state.draft ?? state.document;

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
export const openDocument = (
  store: DesignStore,
  document: DesignDocument,
  label: string,
  fileName: string | null,
): void => store.setState({ document, draft: null, label, saved: document, fileName });

/** Notes that the present document is what the file holds. */
export const markSaved = (store: DesignStore, fileName: string): void =>
  store.setState((state) => ({ saved: state.document, fileName }));

export function undo(store: DesignStore): void {
  dropDraft(store);
  store.temporal.getState().undo();
}

export function redo(store: DesignStore): void {
  dropDraft(store);
  store.temporal.getState().redo();
}
