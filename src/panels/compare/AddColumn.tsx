import { Plus } from 'lucide-react';
import { DropdownMenu } from 'radix-ui';
import { useStore } from 'zustand';
import { DEMO_NAMES, DEMO_TITLES, DEMOS } from '../../document/demos.ts';
import { snapshotsOf } from '../../document/edits/snapshots.ts';
import { addCompared, type ComparedChoice, MOST_COMPARED, snapshotChoice } from '../../state/compare/compare-store.ts';
import { compareStore, designStore, sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { shownName } from '../../words/shown-name.ts';
import styles from './compare-bar.module.css';

interface AddColumnProps {
  /** Asks for a file; what comes of it is put into a column by whoever asked. */
  readonly onChooseFile: () => void;
}

/** Puts another design beside the others: the open one, the pinned one, a snapshot, a demo or a file. */
export function AddColumn({ onChooseFile }: AddColumnProps) {
  const chosen = useStore(compareStore, (state) => state.chosen);
  const pinned = useStore(sessionStore, (state) => state.pinned);
  const snapshots = useStore(designStore, (state) => snapshotsOf(state.document));
  const full = chosen.length >= MOST_COMPARED;
  const has = (source: ComparedChoice['source']) => chosen.some((choice) => choice.source === source);
  const entry = (label: string, choice: ComparedChoice, key = label) => (
    <DropdownMenu.Item key={key} className={styles['item']} onSelect={() => addCompared(compareStore, choice)}>
      {label}
    </DropdownMenu.Item>
  );
  return (
    <DropdownMenu.Root modal={false}>
      <DropdownMenu.Trigger asChild disabled={full}>
        <Button>
          <Plus size={15} aria-hidden="true" />
          {full ? `${MOST_COMPARED} designs at most` : 'Add a design'}
        </Button>
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className={styles['menu']} align="start" sideOffset={4} collisionPadding={8}>
          {!has('live') && entry('The open design', { source: 'live' })}
          {pinned && !has('pinned') && entry('The pinned design', { source: 'pinned' })}
          {snapshots.length > 0 && <DropdownMenu.Label className={styles['heading']}>Snapshots</DropdownMenu.Label>}
          {snapshots.map((snapshot) =>
            entry(
              shownName(snapshot.name) || 'unnamed',
              snapshotChoice(snapshot),
              `${snapshot.takenAt} ${shownName(snapshot.name)}`,
            ),
          )}
          <DropdownMenu.Label className={styles['heading']}>Demos (invented)</DropdownMenu.Label>
          {DEMO_NAMES.map((name) =>
            entry(DEMO_TITLES[name], { source: 'demo', title: DEMO_TITLES[name], document: DEMOS[name] }),
          )}
          <DropdownMenu.Separator className={styles['divider']} />
          <DropdownMenu.Item className={styles['item']} onSelect={onChooseFile}>
            From a file…
          </DropdownMenu.Item>
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  );
}
