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

/** One row of the list that `?` shows. */
export interface KeyRow {
  readonly keys: readonly string[];
  readonly does: string;
}

export interface KeyGroup {
  readonly title: string;
  readonly rows: readonly KeyRow[];
}

/** Everything the keyboard does, as the dialog lists it. */
export const KEY_GROUPS: readonly KeyGroup[] = [
  {
    title: 'Anywhere',
    rows: [
      { keys: ['mod+Z'], does: 'Undo' },
      { keys: ['mod+shift+Z', 'mod+Y'], does: 'Redo' },
      { keys: ['mod+O'], does: 'Open a design file' },
      { keys: ['mod+S'], does: 'Save' },
      { keys: ['mod+shift+S'], does: 'Save as' },
      { keys: ['Esc'], does: 'Close a dialog, a menu or the reason of a verdict' },
      { keys: ['?'], does: 'This list' },
    ],
  },
  {
    title: 'On a slider or number field, those that jog the platform included',
    rows: [
      { keys: ['↑', '↓'], does: 'One step up or down' },
      { keys: ['shift+↑', 'shift+↓'], does: 'A tenth of a step' },
      { keys: ['PageUp', 'PageDown'], does: 'Ten steps' },
      { keys: ['Home', 'End'], does: 'To the end of the range' },
      { keys: ['Enter'], does: 'Take what was typed; sums and units are understood, as 35*2 or 2.75 in' },
      { keys: ['Esc'], does: 'Drop what was typed' },
    ],
  },
  {
    title: 'While the 3D view has the focus',
    rows: [
      { keys: ['←', '→', '↑', '↓'], does: 'Turn the view' },
      { keys: ['shift+←', 'shift+→', 'shift+↑', 'shift+↓'], does: 'Shift the view' },
      { keys: ['+', '−'], does: 'Nearer, further' },
      { keys: ['F'], does: 'Fit everything' },
      { keys: ['1', '2', '3', '4'], does: 'Isometric, top, front, right' },
      { keys: ['H'], does: 'Return the platform home' },
      { keys: ['L'], does: 'Play or pause the loosest motion' },
    ],
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
