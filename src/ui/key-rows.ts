/** One row of the list of keys: combinations in `mod+shift+Z` style, and what they do. */
export interface KeyRow {
  readonly keys: readonly string[];
  readonly does: string;
}

/** Names of keys that are not written as the browser calls them. */
const SIGNS: Readonly<Record<string, string>> = {
  ArrowLeft: '←',
  ArrowRight: '→',
  ArrowUp: '↑',
  ArrowDown: '↓',
  Escape: 'Esc',
  '-': '−',
};

/** What is bound to a key, as much of it as the list of keys shows. */
export interface KeyBinding {
  /** As the browser names it: `ArrowLeft`, `f`. */
  readonly key: string;
  readonly shift?: true;
  readonly mod?: true;
  readonly does: string;
  /** Does the same as another and is not listed. */
  readonly alias?: true;
}

/** Rows of the list, made from the bindings themselves: those that do the same stand in one row. */
export function keyRows(bindings: readonly KeyBinding[]): readonly KeyRow[] {
  const rows = new Map<string, string[]>();
  for (const { key, shift, mod, does, alias } of bindings) {
    if (alias) continue;
    const shown = SIGNS[key] ?? (key.length === 1 ? key.toUpperCase() : key);
    const name = `${mod ? 'mod+' : ''}${shift ? 'shift+' : ''}${shown}`;
    rows.set(does, [...(rows.get(does) ?? []), name]);
  }
  return [...rows].map(([does, keys]) => ({ does, keys }));
}
