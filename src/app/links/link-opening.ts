import type { DesignDocument } from '../../document/design.ts';
import { linkFragment, readLinkFragment } from '../../document/share-link.ts';
import { type DesignStore, isUnsaved, openDocument } from '../../state/design/design-store.ts';
import type { SaveRecord } from '../../state/kept/autosave-database.ts';
import { type DialogStore, showDialog } from '../../state/session/dialog-store.ts';
import { type NoticesStore, notify } from '../../state/session/notices-store.ts';

/** What opening a link needs of the page. */
export interface LinkOpening {
  readonly design: DesignStore;
  readonly dialog: DialogStore;
  readonly notices: NoticesStore;
  /** Keeps unsaved work as something of its own before another design takes its place. */
  readonly keepAside: () => Promise<SaveRecord | null>;
  /** Told of every work that was kept so. */
  readonly onKept: (record: SaveRecord) => void;
}

/** The address of the page with the open design in its fragment. */
export function designAddress(document: DesignDocument, page: string): string {
  const address = new URL(page);
  address.hash = linkFragment(document);
  return address.href;
}

/**
 * Opens a design that came in a link, as one undo step. Unsaved work is never replaced unasked, and kept aside when it is replaced;
 * a link without a usable design changes nothing.
 */
export function openFragment(fragment: string, opening: LinkOpening): void {
  const { design, dialog, notices } = opening;
  const read = readLinkFragment(fragment);
  if (!read.ok) {
    showDialog(dialog, { kind: 'linkFaults', faults: read.fault });
    return;
  }
  const { value: linked } = read;
  const state = design.getState();
  if (linkFragment(state.document) === linkFragment(linked)) {
    notify(notices, 'The design in the link is the one that is open.');
  } else if (isUnsaved(state)) {
    const open = () => void replaceUnsaved(linked, opening);
    showDialog(dialog, { kind: 'linkArrived', name: linked.name, open });
  } else {
    openLinked(linked, opening);
  }
}

async function replaceUnsaved(linked: DesignDocument, opening: LinkOpening): Promise<void> {
  const kept = await opening.keepAside();
  if (kept) opening.onKept(kept);
  openLinked(linked, opening);
}

function openLinked(linked: DesignDocument, { design, notices }: LinkOpening): void {
  const name = linked.name || 'a design';
  openDocument(design, linked, `Open ${name} from a link`, { fileName: null, saved: linked });
  notify(notices, `Opened ${name} from a link. Undo brings the former design back.`);
}
