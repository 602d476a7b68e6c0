import { ChevronDown } from 'lucide-react';
import { DropdownMenu } from 'radix-ui';
import { useStore } from 'zustand';
import { DEMO_NAMES, DEMO_TITLES, DEMOS } from '../../document/demos.ts';
import { showDialog } from '../../state/session/dialog-store.ts';
import { dialogStore, earlierWorkStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { shownName } from '../../words/shown-name.ts';
import { useDesk } from '../files/desk-context.ts';
import { keyName } from '../keys.ts';
import { whenWords } from '../when-words.ts';
import styles from './buttons.module.css';

/** Everything that opens, saves or starts over. */
export function FileMenu() {
  const desk = useDesk();
  return (
    <DropdownMenu.Root modal={false}>
      <DropdownMenu.Trigger asChild>
        <Button look="quiet" className={styles['text']}>
          File
          <ChevronDown aria-hidden />
        </Button>
      </DropdownMenu.Trigger>
      <DropdownMenu.Portal>
        <DropdownMenu.Content className={styles['menu']} align="start" sideOffset={4} collisionPadding={8}>
          <Entry label="Open…" keys={keyName('mod+O')} onChoose={() => desk.open()} />
          <Entry label="Save" keys={keyName('mod+S')} onChoose={() => desk.save()} />
          <Entry label="Save as…" keys={keyName('mod+shift+S')} onChoose={() => desk.saveAs()} />
          <Entry label="Copy link…" onChoose={() => showDialog(dialogStore, { kind: 'share' })} />
          <DropdownMenu.Separator className={styles['divider']} />
          <DropdownMenu.Label className={styles['heading']}>Start over from a demo (invented)</DropdownMenu.Label>
          {DEMO_NAMES.map((name) => (
            <Entry key={name} label={DEMO_TITLES[name]} onChoose={() => desk.startFrom(DEMOS[name])} />
          ))}
          <EarlierWork />
        </DropdownMenu.Content>
      </DropdownMenu.Portal>
    </DropdownMenu.Root>
  );
}

function EarlierWork() {
  const desk = useDesk();
  const earlier = useStore(earlierWorkStore, (state) => state.earlier);
  if (earlier.length === 0) return null;
  return (
    <>
      <DropdownMenu.Separator className={styles['divider']} />
      <DropdownMenu.Label className={styles['heading']}>Kept earlier</DropdownMenu.Label>
      {earlier.map((kept) => (
        <Entry
          key={kept.key}
          label={`${shownName(kept.name) || 'Untitled'}, ${whenWords(kept.savedAt)}`}
          onChoose={() => desk.openKept(kept)}
        />
      ))}
    </>
  );
}

interface EntryProps {
  readonly label: string;
  readonly keys?: string;
  readonly onChoose: () => unknown;
}

function Entry({ label, keys, onChoose }: EntryProps) {
  return (
    <DropdownMenu.Item className={styles['item']} onSelect={onChoose}>
      {label}
      {keys && <kbd>{keys}</kbd>}
    </DropdownMenu.Item>
  );
}
