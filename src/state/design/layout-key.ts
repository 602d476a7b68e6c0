import type { DesignDocument } from '../../document/design.ts';

const keys = new WeakMap<DesignDocument, string>();

/** A text that is equal for designs of equal geometry, whatever their names, notes, snapshots and floors; computed once per document. */
export function layoutKey(document: DesignDocument): string {
  let key = keys.get(document);
  if (key === undefined) {
    const { format, version, name, note, snapshots, floors, ...layout } = document;
    key = JSON.stringify(Object.entries(layout).sort(([one], [other]) => (one < other ? -1 : 1)));
    keys.set(document, key);
  }
  return key;
}
