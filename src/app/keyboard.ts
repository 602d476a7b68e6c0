import { redo, undo } from '../state/design/design-store.ts';
import { showDialog } from '../state/session/dialog-store.ts';
import { designStore, dialogStore } from '../state/stores.ts';
import type { KeyBinding } from '../ui/key-rows.ts';
import type { FileDesk } from './files/file-desk.ts';
import { toRegion } from './regions.ts';

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

interface CommandBinding extends KeyBinding {
  readonly command: string;
}

/** Every key that works anywhere; the list behind `?` is made from it. */
export const COMMAND_KEYS = [
  { key: 'z', mod: true, command: 'undo', does: 'Undo' },
  { key: 'z', mod: true, shift: true, command: 'redo', does: 'Redo' },
  { key: 'y', mod: true, command: 'redo', does: 'Redo' },
  { key: 'o', mod: true, command: 'open', does: 'Open a design file' },
  { key: 's', mod: true, command: 'save', does: 'Save' },
  { key: 's', mod: true, shift: true, command: 'saveAs', does: 'Save as' },
  { key: 'F6', command: 'nextRegion', does: 'To the next part of the page' },
  { key: 'F6', shift: true, command: 'formerRegion', does: 'To the part before' },
  { key: '?', command: 'keys', does: 'This list' },
] as const satisfies readonly CommandBinding[];

export type Command = (typeof COMMAND_KEYS)[number]['command'];

type KeyPress = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'target'>;

/** What a key press asks for; null when it is none of ours. */
export function commandOf(press: KeyPress): Command | null {
  const held = press.ctrlKey || press.metaKey;
  const bindings: readonly (CommandBinding & { readonly command: Command })[] = COMMAND_KEYS;
  const bound = bindings.find(
    ({ key, mod = false, shift = false }) =>
      key === (key.length === 1 ? press.key.toLowerCase() : press.key) &&
      mod === held &&
      // on many keyboards a sign is typed with Shift
      (shift === press.shiftKey || /^[^a-z]$/.test(key)),
  );
  if (!bound) return null;
  return bound.key.length === 1 && !held && isTyping(press.target) ? null : bound.command;
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
    nextRegion: () => toRegion(1),
    formerRegion: () => toRegion(-1),
    keys: () => showDialog(dialogStore, { kind: 'keys' }),
  };
  commands[command]();
}
