import { type SweepDocument, validateSweep } from '../../document/sweep-file.ts';
import { simpleStorage } from '../kept/simple-storage.ts';
import type { ExploreStore } from './explore-store.ts';

/** Where a tab remembers the sweep that stands in its fields. */
const STORAGE_KEY = 'legroom-sweep-setup';

/**
 * The set-up that stood in this tab's fields before a reload; null when there was none. One with faults is remembered as
 * little as one of another version of the program.
 */
export function keptSetup(): SweepDocument | null {
  const text = simpleStorage('sessionStorage').getItem(STORAGE_KEY);
  if (text === null) return null;
  try {
    const sweep: unknown = JSON.parse(text);
    const valid = validateSweep(sweep);
    return valid.ok ? valid.value : null;
  } catch {
    return null;
  }
}

/** Remembers every change of the set-up for a reload of this tab. */
export const keepSetup = (explore: ExploreStore): (() => void) =>
  explore.subscribe(({ setup }, before) => {
    if (setup !== before.setup) simpleStorage('sessionStorage').setItem(STORAGE_KEY, JSON.stringify(setup));
  });
