import { Camera } from 'lucide-react';
import { type FormEvent, memo, useState } from 'react';
import { useStore } from 'zustand';
import { type DesignDocument, MOST_SNAPSHOTS, type SnapshotDocument } from '../../document/design.ts';
import {
  nextSnapshotName,
  removeSnapshot,
  renameSnapshot,
  restoreSnapshot,
  snapshotsOf,
  takeSnapshot,
} from '../../document/edits/snapshots.ts';
import { changeDocument, changeSnapshots, liveDocument } from '../../state/design/design-store.ts';
import { notify } from '../../state/session/notices-store.ts';
import { designStore, noticesStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { SnapshotItem } from './SnapshotItem.tsx';
import styles from './snapshots.module.css';

/** Longest name that a snapshot takes. */
const LONGEST_NAME = 200;

/** States of the design that its file keeps under a name; undo leaves them alone, but restoring one is a step. */
export const SnapshotsGroup = memo(function SnapshotsGroup() {
  const snapshots = useStore(designStore, (state) => snapshotsOf(state.document));
  const count = snapshots.length;
  const brief = count === 0 ? 'none kept' : count === 1 ? 'one kept' : `${count} kept`;
  return (
    <Group title="Snapshots" brief={brief}>
      <TakeSnapshot full={count >= MOST_SNAPSHOTS} />
      {count === 0 ? (
        <p className={styles['none']}>
          A snapshot keeps the design as it is now, under a name, in the design’s own file.
        </p>
      ) : (
        <ol className={styles['list']}>
          {snapshots.map((snapshot, index) => (
            <SnapshotItem
              key={`${snapshot.takenAt} ${place(snapshots, index)}`}
              snapshot={snapshot}
              {...actions(index)}
            />
          ))}
        </ol>
      )}
    </Group>
  );
});

/** How many of the earlier snapshots were taken at the same moment: tells apart what nothing else does. */
const place = (snapshots: readonly SnapshotDocument[], index: number): number =>
  snapshots.slice(0, index).filter(({ takenAt }) => takenAt === snapshots[index].takenAt).length;

/** What can be done with one snapshot; each looks at the design as it is when it is done. */
function actions(index: number) {
  const name = () => snapshotsOf(designStore.getState().document)[index]?.name || 'unnamed';
  const keep = (document: DesignDocument) => changeSnapshots(designStore, snapshotsOf(document));
  return {
    onRestore: () =>
      changeDocument(
        designStore,
        restoreSnapshot(designStore.getState().document, index),
        `Restore snapshot ${name()}`,
      ),
    onRemove: () => {
      const words = `Removed ${name()}.`;
      const removed = snapshotsOf(designStore.getState().document)[index];
      keep(removeSnapshot(designStore.getState().document, index));
      notify(noticesStore, words, {
        action: {
          label: 'Bring it back',
          run: () => changeSnapshots(designStore, [...snapshotsOf(designStore.getState().document), removed]),
        },
      });
    },
    onRename: (wanted: string) => keep(renameSnapshot(designStore.getState().document, index, wanted)),
  };
}

function TakeSnapshot({ full }: { readonly full: boolean }) {
  const suggested = useStore(designStore, (state) => nextSnapshotName(state.document));
  const [typed, setTyped] = useState('');
  const [refusal, setRefusal] = useState<string | null>(null);
  const take = (event: FormEvent) => {
    event.preventDefault();
    const name = typed.trim() || suggested;
    const taken = takeSnapshot(liveDocument(designStore.getState()), name, new Date());
    setRefusal(taken.ok ? null : taken.fault);
    if (!taken.ok) return;
    changeSnapshots(designStore, snapshotsOf(taken.value));
    setTyped('');
  };
  return (
    <form className={styles['take']} onSubmit={take}>
      <input
        aria-label="Name of the next snapshot"
        placeholder={suggested}
        value={typed}
        maxLength={LONGEST_NAME}
        autoComplete="off"
        spellCheck={false}
        disabled={full}
        onChange={(event) => setTyped(event.target.value)}
      />
      <Button submits disabled={full}>
        <Camera size={14} aria-hidden="true" /> Keep
      </Button>
      {(refusal !== null || full) && (
        <p className={styles['refusal']} role="status">
          {refusal ?? `${MOST_SNAPSHOTS} snapshots are kept, which is the most; remove one to keep another.`}
        </p>
      )}
    </form>
  );
}
