import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { sessionStore } from '../../state/stores.ts';

/** Where a person is in the work: the id of a row of `PLACES`, which imports the places and so cannot be imported here. */
export const placeStore = createStore<{ readonly place: string }>()(() => ({ place: 'shape' }));

/** Opens a place; nothing stays pointed at in the one that is left. */
export function goTo(place: string): void {
  placeStore.setState({ place });
  sessionStore.setState({ hovered: null });
}

export const usePlace = (): string => useStore(placeStore, ({ place }) => place);
