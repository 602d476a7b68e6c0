import type { DesignDocument } from '../../document/design.ts';

interface Keys {
  readonly floors: string;
  readonly rest: string;
}

const known = new WeakMap<DesignDocument, Keys>();

function keysOf(document: DesignDocument): Keys {
  let keys = known.get(document);
  if (!keys) {
    const { floors, ...rest } = document;
    keys = { floors: JSON.stringify(floors ?? null), rest: JSON.stringify(rest) };
    known.set(document, keys);
  }
  return keys;
}

/**
 * Whether two designs have the same reach for certain: they are one, or differ in their floors alone. A floor that is dragged
 * then leaves the drawn reach as it is and only changes which part of it is usable.
 */
export function sameReach(one: DesignDocument, other: DesignDocument): boolean {
  if (one === other) return true;
  const [a, b] = [keysOf(one), keysOf(other)];
  return a.floors !== b.floors && a.rest === b.rest;
}
