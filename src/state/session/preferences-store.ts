import { createJSONStorage, persist } from 'zustand/middleware';
import { createStore } from 'zustand/vanilla';
import { simpleStorage } from '../kept/simple-storage.ts';

/** What a person likes, kept on their own machine from one visit to the next. */
export interface Preferences {
  readonly theme: 'system' | 'light' | 'dark';
}

/** Key in the browser's local storage. */
const STORAGE_KEY = 'legroom-preferences';

export const createPreferencesStore = () =>
  createStore<Preferences>()(
    persist((): Preferences => ({ theme: 'system' }), {
      name: STORAGE_KEY,
      version: 1,
      storage: createJSONStorage(() => simpleStorage('localStorage')),
      merge: (stored, current) => ({ ...current, ...readPreferences(stored) }),
    }),
  );

export type PreferencesStore = ReturnType<typeof createPreferencesStore>;

/** Takes only what is known and valid from whatever the storage held. */
function readPreferences(stored: unknown): Partial<Preferences> {
  if (typeof stored !== 'object' || stored === null || !('theme' in stored)) return {};
  const { theme } = stored;
  return theme === 'light' || theme === 'dark' || theme === 'system' ? { theme } : {};
}
