import { type ReactNode, Suspense } from 'react';
import { useStore } from 'zustand';
import { VerdictStrip } from '../panels/index.ts';
import { sessionStore } from '../state/stores.ts';
import { ErrorBoundary } from './ErrorBoundary.tsx';
import { useLayoutMode } from './layout-mode.ts';
import { LazyExplorePlace } from './lazy-explore.ts';
import { LazyViewport } from './lazy-viewport.ts';
import styles from './PlaceFrame.module.css';
import { ShapePlace } from './ShapePlace.tsx';

/** What every place has: the header, the verdict and the view; the place's own parts stand around them. */
export function PlaceFrame({ header }: { readonly header: ReactNode }) {
  const mode = useLayoutMode();
  const place = useStore(sessionStore, (state) => state.place);
  return (
    <div className={styles['place']} data-mode={mode} data-place={place}>
      <a className={styles['skip']} href="#design">
        {place === 'shape' ? 'Skip to the design' : 'Skip to the set-up'}
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
      {place === 'shape' ? (
        <ShapePlace key="shape" mode={mode} />
      ) : (
        <ErrorBoundary key="explore" part="Explore">
          <Suspense fallback={null}>
            <LazyExplorePlace mode={mode} />
          </Suspense>
        </ErrorBoundary>
      )}
    </div>
  );
}
