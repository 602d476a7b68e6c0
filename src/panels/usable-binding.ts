import { useStore } from 'zustand';
import { reachFromHome } from '../reach/columns/reach-measure.ts';
import type { UsableReach } from '../reach/columns/usable.ts';
import { againstReach } from '../reach/columns/usable-share.ts';
import { liveDocument } from '../state/design/design-store.ts';
import { sameOrientation } from '../state/reach/results-store.ts';
import { sameReach } from '../state/reach/same-reach.ts';
import { reachPose } from '../state/session/session-store.ts';
import { designStore, fieldStore, resultsStore, sessionStore } from '../state/stores.ts';

/** The usable part of the reach for the screen, and whether it is one for an earlier design, orientation or floor. */
export interface ShownUsable {
  readonly value: UsableReach | null;
  readonly stale: boolean;
  readonly failure: string | null;
}

export function useUsable(): ShownUsable {
  const { finished, failure, working } = useStore(fieldStore, ({ usable }) => usable);
  const document = useStore(designStore, liveDocument);
  const pose = useStore(sessionStore, reachPose);
  const current =
    finished !== null && finished.subject.document === document && sameOrientation(finished.subject.pose, pose);
  const measured = useStore(resultsStore, ({ summary }) => summary.finished);
  // a failure is about what was asked last
  const failed = failure !== null && !working;
  if (failed || finished === null) return { value: null, stale: !failed, failure };
  const { subject, value } = finished;
  const matches =
    measured !== null &&
    sameReach(measured.subject.document, subject.document) &&
    sameOrientation(measured.subject.pose, subject.pose);
  return { value: matches ? againstReach(value, reachFromHome(measured.value)) : value, stale: !current, failure };
}
