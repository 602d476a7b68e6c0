import { X } from 'lucide-react';
import { Dialog } from 'radix-ui';
import { type ReactNode, useState } from 'react';
import { closeDialog } from '../../state/session/dialog-store.ts';
import { dialogStore } from '../../state/stores.ts';
import styles from './dialogs.module.css';

interface DialogFrameProps {
  /** Takes nearly the whole page. */
  readonly wide?: boolean;
  readonly title: string;
  readonly description: ReactNode;
  readonly children: ReactNode;
}

/** Where focus belongs after a dialog: an item of a menu is gone by then, so the menu's own button. */
function whereFrom(focused: Element | null): Element | null {
  const menu = focused?.closest('[role="menu"]') ?? document.querySelector('[role="menu"]');
  const button = menu && document.getElementById(menu.getAttribute('aria-labelledby') ?? '');
  return button ?? focused;
}

/** A dialog with its title, closed by its button, Escape or a click outside; focus goes back to where it came from. */
export function DialogFrame({ wide = false, title, description, children }: DialogFrameProps) {
  // the page opens its dialogs by what happens, not by a button of the dialog's own, so it has to remember where focus was
  const [cameFrom] = useState(() => whereFrom(document.activeElement));
  const giveFocusBack = (event: Event) => {
    event.preventDefault();
    if (cameFrom instanceof HTMLElement) cameFrom.focus();
  };
  return (
    <Dialog.Root open onOpenChange={(open) => !open && closeDialog(dialogStore)}>
      <Dialog.Portal>
        <Dialog.Overlay className={styles['veil']} />
        <Dialog.Content className={styles['dialog']} data-wide={wide || undefined} onCloseAutoFocus={giveFocusBack}>
          <div className={styles['head']}>
            <Dialog.Title className={styles['title']}>{title}</Dialog.Title>
            <Dialog.Close className={styles['close']} aria-label="Close">
              <X aria-hidden size={18} />
            </Dialog.Close>
          </div>
          <div className={styles['body']}>
            <Dialog.Description asChild>
              <div className={styles['lead']}>{description}</div>
            </Dialog.Description>
            {children}
          </div>
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  );
}
