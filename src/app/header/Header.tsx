import { Columns3, FolderOpen, Keyboard, Redo2, Save, TriangleAlert, Undo2 } from 'lucide-react';
import { useStore } from 'zustand';
import { redo, undo } from '../../state/design/design-store.ts';
import { showDialog } from '../../state/session/dialog-store.ts';
import { designStore, dialogStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { useDesk } from '../files/desk-context.ts';
import { keyName } from '../keys.ts';
import { PlaceLinks } from '../places/PlaceLinks.tsx';
import buttons from './buttons.module.css';
import { DesignName } from './DesignName.tsx';
import { FileMenu } from './FileMenu.tsx';
import styles from './Header.module.css';
import { IconButton } from './IconButton.tsx';
import { ThemeMenu } from './ThemeMenu.tsx';

/** Name of the design, places, files, history, theme, cautions and keys. */
export function Header() {
  return (
    <header className={styles['header']}>
      <h1 className={styles['brand']}>Legroom</h1>
      <DesignName />
      <PlaceLinks />
      <div className={styles['tools']}>
        <FileMenu />
        <FileButtons />
        <HistoryButtons />
        <Button
          look="quiet"
          className={`${buttons['text']} ${styles['compare']}`}
          aria-label="Compare designs"
          aria-haspopup="dialog"
          onClick={() => showDialog(dialogStore, { kind: 'compare' })}
        >
          <Columns3 aria-hidden />
          <span className={styles['word']}>Compare</span>
        </Button>
        <ThemeMenu />
        <Button
          look="quiet"
          className={buttons['text']}
          aria-label="Cautions"
          aria-haspopup="dialog"
          onClick={() => showDialog(dialogStore, { kind: 'cautions' })}
        >
          <TriangleAlert aria-hidden />
          <span className={styles['word']}>Cautions</span>
        </Button>
        <IconButton
          label="Keys"
          keys="?"
          aria-haspopup="dialog"
          onClick={() => showDialog(dialogStore, { kind: 'keys' })}
        >
          <Keyboard aria-hidden />
        </IconButton>
      </div>
    </header>
  );
}

function FileButtons() {
  const desk = useDesk();
  return (
    <div className={styles['group']}>
      <IconButton label="Open" keys={keyName('mod+O')} onClick={() => desk.open()}>
        <FolderOpen aria-hidden />
      </IconButton>
      <IconButton label="Save" keys={keyName('mod+S')} onClick={() => desk.save()}>
        <Save aria-hidden />
      </IconButton>
    </div>
  );
}

function HistoryButtons() {
  const label = useStore(designStore, (state) => state.label);
  const canUndo = useStore(designStore.temporal, ({ pastStates }) => pastStates.length > 0);
  const next = useStore(designStore.temporal, ({ futureStates }) => futureStates.at(-1)?.label ?? null);
  return (
    <div className={styles['group']}>
      <IconButton
        label={canUndo ? `Undo: ${label}` : 'Undo'}
        keys={keyName('mod+Z')}
        idle={!canUndo}
        onClick={() => undo(designStore)}
      >
        <Undo2 aria-hidden />
      </IconButton>
      <IconButton
        label={next === null ? 'Redo' : `Redo: ${next}`}
        keys={keyName('mod+shift+Z')}
        idle={next === null}
        onClick={() => redo(designStore)}
      >
        <Redo2 aria-hidden />
      </IconButton>
    </div>
  );
}
