import { afterEach, describe, expect, it, vi } from 'vitest';
import { openTabSession } from '../../src/state/kept/tab-session.ts';

const storage = (held: Map<string, string>) => ({
  getItem: (name: string) => held.get(name) ?? null,
  setItem: (name: string, value: string) => held.set(name, value),
});

/** A lock manager that grants every name once. */
const grants = (names: string[]) => ({
  request: (name: string, _: unknown, use: (lock: unknown) => unknown) => {
    const free = !names.includes(name);
    if (free) names.push(name);
    return Promise.resolve(use(free ? { name } : null));
  },
  query: () => Promise.resolve({ held: names.map((name) => ({ name })) }),
});

const never = () => new Promise<never>(() => undefined);

afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

describe("a tab's name", () => {
  it('lasts over a reload, and is another where an open tab has it', async () => {
    const held = new Map<string, string>();
    vi.stubGlobal('sessionStorage', storage(held));
    vi.stubGlobal('navigator', { locks: grants([]) });
    const { id } = await openTabSession();
    vi.stubGlobal('navigator', { locks: grants([]) });
    expect((await openTabSession()).id).toBe(id);
    vi.stubGlobal('navigator', { locks: grants([`legroom-session/${id}`]) });
    const other = await openTabSession();
    expect(other.id).not.toBe(id);
    expect(other.alive).toEqual(new Set([id, other.id]));
  });

  it.each([
    ['are missing', {}],
    ['never answer', { locks: { request: never, query: never } }],
    [
      'are refused',
      { locks: { request: () => Promise.reject(new DOMException('no', 'SecurityError')), query: never } },
    ],
    ['answer half', { locks: { ...grants([]), query: never } }],
  ])('is a new one where the locks %s', async (_, navigator) => {
    vi.stubGlobal('navigator', navigator);
    vi.stubGlobal('sessionStorage', undefined);
    vi.useFakeTimers();
    const opening = openTabSession();
    await vi.advanceTimersByTimeAsync(1000);
    const { id, alive } = await opening;
    expect(id).toMatch(/^[0-9a-z]{6,}$/);
    expect(alive).toEqual(new Set());
  });
});
