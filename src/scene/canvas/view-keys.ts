import type { StandardView } from '../../state/session/session-store.ts';

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

const ARROWS: Readonly<Record<string, readonly [right: number, up: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

const LETTERS: Readonly<Record<string, ViewCommand>> = {
  f: { kind: 'view', view: 'fit' },
  '1': { kind: 'view', view: 'isometric' },
  '2': { kind: 'view', view: 'top' },
  '3': { kind: 'view', view: 'front' },
  '4': { kind: 'view', view: 'right' },
  h: { kind: 'home' },
  l: { kind: 'loose' },
  '+': { kind: 'zoom', factor: ZOOM },
  '=': { kind: 'zoom', factor: ZOOM },
  '-': { kind: 'zoom', factor: 1 / ZOOM },
};

type KeyPress = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>;

/** The command of a key press while the 3D view has the focus; null when it is none of ours. */
export function viewCommand({ key, ctrlKey, metaKey, shiftKey, altKey }: KeyPress): ViewCommand | null {
  if (altKey || metaKey) return null;
  const arrow = ARROWS[key];
  if (arrow) {
    const [right, up] = arrow;
    return shiftKey || ctrlKey
      ? { kind: 'pan', right: -MOVE * right, down: MOVE * up }
      : { kind: 'orbit', left: TURN * right, up: TURN * up };
  }
  return ctrlKey ? null : (LETTERS[key.toLowerCase()] ?? null);
}

/** The keys in words, for those who cannot see the list. */
export const VIEW_KEYS_SPOKEN =
  'Arrow keys turn the view, with Shift they move it, plus and minus zoom. F fits everything, 1 isometric, 2 top, 3 front, ' +
  '4 right. H returns the platform home, L plays or pauses the loosest motion. Question mark lists all keys.';
