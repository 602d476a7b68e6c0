import { createStore } from 'zustand/vanilla';
import type { DesignFault } from '../../document/faults.ts';

/** The one dialog that may be open. */
export type OpenDialog =
  | { readonly kind: 'none' }
  | { readonly kind: 'keys' }
  | { readonly kind: 'cautions' }
  /** A file that could not be opened. */
  | { readonly kind: 'faults'; readonly fileName: string; readonly faults: readonly DesignFault[] }
  /** A mesh file that was dropped, to become the payload's shape. */
  | { readonly kind: 'mesh'; readonly file: File }
  /** Designs side by side. */
  | { readonly kind: 'compare' }
  /** The open design as a link. */
  | { readonly kind: 'share' }
  /** A link to a design of this name was opened while there is unsaved work. */
  | { readonly kind: 'linkArrived'; readonly name: string; readonly open: () => void }
  /** A link that holds no usable design. */
  | { readonly kind: 'linkFaults'; readonly faults: readonly DesignFault[] };

export const createDialogStore = () => createStore<{ readonly open: OpenDialog }>()(() => ({ open: { kind: 'none' } }));

export type DialogStore = ReturnType<typeof createDialogStore>;

export const showDialog = (store: DialogStore, open: OpenDialog): void => store.setState({ open });

export const closeDialog = (store: DialogStore): void => store.setState({ open: { kind: 'none' } });
