import { useEffect, useState } from 'react';
import { compiledDesign } from '../../document/compiled.ts';
import { type FreeTravelResult, freeTravel } from '../../kinematics/free-travel.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { presentPoseNow } from '../pose-binding.ts';

/** The search takes some milliseconds, so it waits until nothing has moved for this long [ms]. */
const REST = 90;

interface Found {
  readonly result: FreeTravelResult | null;
  readonly stale: boolean;
}

/** Free travel from the present pose, a moment after it came to rest; `stale` until then. */
export function useFreeTravel(): Found {
  const [found, setFound] = useState<Found>({ result: null, stale: true });
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let document = liveDocument(designStore.getState());
    let { pose } = sessionStore.getState();
    const wait = () => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        const { mechanism } = compiledDesign(document);
        setFound({ result: freeTravel(mechanism, presentPoseNow()), stale: false });
      }, REST);
    };
    const follow = () => {
      const now = liveDocument(designStore.getState());
      const { pose: at } = sessionStore.getState();
      if (now === document && at === pose) return;
      document = now;
      pose = at;
      setFound((known) => (known.stale ? known : { ...known, stale: true }));
      wait();
    };
    wait();
    const stops = [designStore, sessionStore].map((store) => store.subscribe(follow));
    return () => {
      clearTimeout(timer);
      for (const stop of stops) stop();
    };
  }, []);
  return found;
}
