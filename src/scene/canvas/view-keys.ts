import type { StandardView } from '../../state/session/session-store.ts';
import type { KeyBinding } from '../../ui/key-rows.ts';

/** What a key asks of the 3D view. */
export type ViewCommand =
  | { readonly kind: 'view'; readonly view: StandardView | 'fit' }
  | { readonly kind: 'orbit'; readonly left: number; readonly up: number }
  | { readonly kind: 'pan'; readonly right: number; readonly down: number }
  | { readonly kind: 'zoom'; readonly factor: number }
  | { readonly kind: 'home' }
  | { readonly kind: 'loose' };

/** One press turns by this [rad], moves by this [CSS px], or brings nearer by this factor. */
const TURN = (5 * Math.PI) / 180;
const MOVE = 24;
const ZOOM = 1.12;

interface ViewBinding extends KeyBinding {
  readonly command: ViewCommand;
}

const arrow = (key: string, right: number, up: number): readonly ViewBinding[] => [
  { key, does: 'Turn the view', command: { kind: 'orbit', left: TURN * right, up: TURN * up } },
  { key, shift: true, does: 'Shift the view', command: { kind: 'pan', right: -MOVE * right, down: MOVE * up } },
];

const VIEWS_DO = 'Isometric, top, front, right';

/** Every key of the 3D view; the list behind `?` is made from it. */
export const VIEW_KEYS: readonly ViewBinding[] = [
  ...arrow('ArrowLeft', -1, 0),
  ...arrow('ArrowRight', 1, 0),
  ...arrow('ArrowUp', 0, 1),
  ...arrow('ArrowDown', 0, -1),
  { key: '+', does: 'Nearer', command: { kind: 'zoom', factor: ZOOM } },
  { key: '=', does: 'Nearer', command: { kind: 'zoom', factor: ZOOM }, alias: true },
  { key: '-', does: 'Further', command: { kind: 'zoom', factor: 1 / ZOOM } },
  { key: 'f', does: 'Fit everything', command: { kind: 'view', view: 'fit' } },
  { key: '1', does: VIEWS_DO, command: { kind: 'view', view: 'isometric' } },
  { key: '2', does: VIEWS_DO, command: { kind: 'view', view: 'top' } },
  { key: '3', does: VIEWS_DO, command: { kind: 'view', view: 'front' } },
  { key: '4', does: VIEWS_DO, command: { kind: 'view', view: 'right' } },
  { key: 'h', does: 'Return the platform home', command: { kind: 'home' } },
  { key: 'l', does: 'Play or pause the loosest motion', command: { kind: 'loose' } },
];

type KeyPress = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>;

/** The command of a key press while the 3D view has the focus; null when it is none of ours. */
export function viewCommand({ key, ctrlKey, metaKey, shiftKey, altKey }: KeyPress): ViewCommand | null {
  if (altKey || metaKey) return null;
  const arrows = key.startsWith('Arrow');
  if (ctrlKey && !arrows) return null;
  const wanted = arrows ? key : key.toLowerCase();
  // Ctrl with an arrow shifts as Shift does; letters and signs mean the same with Shift
  const shifted = arrows && (shiftKey || ctrlKey);
  return VIEW_KEYS.find((bound) => bound.key === wanted && (bound.shift ?? false) === shifted)?.command ?? null;
}

/** The keys in words, for those who cannot see the list. */
export const VIEW_KEYS_SPOKEN =
  'Arrow keys turn the view, with Shift they move it, plus and minus zoom. F fits everything, 1 isometric, 2 top, 3 front, ' +
  '4 right. H returns the platform home, L plays or pauses the loosest motion. Question mark lists all keys.';
