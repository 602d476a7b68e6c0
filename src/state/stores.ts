import { createStore } from 'zustand/vanilla';
import { DEMOS } from '../document/demos.ts';
import { createCompareStore } from './compare/compare-store.ts';
import { createDesignStore } from './design/design-store.ts';
import type { SaveRecord } from './kept/autosave-database.ts';
import { createFieldStore } from './reach/field-store.ts';
import { createResultsStore } from './reach/results-store.ts';
import { createDialogStore } from './session/dialog-store.ts';
import { createNoticesStore } from './session/notices-store.ts';
import { createPointedStore } from './session/pointed-store.ts';
import { createPreferencesStore } from './session/preferences-store.ts';
import { createSessionStore } from './session/session-store.ts';

/** The page's one set of stores. The steady demo stands in the design store until start-up finds kept work. */
export const designStore = createDesignStore(DEMOS.steady);
export const sessionStore = createSessionStore();
export const resultsStore = createResultsStore();
export const fieldStore = createFieldStore();
export const preferencesStore = createPreferencesStore();
export const noticesStore = createNoticesStore();
export const dialogStore = createDialogStore();
export const compareStore = createCompareStore();
export const pointedStore = createPointedStore();

/** What closed tabs left behind, as start-up found it. */
export const earlierWorkStore = createStore<{ readonly earlier: readonly SaveRecord[] }>()(() => ({ earlier: [] }));
