import { createJudgingWorkers } from '../../jobs/judging-workers.ts';
import { notify } from '../session/notices-store.ts';
import { designStore, noticesStore, pointedStore, sessionStore } from '../stores.ts';
import { CurvesDesk } from './curves-desk.ts';
import { HelpsDesk } from './helps-desk.ts';
import { ProveDesk } from './prove-desk.ts';

/** The page's curves, proofs and table of what helps. No worker is started before the first question. */
const service = createJudgingWorkers((message) => notify(noticesStore, message, { tone: 'warning' }));
const stores = { design: designStore, session: sessionStore, pointed: pointedStore };

export const curvesDesk = new CurvesDesk(stores, service);
export const proveDesk = new ProveDesk(stores, service);
export const helpsDesk = new HelpsDesk(stores, service);
