import { redo, undo } from '../state/design/design-store.ts';
import { showDialog } from '../state/session/dialog-store.ts';
import { designStore, dialogStore } from '../state/stores.ts';
import type { FileDesk } from './files/file-desk.ts';

/**
 * Listens for the keys that work anywhere. A control that uses one of them itself (a number field that is being typed in)
 * stops it before it comes here.
 */
export function followKeyboard(desk: FileDesk): () => void {
  const onKey = (event: KeyboardEvent) => {
    if (event.defaultPrevented || event.altKey || event.isComposing) return;
    const command = commandOf(event);
    if (!command) return;
    event.preventDefault();
    run(command, desk);
  };
  window.addEventListener('keydown', onKey);
  return () => window.removeEventListener('keydown', onKey);
}

export type Command = 'undo' | 'redo' | 'open' | 'save' | 'saveAs' | 'keys';

type KeyPress = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'target'>;

/** What a key press asks for; null when it is none of ours. */
export function commandOf(press: KeyPress): Command | null {
  if (!press.ctrlKey && !press.metaKey) return press.key === '?' && !isTyping(press.target) ? 'keys' : null;
  const key = press.key.toLowerCase();
  if (key === 'z') return press.shiftKey ? 'redo' : 'undo';
  if (key === 's') return press.shiftKey ? 'saveAs' : 'save';
  if (press.shiftKey) return null;
  if (key === 'y') return 'redo';
  return key === 'o' ? 'open' : null;
}

/** Text goes into this element, so a letter is a letter. */
function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement)
    return target.type !== 'range' && target.type !== 'checkbox' && target.type !== 'radio';
  return target instanceof HTMLTextAreaElement || target.isContentEditable;
}

function run(command: Command, desk: FileDesk): void {
  const commands: Readonly<Record<Command, () => unknown>> = {
    undo: () => undo(designStore),
    redo: () => redo(designStore),
    open: () => desk.open(),
    save: () => desk.save(),
    saveAs: () => desk.saveAs(),
    keys: () => showDialog(dialogStore, { kind: 'keys' }),
  };
  commands[command]();
}
