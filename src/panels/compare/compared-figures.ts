import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { ComparedLayout } from '../../jobs/compare-jobs.ts';
import type { TiltedSummary } from '../../jobs/reach-jobs.ts';
import type { UsableReach } from '../../reach/columns/usable.ts';
import {
  type ComparedDesign,
  type ComparedOutcome,
  comparedDesigns,
  tiltsKey,
  usableKey,
} from '../../state/compare/compare-store.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { compareStore, designStore, sessionStore } from '../../state/stores.ts';

/** One column of the comparison with what is known of it; null while it is being computed. */
export interface ComparedFigures {
  readonly design: ComparedDesign;
  readonly layout: ComparedOutcome<ComparedLayout> | null;
  readonly usable: ComparedOutcome<UsableReach> | null;
  readonly tilts: ComparedOutcome<TiltedSummary> | null;
}

/** The columns as they stand. */
export function useComparedFigures(): readonly ComparedFigures[] {
  const chosen = useStore(compareStore, (state) => state.chosen);
  const layouts = useStore(compareStore, (state) => state.layouts);
  const usables = useStore(compareStore, (state) => state.usables);
  const tilts = useStore(compareStore, (state) => state.tilts);
  const live = useStore(designStore, liveDocument);
  const pinned = useStore(sessionStore, (state) => state.pinned);
  const tiltRange = useStore(sessionStore, (state) => state.tiltRange);
  const yawRange = useStore(sessionStore, (state) => state.yawRange);
  return useMemo(
    () =>
      comparedDesigns(chosen, live, pinned).map((design) => ({
        design,
        layout: layouts.get(design.key) ?? null,
        usable: usables.get(usableKey(design)) ?? null,
        tilts: tilts.get(tiltsKey(design.key, tiltRange, yawRange)) ?? null,
      })),
    [chosen, layouts, usables, tilts, live, pinned, tiltRange, yawRange],
  );
}

/** What was computed of a column, or null. */
export const layoutOf = ({ layout }: ComparedFigures): ComparedLayout | null =>
  layout?.kind === 'done' ? layout.value : null;
