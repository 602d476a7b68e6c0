import { Pencil, RotateCcw, Trash2 } from 'lucide-react';
import { type KeyboardEvent, useState } from 'react';
import type { SnapshotDocument } from '../../document/design.ts';
import { Button } from '../../ui/Button.tsx';
import { shownName } from '../../words/shown-name.ts';
import styles from './snapshots.module.css';

interface SnapshotItemProps {
  readonly snapshot: SnapshotDocument;
  readonly onRestore: () => void;
  readonly onRemove: () => void;
  readonly onRename: (name: string) => void;
}

/** Longest name that a snapshot takes. */
const LONGEST_NAME = 200;

/** One snapshot: its name, when it was taken, and what can be done with it. */
export function SnapshotItem({ snapshot, onRestore, onRemove, onRename }: SnapshotItemProps) {
  const [typed, setTyped] = useState<string | null>(null);
  const name = snapshot.name === '' ? 'unnamed' : shownName(snapshot.name);
  const keep = () => {
    const wanted = typed?.trim();
    setTyped(null);
    if (wanted !== undefined && wanted !== '' && wanted !== snapshot.name) onRename(wanted);
  };
  return (
    <li className={styles['item']}>
      {typed === null ? (
        <span className={styles['name']}>
          {name}
          <time dateTime={snapshot.takenAt}>{momentWords(snapshot.takenAt)}</time>
        </span>
      ) : (
        <NameField typed={typed} onType={setTyped} onKeep={keep} onDrop={() => setTyped(null)} />
      )}
      <span className={styles['actions']}>
        <Button look="quiet" title="Restore" aria-label={`Restore ${name}`} onClick={onRestore}>
          <RotateCcw size={14} aria-hidden="true" />
        </Button>
        <Button look="quiet" title="Rename" aria-label={`Rename ${name}`} onClick={() => setTyped(snapshot.name)}>
          <Pencil size={14} aria-hidden="true" />
        </Button>
        <Button look="quiet" title="Remove" aria-label={`Remove ${name}`} onClick={onRemove}>
          <Trash2 size={14} aria-hidden="true" />
        </Button>
      </span>
    </li>
  );
}

interface NameFieldProps {
  readonly typed: string;
  readonly onType: (name: string) => void;
  readonly onKeep: () => void;
  readonly onDrop: () => void;
}

function NameField({ typed, onType, onKeep, onDrop }: NameFieldProps) {
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') onKeep();
    if (event.key === 'Escape') onDrop();
    // what is being typed is undone letter by letter
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z') event.stopPropagation();
  };
  return (
    <input
      ref={(field) => field?.focus()}
      className={styles['field']}
      aria-label="New name of the snapshot"
      value={typed}
      maxLength={LONGEST_NAME}
      autoComplete="off"
      spellCheck={false}
      onChange={(event) => onType(event.target.value)}
      onBlur={onKeep}
      onKeyDown={onKeyDown}
    />
  );
}

const MOMENT = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

/** A moment in the person's own time and way of writing. */
const momentWords = (moment: string): string => MOMENT.format(new Date(moment));
