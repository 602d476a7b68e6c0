import type { DesignDocument } from '../../document/design.ts';
import type { ReachSurface } from '../../jobs/reach-picture.ts';
import { type ComparedDesign, type CompareState, comparedDesigns } from '../../state/compare/compare-store.ts';

/** A compared design's reach to draw beside the live one's. */
export interface ComparedShell {
  readonly letter: ComparedDesign['letter'];
  /** Place of its column, which says how its outline is broken. */
  readonly place: number;
  readonly shell: ReachSurface;
}

/** The compared designs that are drawn as outlines: all but the live one, whose own reach is drawn in full. */
export function overlaidDesigns(
  { overlaid, chosen }: CompareState,
  live: DesignDocument,
  pinned: DesignDocument | null,
): readonly (ComparedDesign & { readonly place: number })[] {
  if (!overlaid) return [];
  return comparedDesigns(chosen, live, pinned)
    .map((column, place) => ({ ...column, place }))
    .filter(({ source }) => source !== 'live');
}

/** Their shells, as far as they are known. */
export function comparedShells(
  compare: CompareState,
  live: DesignDocument,
  pinned: DesignDocument | null,
): readonly ComparedShell[] {
  return overlaidDesigns(compare, live, pinned).flatMap(({ letter, place, key }) => {
    const found = compare.layouts.get(key);
    return found?.kind === 'done' ? [{ letter, place, shell: found.value.shell }] : [];
  });
}

/** Says which outline is which design's; null where none is drawn. */
export function comparedWords(
  compare: CompareState,
  live: DesignDocument,
  pinned: DesignDocument | null,
): string | null {
  const columns = overlaidDesigns(compare, live, pinned);
  if (columns.length === 0) return null;
  return `Outlines of reaches: ${columns.map(({ letter, title }) => `${letter} ${title}`).join('; ')}`;
}
