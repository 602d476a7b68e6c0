import build from './build/build-place.module.css';
import explore from './explore/explore-place.module.css';
import { later, type PlaceSpec } from './place-spec.ts';
import { ShapePlace } from './shape/ShapePlace.tsx';
import shape from './shape/shape-place.module.css';

/**
 * Every place, in the order of the work: the links in the header, the page's division, the skip link and what is shown come from
 * here. A place is a row and its folder; its body takes up the areas that its grid names.
 */
export const PLACES = [
  {
    id: 'shape',
    title: 'Shape',
    skip: { words: 'Skip to the design', to: 'design' },
    grid: shape['grid'],
    Body: ShapePlace,
  },
  {
    id: 'explore',
    title: 'Explore',
    skip: { words: 'Skip to the set-up', to: 'set-up' },
    grid: explore['grid'],
    Body: later(async () => (await import('./explore/ExplorePlace.tsx')).ExplorePlace),
  },
  {
    id: 'build',
    title: 'Build',
    skip: { words: 'Skip to what leaves', to: 'checklist' },
    grid: build['grid'],
    Body: later(async () => (await import('./build/BuildPlace.tsx')).BuildPlace),
  },
] as const satisfies readonly PlaceSpec[];

export type PlaceId = (typeof PLACES)[number]['id'];
