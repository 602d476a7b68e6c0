import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import type { BuildDesk, BuildState } from '../../state/build/build-desk.ts';

const DeskContext = createContext<BuildDesk | null>(null);

/** Gives the panels of the place Build what they work with. */
export const BuildDeskProvider = DeskContext.Provider;

export function useBuildDesk(): BuildDesk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error('Build panels stand inside a BuildDeskProvider.');
  return desk;
}

/** Part of what is built; the selector returns a primitive or a stable reference. */
export const useBuild = <Part>(select: (state: BuildState) => Part): Part => useStore(useBuildDesk().store, select);
