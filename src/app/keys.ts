import { VIEW_KEYS } from '../scene/canvas/view-keys.ts';
import { type KeyRow, keyRows } from '../ui/key-rows.ts';
import { NUMBER_KEYS } from '../ui/travel.ts';
import { COMMAND_KEYS } from './keyboard.ts';

const onMac = (): boolean => /Mac|iPhone|iPad/.test(navigator.platform);

/** A combination as this machine's keyboard names it, from `mod+shift+S` style. */
export function keyName(combination: string): string {
  if (combination.length === 1) return combination;
  const mac = onMac();
  const parts = combination.split('+').map((part) => {
    if (part === 'mod') return mac ? '⌘' : 'Ctrl';
    if (part === 'shift') return mac ? '⇧' : 'Shift';
    return part;
  });
  return parts.join(mac ? '' : '+');
}

export interface KeyGroup {
  readonly title: string;
  readonly rows: readonly KeyRow[];
}

/** Everything the keyboard does, as the dialog lists it: the first three groups from what is bound, the others in words of their own. */
export const KEY_GROUPS: readonly KeyGroup[] = [
  {
    title: 'Anywhere',
    rows: [...keyRows(COMMAND_KEYS), { keys: ['Esc'], does: 'Close a dialog, a menu or the reason of a verdict' }],
  },
  {
    title: 'On a slider or number field, those that move the platform included',
    rows: [
      ...keyRows(NUMBER_KEYS),
      { keys: ['Enter'], does: 'Take what was typed; sums and units are understood, as 35*2 or 2.75 in' },
      { keys: ['Esc'], does: 'Drop what was typed' },
    ],
  },
  {
    title: 'While the 3D view has the focus',
    rows: keyRows(VIEW_KEYS),
  },
  {
    title: 'On a joint in its hole',
    rows: [
      { keys: ['↑', '↓'], does: 'Every pair one hole apart, or together' },
      { keys: ['←', '→'], does: 'Turn the pattern by one hole' },
    ],
  },
  {
    title: 'On a curve',
    rows: [
      { keys: ['←', '→'], does: 'Point at the pose one sample further' },
      { keys: ['PageUp', 'PageDown'], does: 'Ten samples' },
      { keys: ['Home', 'End'], does: 'To the ends of the curve' },
      { keys: ['Enter'], does: 'Go to the pose pointed at' },
      { keys: ['Esc'], does: 'Point at none' },
    ],
  },
  {
    title: 'In Explore, on a picture',
    rows: [
      { keys: ['←', '→', '↑', '↓'], does: 'Move over the heat map; on the other two, along the front' },
      { keys: ['PageUp', 'PageDown'], does: 'Ten layouts along the front' },
      { keys: ['Enter'], does: 'Load the layout pointed at' },
      { keys: ['Esc'], does: 'Point at none' },
    ],
  },
  {
    title: 'On a list of layouts',
    rows: [
      { keys: ['↑', '↓'], does: 'One row up or down' },
      { keys: ['PageUp', 'PageDown'], does: 'One page up or down' },
      { keys: ['Home', 'End'], does: 'To the first or last row' },
      { keys: ['Enter'], does: 'Load the layout of the row' },
      { keys: ['Esc'], does: 'Point at none' },
    ],
  },
  {
    title: 'In the name of a design or snapshot',
    rows: [
      { keys: ['Enter'], does: 'Take the name' },
      { keys: ['Esc'], does: 'Keep the former name' },
    ],
  },
];
