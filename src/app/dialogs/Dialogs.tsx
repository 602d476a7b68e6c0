import { useStore } from 'zustand';
import { dialogStore } from '../../state/stores.ts';
import { later } from '../later.tsx';

const OpenDialog = later(async () => (await import('./OpenDialog.tsx')).OpenDialog);

/** Whichever dialog is open; the first of them is fetched once the platform is drawn. */
export function Dialogs() {
  const open = useStore(dialogStore, (state) => state.open);
  return open.kind === 'none' ? null : <OpenDialog open={open} />;
}
