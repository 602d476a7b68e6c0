import { Suspense } from 'react';
import { useStore } from 'zustand';
import { dialogStore } from '../../state/stores.ts';
import { LazyCompareDialog } from '../lazy-compare.ts';
import { CautionsDialog } from './CautionsDialog.tsx';
import { FaultsDialog } from './FaultsDialog.tsx';
import { KeysDialog } from './KeysDialog.tsx';
import { LinkArrivedDialog } from './LinkArrivedDialog.tsx';
import { MeshDialog } from './MeshDialog.tsx';
import { ShareDialog } from './ShareDialog.tsx';

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
    case 'mesh':
      return <MeshDialog file={open.file} />;
    case 'compare':
      return (
        <Suspense fallback={null}>
          <LazyCompareDialog />
        </Suspense>
      );
    case 'share':
      return <ShareDialog />;
    case 'linkArrived':
      return <LinkArrivedDialog name={open.name} open={open.open} />;
    case 'linkFaults':
      return <FaultsDialog what="link" fileName="the link" faults={open.faults} />;
  }
}
