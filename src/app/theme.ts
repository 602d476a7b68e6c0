import type { Preferences, PreferencesStore } from '../state/session/preferences-store.ts';

/** Puts the chosen theme, or the system's, on the page and keeps it there; a printed page is always light. */
export function followTheme(store: PreferencesStore): () => void {
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const show = (theme: 'light' | 'dark') => {
    document.documentElement.dataset['theme'] = theme;
  };
  const apply = () => show(themeOnScreen(store.getState().theme, dark.matches));
  const forPaper = () => show('light');
  apply();
  const unsubscribe = store.subscribe(apply);
  dark.addEventListener('change', apply);
  window.addEventListener('beforeprint', forPaper);
  window.addEventListener('afterprint', apply);
  return () => {
    unsubscribe();
    dark.removeEventListener('change', apply);
    window.removeEventListener('beforeprint', forPaper);
    window.removeEventListener('afterprint', apply);
  };
}

/** The theme that a preference comes to on a system that is dark or not. */
export const themeOnScreen = (theme: Preferences['theme'], systemIsDark: boolean): 'light' | 'dark' => {
  if (theme !== 'system') return theme;
  return systemIsDark ? 'dark' : 'light';
};
