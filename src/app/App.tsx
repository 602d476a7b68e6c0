import { Tooltip } from 'radix-ui';
import { Dialogs } from './dialogs/Dialogs.tsx';
import { ErrorBoundary } from './ErrorBoundary.tsx';
import { DropZone } from './files/DropZone.tsx';
import { DeskProvider } from './files/desk-context.ts';
import type { FileDesk } from './files/file-desk.ts';
import { Header } from './header/Header.tsx';
import { Notices } from './Notices.tsx';
import { PlaceFrame } from './places/PlaceFrame.tsx';

/** Delay before the first tooltip shows [ms]. */
const TOOLTIP_DELAY = 500;

/** The whole page. */
export function App({ desk }: { readonly desk: FileDesk }) {
  return (
    <DeskProvider value={desk}>
      <ErrorBoundary part="The page">
        <Tooltip.Provider delayDuration={TOOLTIP_DELAY}>
          <PlaceFrame header={<Header />} />
          <Notices />
          <Dialogs />
          <DropZone />
        </Tooltip.Provider>
      </ErrorBoundary>
    </DeskProvider>
  );
}
