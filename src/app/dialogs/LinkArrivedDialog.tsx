import { closeDialog } from '../../state/session/dialog-store.ts';
import { dialogStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { DialogFrame } from './DialogFrame.tsx';
import styles from './share.module.css';

interface LinkArrivedDialogProps {
  /** Name of the design in the link. */
  readonly name: string;
  readonly open: () => void;
}

/** Asks before a link takes the place of unsaved work. */
export function LinkArrivedDialog({ name, open }: LinkArrivedDialogProps) {
  const title = name === '' ? 'a design without a name' : name;
  const take = () => {
    closeDialog(dialogStore);
    open();
  };
  return (
    <DialogFrame
      title="Open the design from the link?"
      description={`The link holds ${title}. The design that is open has changes that no file holds yet.`}
    >
      <p>
        If you open the link, those changes stay one step back (Undo) and are kept in the File menu as well. If you do
        not, nothing changes.
      </p>
      <div className={styles['actions']}>
        <Button look="filled" onClick={take}>
          Open the link
        </Button>
        <Button onClick={() => closeDialog(dialogStore)}>Stay with the open design</Button>
      </div>
    </DialogFrame>
  );
}
