import { type ReactNode, Suspense, useState } from 'react';
import { ComparePanel, DesignPanels, LegTable, LooseMotionPanel, PosePanel, VerdictStrip } from '../panels/index.ts';
import { ErrorBoundary } from './ErrorBoundary.tsx';
import { type LayoutMode, useLayoutMode } from './layout-mode.ts';
import { LazyViewport } from './lazy-viewport.ts';
import styles from './ShapePlace.module.css';
import { SheetTabs } from './SheetTabs.tsx';

/** What the sheet beside or under the view can show when there is no room for everything. */
const SHEETS = [
  { id: 'design', title: 'Design', content: <DesignPanels /> },
  { id: 'pose', title: 'Pose', content: <PoseSheet /> },
  { id: 'legs', title: 'Legs', content: <LegTable /> },
  { id: 'compare', title: 'Compare', content: <ComparePanel /> },
] as const;

/** The place where one layout is shaped: rings, legs, joints and tool, with the live view in the middle. */
export function ShapePlace({ header }: { readonly header: ReactNode }) {
  const mode = useLayoutMode();
  return (
    <div className={styles['place']} data-mode={mode}>
      <a className={styles['skip']} href="#design">
        Skip to the design
      </a>
      {header}
      <section key="verdict" className={styles['verdict']} aria-label="Verdict">
        <ErrorBoundary part="The verdict">
          <VerdictStrip />
        </ErrorBoundary>
      </section>
      {/* one element in every layout, so that the drawing is never thrown away */}
      <main key="view" className={styles['view']} aria-label="Platform">
        <ErrorBoundary part="The 3D view">
          <Suspense fallback={<p className={styles['waiting']}>Drawing the platform…</p>}>
            <LazyViewport />
          </Suspense>
        </ErrorBoundary>
      </main>
      {mode === 'wide' ? <Columns /> : <Sheet mode={mode} />}
    </div>
  );
}

function Columns() {
  return (
    <>
      <section id="design" tabIndex={-1} className={styles['design']} aria-label="Design">
        <ErrorBoundary part="The design panel">
          <DesignPanels />
        </ErrorBoundary>
      </section>
      <section className={styles['pose']} aria-label="Pose and comparison">
        <ErrorBoundary part="The pose panel">
          <PosePanel />
          <LooseMotionPanel />
          <ComparePanel />
        </ErrorBoundary>
      </section>
      <section className={styles['legs']} aria-label="Legs">
        <ErrorBoundary part="The table of legs">
          <LegTable />
        </ErrorBoundary>
      </section>
    </>
  );
}

function PoseSheet() {
  return (
    <>
      <PosePanel />
      <LooseMotionPanel />
    </>
  );
}

function Sheet({ mode }: { readonly mode: LayoutMode }) {
  const [shown, setShown] = useState('design');
  const legsBelow = mode === 'middle';
  return (
    <>
      <section id="design" tabIndex={-1} className={styles['sheet']} aria-label="Panels">
        <SheetTabs sheets={SHEETS.filter(({ id }) => !(legsBelow && id === 'legs'))} shown={shown} onShow={setShown} />
      </section>
      {legsBelow && (
        <section className={styles['legs']} aria-label="Legs">
          <ErrorBoundary part="The table of legs">
            <LegTable />
          </ErrorBoundary>
        </section>
      )}
    </>
  );
}
