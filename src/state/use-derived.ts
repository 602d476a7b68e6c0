import { useCallback, useSyncExternalStore } from 'react';

/** A store as far as a reader needs it. */
interface Followed {
  subscribe(listener: () => void): () => void;
}

/**
 * What follows from several stores together; the component renders only when that changes, however often the stores do.
 * @param stores always the same list
 * @param read gives a primitive or a stable reference
 */
export function useDerived<Value>(stores: readonly Followed[], read: () => Value): Value {
  const follow = useCallback(
    (listener: () => void) => {
      const stops = stores.map((store) => store.subscribe(listener));
      return () => {
        for (const stop of stops) stop();
      };
    },
    [stores],
  );
  return useSyncExternalStore(follow, read);
}
