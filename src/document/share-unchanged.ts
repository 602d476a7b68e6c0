/**
 * The same plain data as `now`, with every part that equals the one in the same place of `former` handed back as that very object.
 * Checking a design copies all of it; afterwards a changed design shares with the one before whatever did not change, so that
 * caches and views can go by identity.
 */
export function shareUnchanged<Value>(former: Value, now: Value): Value;
export function shareUnchanged(former: unknown, now: unknown): unknown {
  if (Object.is(former, now)) return former;
  if (Array.isArray(former) && Array.isArray(now)) {
    const shared = now.map((item, n) => shareUnchanged(former[n], item));
    return former.length === shared.length && shared.every((item, n) => Object.is(item, former[n])) ? former : shared;
  }
  if (!isPlain(former) || !isPlain(now)) return now;
  const shared = Object.entries(now).map(([key, item]) => [key, shareUnchanged(former[key], item)] as const);
  const same =
    Object.keys(former).length === shared.length &&
    shared.every(([key, item]) => Object.hasOwn(former, key) && Object.is(item, former[key]));
  return same ? former : Object.fromEntries(shared);
}

const isPlain = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
