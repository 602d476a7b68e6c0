import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { STANDARD_SWEEP } from '../../src/document/sweep-file.ts';
import { createExploreStore } from '../../src/state/explore/explore-store.ts';
import { keepSetup, keptSetup } from '../../src/state/explore/kept-setup.ts';

const held = new Map<string, string>();

beforeEach(() => {
  held.clear();
  vi.stubGlobal('sessionStorage', {
    getItem: (name: string) => held.get(name) ?? null,
    setItem: (name: string, value: string) => held.set(name, value),
  });
});
afterEach(() => vi.unstubAllGlobals());

const changed = { ...STANDARD_SWEEP, firmnessFloor: 0.125 };

it('the set-up of a sweep is there again after a reload, as it was last changed', () => {
  expect(keptSetup()).toBeNull();
  const explore = createExploreStore();
  const leave = keepSetup(explore);
  explore.setState({ setup: { ...STANDARD_SWEEP, deadLength_mm: 1 } });
  explore.setState({ setup: changed });
  expect(keptSetup()).toEqual(changed);
  leave();
  explore.setState({ setup: STANDARD_SWEEP });
  expect(keptSetup()).toEqual(changed);
});

it('what is no sound set-up, or cannot be remembered, is none', () => {
  const explore = createExploreStore();
  const leave = keepSetup(explore);
  explore.setState({ setup: { ...STANDARD_SWEEP, firmnessFloor: -3 } });
  expect(keptSetup()).toBeNull();
  held.forEach((_, name) => held.set(name, '{"format":'));
  expect(keptSetup()).toBeNull();
  vi.stubGlobal('sessionStorage', undefined);
  explore.setState({ setup: changed });
  expect(keptSetup()).toBeNull();
  leave();
});
