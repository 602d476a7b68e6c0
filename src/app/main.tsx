import '@fontsource-variable/public-sans';
import './theme.css';
import { setNonce } from 'get-nonce';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { createFieldWorkers } from '../jobs/field-workers.ts';
import { reasonOf } from '../jobs/outcome.ts';
import { createReachWorkers } from '../jobs/reach-workers.ts';
import { followCompare } from '../state/compare/compare-controller.ts';
import { openKeptMeshes } from '../state/mesh/kept-meshes.ts';
import { followMeshes } from '../state/mesh/mesh-keeper.ts';
import { payloadMeshStore } from '../state/mesh/payload-mesh-store.ts';
import { followField } from '../state/reach/field-controller.ts';
import { followReach } from '../state/reach/reach-controller.ts';
import { notify } from '../state/session/notices-store.ts';
import {
  compareStore,
  designStore,
  dialogStore,
  earlierWorkStore,
  fieldStore,
  noticesStore,
  preferencesStore,
  resultsStore,
  sessionStore,
} from '../state/stores.ts';
import { App } from './App.tsx';
import { FileDesk } from './files/file-desk.ts';
import { keepFocus } from './keep-focus.ts';
import { followKeyboard } from './keyboard.ts';
import { followLinks } from './links/follow-links.ts';
import { SCROLL_LOCK_NONCE } from './scroll-lock-nonce.ts';
import { showStartFailure } from './start-failure.ts';
import { guardLeaving, meshNotKept, resumeWork } from './start-up.ts';
import { followTheme } from './theme.ts';
import { followTitle } from './title.ts';
import { followUpdates } from './update-prompt.ts';

/** Puts the program on the page: kept work first, so that what is drawn first is what stays. */
async function start(root: HTMLElement): Promise<void> {
  followTheme(preferencesStore);
  const workers = createReachWorkers((message) => notify(noticesStore, message, { tone: 'warning' }));
  const desk = new FileDesk({ design: designStore, dialog: dialogStore, notices: noticesStore });
  const autosave = await resumeWork(desk);
  guardLeaving(designStore, autosave);
  followReach({ design: designStore, session: sessionStore, results: resultsStore }, workers);
  followCompare({ design: designStore, session: sessionStore, dialog: dialogStore, compare: compareStore }, workers);
  followField(
    { design: designStore, session: sessionStore, results: resultsStore, field: fieldStore },
    createFieldWorkers((message) => notify(noticesStore, message, { tone: 'warning' })),
  );
  followMeshes({
    design: designStore,
    meshes: payloadMeshStore,
    open: openKeptMeshes,
    onFault: (fault, source) => notify(noticesStore, meshNotKept(fault, source), { tone: 'warning' }),
  });
  followTitle(designStore);
  followKeyboard(desk);
  keepFocus(document.body);
  followLinks({
    design: designStore,
    dialog: dialogStore,
    notices: noticesStore,
    keepAside: async () => (await autosave?.keepAside()) ?? null,
    onKept: (record) => earlierWorkStore.setState(({ earlier }) => ({ earlier: [record, ...earlier] })),
  });
  createRoot(root).render(
    <StrictMode>
      <App desk={desk} />
    </StrictMode>,
  );
  followUpdates(noticesStore, autosave);
}

setNonce(SCROLL_LOCK_NONCE);
const root = document.getElementById('root');
if (!root) throw new Error('The page has no element with id "root".');
start(root).catch((thrown: unknown) => showStartFailure(root, reasonOf(thrown)));
