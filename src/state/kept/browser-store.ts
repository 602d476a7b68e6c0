import { within } from '../../jobs/within.ts';

/** A browser that has not opened a store by then is taken to have none [ms]; the page must not wait for ever. */
export const LONGEST_OPENING = 3000;

/** Longest that one reading or writing is waited for [ms]: a thousand times what a small one takes. */
export const LONGEST_USE = 10_000;

/** Opens one of the browser's stores; rejects where there are none, where it is refused, and where nothing answers. */
export const openInTime = <Store>(open: () => Promise<Store>): Promise<Store> =>
  // without stores `open` throws before it gives a promise
  within(LONGEST_OPENING, new Promise((settle) => settle(open())));

/** Waits for a store's answer, but not for ever. */
export const answered = <Value>(answer: Promise<Value>): Promise<Value> => within(LONGEST_USE, answer);
