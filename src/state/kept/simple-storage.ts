/** A few texts that the browser remembers, where it may. */
export interface SimpleStorage {
  readonly getItem: (name: string) => string | null;
  /** False when it could not be stored. */
  readonly setItem: (name: string, value: string) => boolean;
  readonly removeItem: (name: string) => boolean;
  /** Names of all that is stored. */
  readonly names: () => readonly string[];
}

/**
 * The browser's local or session storage where it may be used, and nothing where it is missing, refused or full: a page
 * that cannot remember still works.
 */
export function simpleStorage(kind: 'localStorage' | 'sessionStorage'): SimpleStorage {
  const use = <Value>(act: (storage: Storage) => Value, otherwise: Value): Value => {
    try {
      return act(globalThis[kind]);
    } catch {
      return otherwise;
    }
  };
  const done = (act: (storage: Storage) => void): boolean =>
    use((storage) => {
      act(storage);
      return true;
    }, false);
  return {
    getItem: (name) => use((storage) => storage.getItem(name), null),
    setItem: (name, value) => done((storage) => storage.setItem(name, value)),
    removeItem: (name) => done((storage) => storage.removeItem(name)),
    names: () => use((storage) => Object.keys(storage), []),
  };
}
