import { useStore } from 'zustand';
import type { TiltedReach } from '../reach/columns/over-tilt.ts';
import type { ReachMeasure } from '../reach/columns/reach-measure.ts';
import { liveDocument } from '../state/design/design-store.ts';
import { isCurrent } from '../state/reach/results-store.ts';
import { sameReach } from '../state/reach/same-reach.ts';
import { reachPose } from '../state/session/session-store.ts';
import { designStore, resultsStore, sessionStore } from '../state/stores.ts';

/** A result for the screen: the last value, and whether it is one for an earlier design or orientation. */
export interface Shown<Value> {
  readonly value: Value | null;
  readonly stale: boolean;
  readonly failure: string | null;
}

/** The reach at the chosen orientation. */
export function useReach(): Shown<ReachMeasure> {
  const { finished, failure } = useStore(resultsStore, (state) => state.summary);
  const document = useStore(designStore, liveDocument);
  const pose = useStore(sessionStore, reachPose);
  const stale = !finished || !isCurrent(finished.subject, document, pose);
  return { value: finished?.value ?? null, stale, failure };
}

/** The reach at all orientations of the tilt range, as far as they were sampled. */
export function useTiltedReach(): Shown<TiltedReach> {
  const { finished, failure } = useStore(resultsStore, (state) => state.tilted);
  const document = useStore(designStore, liveDocument);
  const tiltRange = useStore(sessionStore, (state) => state.tiltRange);
  const yawRange = useStore(sessionStore, (state) => state.yawRange);
  const subject = finished?.subject;
  const current =
    subject !== undefined &&
    sameReach(subject.document, document) &&
    subject.tiltRange === tiltRange &&
    subject.yawRange === yawRange;
  return { value: finished?.value ?? null, stale: !current, failure };
}
