import type { DesignDocument } from '../../document/design.ts';

/** Parts of a design that no reach depends on, so that a dragged floor only changes which part of the drawn reach is usable. */
const BESIDE_THE_REACH: ReadonlySet<string> = new Set<keyof DesignDocument>(['floors']);

/**
 * Whether two designs have the same reach for certain: they share every part that it depends on, as a changed design does with
 * the one before it.
 */
export function sameReach(one: DesignDocument, other: DesignDocument): boolean {
  if (one === other) return true;
  const parts = new Map(Object.entries(other));
  const own = Object.entries(one);
  const counts = (names: Iterable<string>) => [...names].filter((name) => !BESIDE_THE_REACH.has(name)).length;
  return (
    counts(Object.keys(one)) === counts(parts.keys()) &&
    own.every(([name, part]) => BESIDE_THE_REACH.has(name) || parts.get(name) === part)
  );
}
