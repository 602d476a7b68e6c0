import { useStore } from 'zustand';
import type { DesignDocument } from '../document/design.ts';
import { checked, type Edit } from '../document/edits/edit.ts';
import { changeDocument, commitDraft, dropDraft, liveDocument, previewDocument } from '../state/design/design-store.ts';
import { designStore } from '../state/stores.ts';

/** What a component needs of the design on screen; the selector returns a primitive or a stable reference. */
export const useDesign = <Part>(select: (document: DesignDocument) => Part): Part =>
  useStore(designStore, (state) => select(liveDocument(state)));

/** Shows an edit without finishing it; returns why the design refuses it, or null. */
export function previewEdit(edit: Edit): string | null {
  const document = liveDocument(designStore.getState());
  const result = checked(edit(document), document);
  if (!result.ok) return result.fault;
  previewDocument(designStore, result.value);
  return null;
}

/** Makes an edit as one finished change; returns why the design refuses it, or null. An edit that changes nothing is no step. */
export function makeEdit(edit: Edit, label: string): string | null {
  const document = liveDocument(designStore.getState());
  const edited = edit(document);
  if (edited === document) return null;
  const result = checked(edited, document);
  if (!result.ok) return result.fault;
  if (result.value === document) return null;
  changeDocument(designStore, result.value, label);
  return null;
}

/** Finishes what was previewed as one step, or drops it when the number it changed came back to where it was. */
export function finishEdit(read: (document: DesignDocument) => number, label: (value: number) => string): void {
  const { draft, document } = designStore.getState();
  if (!draft) return;
  if (read(draft) === read(document)) dropDraft(designStore);
  else commitDraft(designStore, label(read(draft)));
}

/** Goes back to the last finished change. */
export const dropEdit = (): void => dropDraft(designStore);
