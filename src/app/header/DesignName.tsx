import { type KeyboardEvent, useState } from 'react';
import { useStore } from 'zustand';
import { changeDocument, isUnsaved, liveDocument, presentOpening } from '../../state/design/design-store.ts';
import { designStore } from '../../state/stores.ts';
import { namedAsShown, shownName } from '../../words/shown-name.ts';
import styles from './Header.module.css';

/** Longest name that a design file takes. */
const LONGEST_NAME = 200;

/** The design's name, which can be changed in place, and whether it is saved. */
export function DesignName() {
  const name = useStore(designStore, (state) => shownName(liveDocument(state).name));
  const [typed, setTyped] = useState<string | null>(null);
  const keep = () => {
    const wanted = typed?.trim();
    setTyped(null);
    if (wanted === undefined || wanted === name) return;
    changeDocument(designStore, { ...designStore.getState().document, name: namedAsShown(wanted) }, 'Rename');
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'Enter') event.currentTarget.blur();
    if (event.key === 'Escape') setTyped(null);
    // what is being typed is undone letter by letter
    if (typed !== null && (event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z') event.stopPropagation();
  };
  return (
    <div className={styles['name']}>
      <input
        aria-label="Name of the design"
        value={typed ?? name}
        maxLength={LONGEST_NAME}
        spellCheck={false}
        autoComplete="off"
        onChange={(event) => setTyped(event.target.value)}
        onBlur={keep}
        onKeyDown={onKeyDown}
      />
      <SavedMark />
    </div>
  );
}

const shownFile = (fileName: string | null): string | null => (fileName === null ? null : shownName(fileName));

function SavedMark() {
  const unsaved = useStore(designStore, isUnsaved);
  const fileName = useStore(designStore, (state) => shownFile(presentOpening(state).fileName));
  if (unsaved) {
    return (
      <span className={styles['unsaved']} title={fileName ? `Not yet saved to ${fileName}` : 'Not yet saved to a file'}>
        <span aria-hidden>● </span>unsaved
      </span>
    );
  }
  return fileName === null ? null : (
    <span className={styles['saved']} title={fileName}>
      {fileName}
    </span>
  );
}
