import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { changeRing, rename } from '../../src/document/edits/edit.ts';
import type { HelpReport } from '../../src/reach/what-helps.ts';
import { changeDocument, createDesignStore, undo } from '../../src/state/design/design-store.ts';
import { effectsOf, HELPS_DELAY, HelpsDesk, helpfulSense } from '../../src/state/judge/helps-desk.ts';
import { createSessionStore } from '../../src/state/session/session-store.ts';
import { standInJudging } from './judging-stand-in.ts';
import { sampleDesign } from './sample-design.ts';

function begin() {
  const design = createDesignStore(sampleDesign);
  const session = createSessionStore();
  const { service, helps } = standInJudging();
  return { design, session, helps, desk: new HelpsDesk({ design, session }, service) };
}

/** Invented slopes: less radius reaches further, and is less accurate; more tilt gains nothing, though less costs. */
const report = (usable: number | null = null): HelpReport => {
  const radius = { reach: -3600, usable: usable === null ? null : -3500, toolError: -0.0014 };
  const flat = { reach: 0, usable: usable === null ? null : 0, toolError: 0 };
  const steep = { ...flat, reach: 9e5 };
  const errors = {
    reachError: 300,
    usableError: null,
    sideError: { reach: 600, usable: usable === null ? null : 900 },
  };
  const angle = { name: 'baseTilt', words: 'base joint tilt limit', unit: 'rad', value: 0.4 } as const;
  const length = { name: 'baseRadius', words: 'base radius', unit: 'mm', value: 100 } as const;
  return {
    reach: 7e5,
    usable,
    toolError: 0.167,
    helps: [
      { dimension: length, ...radius, up: radius, down: radius, ...errors },
      { dimension: angle, ...steep, reach: 4.5e5, up: flat, down: steep, ...errors },
    ],
  };
};

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

/** A desk that is looked at, with its first table. */
async function withTable() {
  const begun = begin();
  begun.desk.watch();
  await vi.advanceTimersByTimeAsync(0);
  begun.helps[0].answer(report());
  await vi.advanceTimersByTimeAsync(0);
  return begun;
}

describe('what helps', () => {
  it('is asked for when somebody looks, without the usable volume, and shown with its design', async () => {
    const { desk, helps } = await withTable();
    expect(helps[0].question.floors).toBeNull();
    expect(helps[0].question.plan.steps.map(({ dimension }) => dimension.name)).toContain('platformGap');
    const { finished, status } = desk.store.getState();
    expect(status).toBe('idle');
    expect(finished?.document).toBe(sampleDesign);
  });

  it('is asked for once after a drag, and not for another name', async () => {
    const { design, helps } = await withTable();
    changeDocument(design, rename(sampleDesign, 'Other'), 'Rename');
    await vi.advanceTimersByTimeAsync(2 * HELPS_DELAY);
    expect(helps).toHaveLength(1);
    for (const gap_deg of [21, 22, 23]) changeDocument(design, changeRing(sampleDesign, 'base', { gap_deg }), 'Gap');
    await vi.advanceTimersByTimeAsync(2 * HELPS_DELAY);
    expect(helps).toHaveLength(2);
  });

  it('asks for the usable volume when that is wanted, once', async () => {
    const { desk, helps } = await withTable();
    desk.setObjective('usable');
    await vi.advanceTimersByTimeAsync(0);
    expect(helps[1].question.floors).toEqual([]);
    helps[1].answer(report(6.9e5));
    await vi.advanceTimersByTimeAsync(0);
    desk.setObjective('reach');
    desk.setObjective('usable');
    await vi.advanceTimersByTimeAsync(HELPS_DELAY);
    expect(helps).toHaveLength(2);
  });

  it('shows the helpful step as a ghost and makes it one undo step', async () => {
    const { desk, design, session } = await withTable();
    desk.setSize(2);
    desk.choose('baseRadius');
    // less radius gives more reach
    expect(session.getState().hovered?.base).toMatchObject({ ring: { radius_mm: 98 } });
    expect(desk.apply('Base radius −2 mm')).toBeNull();
    expect(design.getState()).toMatchObject({
      label: 'Base radius −2 mm',
      document: { base: { ring: { radius_mm: 98 } } },
    });
    expect(session.getState().hovered).toBeNull();
    undo(design);
    expect(design.getState().document).toBe(sampleDesign);
  });

  it('turns the step round with the objective: more radius, less error', async () => {
    const { desk, session } = await withTable();
    desk.choose('baseRadius');
    desk.setObjective('toolError');
    expect(session.getState().hovered?.base).toMatchObject({ ring: { radius_mm: 105 } });
  });

  it('offers no step of a limit that gains nothing by more and loses by less', async () => {
    const { desk, session } = await withTable();
    const [radius, tilt] = report().helps;
    expect(helpfulSense(radius, 'reach', 7e5)).toBe(-1);
    expect(helpfulSense(radius, 'toolError', 0.167)).toBe(1);
    expect(helpfulSense(radius, 'usable', 0)).toBeNull();
    expect(helpfulSense(tilt, 'reach', 7e5)).toBeNull();
    expect(effectsOf(tilt, 'reach')).toEqual({ more: 0, less: -9e5 });
    desk.choose('baseTilt');
    expect(session.getState().hovered).toBeNull();
    expect(desk.apply('Nothing')).toBeNull();
  });

  it('drops the ghost when the design changes, and keeps the former table when cancelled', async () => {
    const { desk, design, session } = await withTable();
    desk.choose('baseRadius');
    changeDocument(design, changeRing(sampleDesign, 'base', { gap_deg: 30 }), 'Gap');
    expect(session.getState().hovered).toBeNull();
    desk.cancel();
    await vi.advanceTimersByTimeAsync(2 * HELPS_DELAY);
    expect(desk.store.getState().status).toBe('cancelled');
    expect(desk.store.getState().finished?.document).toBe(sampleDesign);
    desk.again();
    expect(desk.store.getState().status).toBe('running');
  });
});
