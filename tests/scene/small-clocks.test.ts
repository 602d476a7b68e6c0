import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import { viewCommand } from '../../src/scene/canvas/view-keys.ts';
import { advancedPhase, ROCK_TIME } from '../../src/scene/loose-clock.ts';
import { PinnedShell } from '../../src/scene/model/pinned-shell.ts';
import { STALE_DELAY, Staleness } from '../../src/scene/model/staleness.ts';

describe('a picture that is out of date', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('turns grey after a while, once, and back at once', () => {
    const told = vi.fn();
    const staleness = new Staleness(told);
    staleness.follow(false, 'a');
    expect(staleness.stale).toBe(false);
    vi.advanceTimersByTime(STALE_DELAY + 1);
    expect(staleness.stale).toBe(true);
    staleness.follow(false, 'a');
    vi.advanceTimersByTime(10 * STALE_DELAY);
    expect(told.mock.calls).toEqual([[true]]);
    staleness.follow(true, 'b');
    expect(staleness.stale).toBe(false);
  });

  it('stays in colour while newer pictures keep coming, late as they are', () => {
    const staleness = new Staleness(() => undefined);
    for (let i = 0; i < 20; i++) {
      staleness.follow(false, i);
      vi.advanceTimersByTime(STALE_DELAY / 2);
      expect(staleness.stale).toBe(false);
    }
  });
});

describe('the pinned shell', () => {
  const shell = {
    positions: new Float64Array(0),
    normals: new Float64Array(0),
    magnifications: new Float64Array(0),
    limits: new Uint8Array(0),
    indices: new Uint32Array(0),
  };
  const picture = (document: typeof DEMOS.steady) => ({
    subject: { document, pose: null },
    value: { detail: 'fine' as const, cloud: shell, shell: { ...shell } },
  });

  it('is kept while the picture goes on to other designs, and let go with the pin', () => {
    const keeper = new PinnedShell();
    const first = picture(DEMOS.steady);
    expect(keeper.follow(DEMOS.steady, first)).toBe(first.value.shell);
    expect(keeper.follow(DEMOS.steady, picture(DEMOS.roomy))).toBe(first.value.shell);
    expect(keeper.follow(DEMOS.even, picture(DEMOS.roomy))).toBeNull();
    expect(keeper.follow(null, first)).toBeNull();
  });
});

describe('the rock of the loosest motion', () => {
  it('comes round in its time and takes no leap after a pause', () => {
    expect(advancedPhase(0.99, 0.02 * ROCK_TIME)).toBeCloseTo(0.01, 12);
    expect(advancedPhase(0.5, 60_000)).toBeLessThan(0.53);
  });
});

describe('keys of the 3D view', () => {
  const press = (key: string, more: Partial<KeyboardEvent> = {}) =>
    viewCommand({ key, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...more });

  it.each([
    ['f', 'fit'],
    ['F', 'fit'],
    ['1', 'isometric'],
    ['2', 'top'],
    ['3', 'front'],
    ['4', 'right'],
  ])('%s shows %s', (key, view) => expect(press(key)).toEqual({ kind: 'view', view }));

  it('turn with arrows and move with a modifier', () => {
    expect(press('ArrowLeft')?.kind).toBe('orbit');
    expect(press('ArrowLeft', { shiftKey: true })?.kind).toBe('pan');
    expect(press('ArrowUp', { ctrlKey: true })?.kind).toBe('pan');
    expect(press('+')).toEqual({ kind: 'zoom', factor: expect.any(Number) });
  });

  it('leave everything else to the page', () => {
    for (const key of ['z', 'Tab', 'Escape', '?', 'Enter']) expect(press(key)).toBeNull();
    expect(press('f', { ctrlKey: true })).toBeNull();
    expect(press('f', { metaKey: true })).toBeNull();
    expect(press('f', { altKey: true })).toBeNull();
  });
});
