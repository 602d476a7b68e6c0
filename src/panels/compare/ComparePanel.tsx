import { ArrowLeftRight, Columns3, Pin, PinOff } from 'lucide-react';
import { memo } from 'react';
import { useStore } from 'zustand';
import type { DesignDocument } from '../../document/design.ts';
import { withSnapshots } from '../../document/snapshots.ts';
import { changeDocument, liveDocument } from '../../state/design/design-store.ts';
import { showDialog } from '../../state/session/dialog-store.ts';
import { designStore, dialogStore, resultsStore, sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { Table } from '../../ui/Table.tsx';
import { shownName } from '../../words/shown-name.ts';
import { useReach, useTiltedReach } from '../reach-binding.ts';
import styles from './compare.module.css';
import { comparison, type Line, type Reaches } from './figures.ts';
import { SnapshotsGroup } from './SnapshotsGroup.tsx';

const pinLive = (): void => sessionStore.setState({ pinned: liveDocument(designStore.getState()) });

const unpin = (): void => sessionStore.setState({ pinned: null });

/** The pinned design becomes the one being shaped, and the other way round; one undo step. The file keeps its snapshots. */
function swap(): void {
  const { pinned } = sessionStore.getState();
  if (!pinned) return;
  const { document } = designStore.getState();
  changeDocument(designStore, withSnapshots(pinned, document.snapshots), 'Swap with the pinned layout');
  sessionStore.setState({ pinned: document });
}

/** A layout kept as a ghost and how the live one differs from it, the way to compare several, and the snapshots. */
export const ComparePanel = memo(function ComparePanel() {
  const pinned = useStore(sessionStore, (state) => state.pinned);
  return (
    <>
      <Group title="Compare" brief={pinned ? 'one layout pinned' : 'nothing pinned'}>
        {pinned ? <Comparison pinned={pinned} /> : <NothingPinned />}
        <div className={styles['several']}>
          <Button aria-haspopup="dialog" onClick={() => showDialog(dialogStore, { kind: 'compare' })}>
            <Columns3 size={14} aria-hidden="true" /> Compare up to four…
          </Button>
        </div>
      </Group>
      <SnapshotsGroup />
    </>
  );
});

const NothingPinned = () => (
  <div className={styles['nothing']}>
    <p>Pin the present layout to keep its outline, reach and verdict beside the live one while you change things.</p>
    <Button onClick={pinLive}>
      <Pin size={14} aria-hidden="true" /> Pin this layout
    </Button>
  </div>
);

function Comparison({ pinned }: { readonly pinned: DesignDocument }) {
  const live = useStore(designStore, liveDocument);
  const lines = comparison(pinned, usePinnedReaches(pinned), live, useLiveReaches());
  return (
    <>
      <div className={styles['actions']}>
        <Button onClick={swap}>
          <ArrowLeftRight size={14} aria-hidden="true" /> Swap
        </Button>
        <Button onClick={pinLive}>
          <Pin size={14} aria-hidden="true" /> Pin again
        </Button>
        <Button onClick={unpin}>
          <PinOff size={14} aria-hidden="true" /> Unpin
        </Button>
      </div>
      <ComparisonTable lines={lines} name={shownName(pinned.name)} />
    </>
  );
}

function usePinnedReaches(pinned: DesignDocument): Reaches {
  const { finished } = useStore(resultsStore, (state) => state.pinned);
  return finished?.subject.document === pinned ? finished.value : { level: null, tilted: null };
}

/** Only what was computed for the present design; the level reach only where it is the one at home orientation. */
function useLiveReaches(): Reaches {
  const level = useReach();
  const tilted = useTiltedReach();
  const home = useStore(sessionStore, (state) => state.reachOrientation === 'home' || state.pose === null);
  return {
    level: level.stale || !home ? null : level.value,
    tilted: tilted.stale ? null : tilted.value,
  };
}

/** Pinned against live, in numbers. */
export function ComparisonTable({ lines, name }: { readonly lines: readonly Line[]; readonly name: string }) {
  return (
    <Table className={styles['table']}>
      <caption>Pinned: {name === '' ? 'unnamed' : name}. Each layout is judged at its own home pose.</caption>
      <thead>
        <tr>
          <td />
          <th scope="col">Pinned</th>
          <th scope="col">Live</th>
          <th scope="col">Change</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr key={line.name}>
            <th scope="row">{line.name}</th>
            <td>{line.pinned}</td>
            <td>{line.live}</td>
            <td data-same={line.difference === 'same'}>{line.difference}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
