import { useEffect } from 'react';
import { createBuildWorkers } from '../../../jobs/build-workers.ts';
import { BuildDeskProvider, Checklist, Inputs, Preview } from '../../../panels/build/index.ts';
import { BuildDesk } from '../../../state/build/build-desk.ts';
import { notify } from '../../../state/session/notices-store.ts';
import { designStore, noticesStore, sessionStore } from '../../../state/stores.ts';
import { ErrorBoundary } from '../../ErrorBoundary.tsx';
import { saveBuilt } from '../../files/save-built.ts';
import type { PlaceProps } from '../place-spec.ts';
import styles from './build-place.module.css';

/** The present day where this person is, YYYY-MM-DD. */
function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Made when the place is first opened, and kept with its choices. */
const desk = new BuildDesk(
  { design: designStore, session: sessionStore },
  createBuildWorkers((message) => notify(noticesStore, message, { tone: 'warning' })),
  `Legroom ${__LEGROOM_VERSION__}`,
  today,
);

async function save(): Promise<void> {
  const file = await desk.write();
  if (file) saveBuilt(file);
}

/** The place of everything that leaves the program. */
export function BuildPlace({ mode }: PlaceProps) {
  useEffect(() => desk.follow(), []);
  return (
    <BuildDeskProvider value={desk}>
      <section id="checklist" tabIndex={-1} className={styles['checklist']} data-mode={mode} aria-label="What leaves">
        <ErrorBoundary part="The checklist">
          <Checklist onSave={() => void save()} />
        </ErrorBoundary>
      </section>
      <section className={styles['sheets']} data-mode={mode} aria-label="Sheets">
        <ErrorBoundary part="The sheets">
          <Preview />
        </ErrorBoundary>
      </section>
      <section className={styles['inputs']} data-mode={mode} aria-label="Choices of the workshop">
        <ErrorBoundary part="The choices">
          <Inputs />
        </ErrorBoundary>
      </section>
    </BuildDeskProvider>
  );
}
