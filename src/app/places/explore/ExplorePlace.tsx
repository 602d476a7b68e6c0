import { useEffect } from 'react';
import { createExploreWorkers } from '../../../jobs/explore-workers.ts';
import {
  ExploreDeskProvider,
  ExploreResults,
  FrontTable,
  Readout,
  TaskTabs,
  useExplore,
} from '../../../panels/explore/index.ts';
import { createExploreDesk } from '../../../state/explore/explore-desk.ts';
import { openKeptSweeps } from '../../../state/explore/explore-kept.ts';
import { notify } from '../../../state/session/notices-store.ts';
import { designStore, noticesStore, sessionStore } from '../../../state/stores.ts';
import { ErrorBoundary } from '../../ErrorBoundary.tsx';
import type { LayoutMode } from '../layout-mode.ts';
import type { PlaceProps } from '../place-spec.ts';
import styles from './explore-place.module.css';

/** Made when the place is first opened, and kept: a sweep goes on while a person is elsewhere. */
const desk = createExploreDesk(
  { design: designStore, session: sessionStore, notices: noticesStore },
  createExploreWorkers(navigator.hardwareConcurrency, (message) => notify(noticesStore, message, { tone: 'warning' })),
  openKeptSweeps,
);

/** The place where many layouts are weighed against each other. */
export function ExplorePlace({ mode }: PlaceProps) {
  useEffect(() => desk.lookAgain(), []);
  return (
    <ExploreDeskProvider value={desk}>
      <section id="set-up" tabIndex={-1} className={styles['setup']} data-mode={mode} aria-label="Set-up">
        <ErrorBoundary part="The set-up">
          <TaskTabs />
        </ErrorBoundary>
      </section>
      <section className={styles['pictures']} data-mode={mode} aria-label="Pictures">
        <ErrorBoundary part="The pictures">
          <ExploreResults />
        </ErrorBoundary>
      </section>
      <Lists mode={mode} />
    </ExploreDeskProvider>
  );
}

/** Numbers of the layout pointed at and, for a sweep, the layouts of its front. */
function Lists({ mode }: { readonly mode: LayoutMode }) {
  const task = useExplore((state) => state.task);
  if (task !== 'sweep') return null;
  return (
    <section className={styles['list']} data-mode={mode} aria-label="Layouts">
      <ErrorBoundary part="The list of layouts">
        <Readout />
        <FrontTable />
      </ErrorBoundary>
    </section>
  );
}
