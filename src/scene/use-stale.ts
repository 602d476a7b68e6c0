import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { liveDocument } from '../state/design/design-store.ts';
import { isCurrent } from '../state/reach/results-store.ts';
import { reachPose } from '../state/session/session-store.ts';
import { designStore, resultsStore, sessionStore } from '../state/stores.ts';
import { useDerived } from '../state/use-derived.ts';
import { Staleness } from './model/staleness.ts';

const STORES = [designStore, resultsStore, sessionStore] as const;

/** True while the picture of the reach has been out of date for some time, as the drawing shows it grey. */
export function useStale(): boolean {
  const [tracker, stale] = useTracker();
  const finished = useStore(resultsStore, ({ picture }) => picture.finished);
  const current = useDerived(STORES, pictureIsCurrent);
  useEffect(() => tracker.follow(current, finished?.subject), [tracker, current, finished]);
  return stale && !current;
}

function pictureIsCurrent(): boolean {
  const { finished } = resultsStore.getState().picture;
  const document = liveDocument(designStore.getState());
  return finished !== null && isCurrent(finished.subject, document, reachPose(sessionStore.getState()));
}

function useTracker(): readonly [Staleness, boolean] {
  const [stale, setStale] = useState(false);
  const [tracker] = useState(() => new Staleness(setStale));
  useEffect(() => () => tracker.stop(), [tracker]);
  return [tracker, stale];
}
