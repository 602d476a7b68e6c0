import { createStore } from 'zustand/vanilla';
import { DEMOS } from '../document/demos.ts';
import type { SaveRecord } from './autosave-database.ts';
import { createCompareStore } from './compare-store.ts';
import { createDesignStore } from './design-store.ts';
import { createDialogStore } from './dialog-store.ts';
import { createFieldStore } from './field-store.ts';
import { createNoticesStore } from './notices-store.ts';
import { createPointedStore } from './pointed-store.ts';
import { createPreferencesStore } from './preferences-store.ts';
import { createResultsStore } from './results-store.ts';
import { createSessionStore } from './session-store.ts';

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
