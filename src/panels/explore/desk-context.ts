import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import type { ExploreDesk } from '../../state/explore/explore-desk.ts';
import type { OptimiserState } from '../../state/explore/explore-optimiser.ts';
import type { ExploreState } from '../../state/explore/explore-store.ts';
import type { HolesState } from '../../state/explore/holes-store.ts';

const DeskContext = createContext<ExploreDesk | null>(null);

/** Gives the panels of the place Explore what they work with. */
export const ExploreDeskProvider = DeskContext.Provider;

export function useExploreDesk(): ExploreDesk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error('Explore panels stand inside an ExploreDeskProvider.');
  return desk;
}

/** Part of the sweep and its pictures; the selector returns a primitive or a stable reference. */
export const useExplore = <Part>(select: (state: ExploreState) => Part): Part =>
  useStore(useExploreDesk().explore, select);

export const useHoles = <Part>(select: (state: HolesState) => Part): Part =>
  useStore(useExploreDesk().holesStore, select);

export const useOptimiser = <Part>(select: (state: OptimiserState) => Part): Part =>
  useStore(useExploreDesk().optimiserStore, select);
