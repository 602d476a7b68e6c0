import type { DesignDocument } from '../../document/design.ts';
import { checked } from '../../document/edits/edit.ts';
import { changeDocument } from '../../state/design/design-store.ts';
import { notify } from '../../state/session/notices-store.ts';
import { designStore, noticesStore, sessionStore } from '../../state/stores.ts';

/** Makes a design the one on screen, as one step. */
export function loadDesign(document: DesignDocument, label: string): void {
  const loaded = checked(document, designStore.getState().document);
  if (!loaded.ok) {
    notify(noticesStore, `This layout cannot be loaded: ${loaded.fault}`, { tone: 'warning' });
    return;
  }
  changeDocument(designStore, loaded.value, label);
  sessionStore.setState({ hovered: null, pose: null });
  notify(noticesStore, `${label} is loaded.`);
}
