import { lazy } from 'react';

/** The place where many layouts are weighed; most visits begin elsewhere, so its code comes when it is first opened. */
export const LazyExplorePlace = lazy(async () => ({ default: (await import('./ExplorePlace.tsx')).ExplorePlace }));
