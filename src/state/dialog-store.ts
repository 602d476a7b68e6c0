import { createStore } from 'zustand/vanilla';
import type { DesignFault } from '../document/faults.ts';

/** The one dialog that may be open. */
export type OpenDialog =
  | { readonly kind: 'none' }
  | { readonly kind: 'keys' }
  | { readonly kind: 'cautions' }
  /** A file that could not be opened. */
  | { readonly kind: 'faults'; readonly fileName: string; readonly faults: readonly DesignFault[] };

export const createDialogStore = () => createStore<{ readonly open: OpenDialog }>()(() => ({ open: { kind: 'none' } }));

export type DialogStore = ReturnType<typeof createDialogStore>;

export const showDialog = (store: DialogStore, open: OpenDialog): void => store.setState({ open });

export const closeDialog = (store: DialogStore): void => store.setState({ open: { kind: 'none' } });
