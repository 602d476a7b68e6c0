import { useStore } from 'zustand';
import type { TiltedReach } from '../reach/columns/over-tilt.ts';
import type { ReachMeasure } from '../reach/columns/reach-measure.ts';
import { liveDocument } from '../state/design/design-store.ts';
import { isCurrent } from '../state/reach/results-store.ts';
import { sameReach } from '../state/reach/same-reach.ts';
import { reachPose } from '../state/session/session-store.ts';
import { designStore, resultsStore, sessionStore } from '../state/stores.ts';
import { useDerived } from '../state/use-derived.ts';

/** A result for the screen: the last value, and whether it is one for an earlier design or orientation. */
export interface Shown<Value> {
  readonly value: Value | null;
  readonly stale: boolean;
  readonly failure: string | null;
}

const STORES = [resultsStore, designStore, sessionStore] as const;

/** The reach at the chosen orientation. */
export function useReach(): Shown<ReachMeasure> {
  const { finished, failure } = useStore(resultsStore, (state) => state.summary);
  return { value: finished?.value ?? null, stale: useDerived(STORES, summaryIsStale), failure };
}

export function summaryIsStale(): boolean {
  const { finished } = resultsStore.getState().summary;
  const document = liveDocument(designStore.getState());
  return !finished || !isCurrent(finished.subject, document, reachPose(sessionStore.getState()));
}

/** The reach at all orientations of the tilt range, as far as they were sampled. */
export function useTiltedReach(): Shown<TiltedReach> {
  const { finished, failure } = useStore(resultsStore, (state) => state.tilted);
  return { value: finished?.value ?? null, stale: useDerived(STORES, tiltedIsStale), failure };
}

function tiltedIsStale(): boolean {
  const subject = resultsStore.getState().tilted.finished?.subject;
  const { tiltRange, yawRange } = sessionStore.getState();
  return (
    subject === undefined ||
    !sameReach(subject.document, liveDocument(designStore.getState())) ||
    subject.tiltRange !== tiltRange ||
    subject.yawRange !== yawRange
  );
}
