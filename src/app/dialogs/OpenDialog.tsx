import { Suspense } from 'react';
import type { OpenDialog as Open } from '../../state/session/dialog-store.ts';
import { shownName } from '../../words/shown-name.ts';
import { LazyCompareDialog } from '../lazy-compare.ts';
import { CautionsDialog } from './CautionsDialog.tsx';
import { FaultsDialog } from './FaultsDialog.tsx';
import { KeysDialog } from './KeysDialog.tsx';
import { LinkArrivedDialog } from './LinkArrivedDialog.tsx';
import { MeshDialog } from './MeshDialog.tsx';
import { ShareDialog } from './ShareDialog.tsx';

/** The dialog that is open. */
export function OpenDialog({ open }: { readonly open: Exclude<Open, { readonly kind: 'none' }> }) {
  switch (open.kind) {
    case 'keys':
      return <KeysDialog />;
    case 'cautions':
      return <CautionsDialog />;
    case 'faults':
      return <FaultsDialog fileName={shownName(open.fileName)} faults={open.faults} />;
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
      return <LinkArrivedDialog name={shownName(open.name)} open={open.open} />;
    case 'linkFaults':
      return <FaultsDialog what="link" fileName="the link" faults={open.faults} />;
  }
}
