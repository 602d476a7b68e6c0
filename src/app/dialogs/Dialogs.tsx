import { useStore } from 'zustand';
import { dialogStore } from '../../state/stores.ts';
import { CautionsDialog } from './CautionsDialog.tsx';
import { FaultsDialog } from './FaultsDialog.tsx';
import { KeysDialog } from './KeysDialog.tsx';

/** Whichever dialog is open. */
export function Dialogs() {
  const open = useStore(dialogStore, (state) => state.open);
  switch (open.kind) {
    case 'none':
      return null;
    case 'keys':
      return <KeysDialog />;
    case 'cautions':
      return <CautionsDialog />;
    case 'faults':
      return <FaultsDialog fileName={open.fileName} faults={open.faults} />;
  }
}
