import { type ReactNode, Suspense } from 'react';
import { VerdictStrip } from '../../panels/index.ts';
import { ErrorBoundary } from '../ErrorBoundary.tsx';
import { LazyViewport } from '../lazy-viewport.ts';
import { useLayoutMode } from './layout-mode.ts';
import styles from './PlaceFrame.module.css';
import type { PlaceSpec } from './place-spec.ts';
import { PLACES } from './places.ts';
import { usePlace } from './present-place.ts';

/** What every place has: the header, the verdict and the view; the place's own parts stand around them. */
export function PlaceFrame({ header }: { readonly header: ReactNode }) {
  const mode = useLayoutMode();
  const present = usePlace();
  const { id, title, skip, grid, Body }: PlaceSpec = PLACES.find((place) => place.id === present) ?? PLACES[0];
  return (
    <div className={`${styles['place']} ${grid}`} data-mode={mode} data-place={id}>
      <a className={styles['skip']} href={`#${skip.to}`}>
        {skip.words}
      </a>
      {header}
      <section key="verdict" className={styles['verdict']} aria-label="Verdict">
        <ErrorBoundary part="The verdict">
          <VerdictStrip />
        </ErrorBoundary>
      </section>
      {/* one element in every place and layout, so that the drawing is never thrown away */}
      <main key="view" className={styles['view']} aria-label="Platform">
        <ErrorBoundary part="The 3D view">
          <Suspense fallback={<p className={styles['waiting']}>Drawing the platform…</p>}>
            <LazyViewport />
          </Suspense>
        </ErrorBoundary>
      </main>
      <ErrorBoundary key={id} part={title}>
        <Suspense fallback={null}>
          <Body mode={mode} />
        </Suspense>
      </ErrorBoundary>
    </div>
  );
}
