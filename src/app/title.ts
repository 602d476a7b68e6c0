import { type DesignState, type DesignStore, isUnsaved } from '../state/design/design-store.ts';
import { shownName } from '../words/shown-name.ts';

/** What the browser's tab says: the design's name, with a dot while it is not saved. */
export const pageTitle = (state: DesignState): string =>
  `${isUnsaved(state) ? '● ' : ''}${shownName(state.document.name) || 'Untitled'} – Legroom`;

/** Keeps the title right. */
export function followTitle(store: DesignStore): () => void {
  const show = (state: DesignState) => {
    document.title = pageTitle(state);
  };
  show(store.getState());
  return store.subscribe(show);
}
