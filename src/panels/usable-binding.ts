import { reachFromHome } from '../reach/columns/reach-measure.ts';
import type { UsableReach } from '../reach/columns/usable.ts';
import { againstReach } from '../reach/columns/usable-share.ts';
import { liveDocument } from '../state/design/design-store.ts';
import { sameOrientation } from '../state/reach/results-store.ts';
import { sameReach } from '../state/reach/same-reach.ts';
import { reachPose } from '../state/session/session-store.ts';
import { designStore, fieldStore, resultsStore, sessionStore } from '../state/stores.ts';
import { useDerived } from '../state/use-derived.ts';

/** The usable part of the reach for the screen, and whether it is one for an earlier design, orientation or floor. */
export interface ShownUsable {
  readonly value: UsableReach | null;
  readonly stale: boolean;
  readonly failure: string | null;
}

const STORES = [fieldStore, resultsStore, designStore, sessionStore] as const;

export const useUsable = (): ShownUsable => useDerived(STORES, shownUsable);

let last: ShownUsable = { value: null, stale: true, failure: null };
const scaled = new WeakMap<UsableReach, { readonly reachable: number; readonly value: UsableReach }>();

/** What is known now; the same object until that changes. */
export function shownUsable(): ShownUsable {
  const { value, stale, failure } = present();
  if (value !== last.value || stale !== last.stale || failure !== last.failure) last = { value, stale, failure };
  return last;
}

function present(): ShownUsable {
  const { finished, failure, working } = fieldStore.getState().usable;
  // a failure is about what was asked last
  const failed = failure !== null && !working;
  if (failed || finished === null) return { value: null, stale: !failed, failure };
  const { subject, value } = finished;
  const document = liveDocument(designStore.getState());
  const current = subject.document === document && sameOrientation(subject.pose, reachPose(sessionStore.getState()));
  const measured = resultsStore.getState().summary.finished;
  const matches =
    measured !== null &&
    sameReach(measured.subject.document, subject.document) &&
    sameOrientation(measured.subject.pose, subject.pose);
  return { value: matches ? against(value, reachFromHome(measured.value)) : value, stale: !current, failure };
}

/** {@link againstReach}; the same object for the same numbers. */
function against(value: UsableReach, reachable: number): UsableReach {
  const known = scaled.get(value);
  if (known?.reachable === reachable) return known.value;
  const made = againstReach(value, reachable);
  scaled.set(value, { reachable, value: made });
  return made;
}
