import { beforeEach, describe, expect, it } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import { changeRing } from '../../src/document/edits/edit.ts';
import { snapshotsOf, takeSnapshot } from '../../src/document/edits/snapshots.ts';
import type { CompareService } from '../../src/jobs/compare-service.ts';
import { CANCELLED, type JobOutcome } from '../../src/jobs/outcome.ts';
import { followCompare, MOST_KEPT } from '../../src/state/compare/compare-controller.ts';
import {
  addCompared,
  comparedDesigns,
  createCompareStore,
  firstChoice,
  MOST_COMPARED,
  removeCompared,
  snapshotChoice,
  tiltsKey,
} from '../../src/state/compare/compare-store.ts';
import { createDesignStore, previewDocument } from '../../src/state/design/design-store.ts';
import { layoutKey } from '../../src/state/design/layout-key.ts';
import { closeDialog, createDialogStore, showDialog } from '../../src/state/session/dialog-store.ts';
import { createSessionStore } from '../../src/state/session/session-store.ts';

interface Call {
  readonly name: string;
  readonly settle: (outcome: JobOutcome<never>) => void;
}

function begin() {
  const design = createDesignStore(DEMOS.steady);
  const session = createSessionStore();
  const dialog = createDialogStore();
  const compare = createCompareStore();
  const calls: Call[] = [];
  const ask = (name: string) =>
    new Promise<JobOutcome<never>>((settle) => {
      calls.push({ name, settle });
    });
  const service: CompareService = {
    compared: (column) => ask(`layout ${column}`),
    comparedUsable: (column) => ask(`usable ${column}`),
    comparedTilts: (column) => ask(`tilts ${column}`),
  };
  const stop = followCompare({ design, session, dialog, compare }, service);
  return { design, session, dialog, compare, calls, stop, names: () => calls.map(({ name }) => name) };
}

const failed = (reason: string): JobOutcome<never> => ({ kind: 'failed', reason });

const settled = () => new Promise((done) => setTimeout(done));

let begun: ReturnType<typeof begin>;
beforeEach(() => {
  begun = begin();
});

describe('following a comparison', () => {
  it('asks for nothing until it is looked at, then once for each column', () => {
    const { design, session, dialog, compare, names } = begun;
    compare.setState({ chosen: firstChoice(design.getState().document, null) });
    expect(names()).toEqual([]);
    showDialog(dialog, { kind: 'compare' });
    // the steady demo is the live design: the other two stand beside it
    expect(names()).toEqual(
      ['a', 'b', 'c'].flatMap((column) => [`layout ${column}`, `usable ${column}`, `tilts ${column}`]),
    );
    session.setState({ highlightedLeg: 3 });
    expect(names()).toHaveLength(9);
  });

  it('asks anew for the tilts alone when their range changes, and for the live column when it changes', () => {
    const { design, session, dialog, compare, names } = begun;
    compare.setState({ chosen: [{ source: 'live' }] });
    showDialog(dialog, { kind: 'compare' });
    session.setState({ tiltRange: 0.3 });
    expect(names()).toEqual(['layout a', 'usable a', 'tilts a', 'tilts a']);
    previewDocument(design, changeRing(DEMOS.steady, 'base', { gap_deg: 33 }));
    expect(names().slice(4)).toEqual(['layout a', 'usable a', 'tilts a']);
  });

  it('keeps an answer under its layout, a failure too, and asks again after a cancellation', async () => {
    const { dialog, compare, calls, names } = begun;
    compare.setState({ chosen: [{ source: 'live' }] });
    showDialog(dialog, { kind: 'compare' });
    calls[0].settle(failed('no room'));
    calls[2].settle(CANCELLED);
    await settled();
    expect(compare.getState().layouts.get(layoutKey(DEMOS.steady))).toEqual(failed('no room'));
    expect(compare.getState().tilts.size).toBe(0);
    // keeping the failure was a change of the store: what was cancelled is asked for again, what failed is not
    await settled();
    compare.setState({ reference: 0 });
    expect(names()).toEqual(['layout a', 'usable a', 'tilts a', 'tilts a']);
  });

  it('asks for the usable volume alone when a floor changes', () => {
    const { design, dialog, compare, names } = begun;
    compare.setState({ chosen: [{ source: 'live' }] });
    showDialog(dialog, { kind: 'compare' });
    previewDocument(design, { ...DEMOS.steady, floors: { stiffness_N_mm: 300 } });
    expect(names().slice(3)).toEqual(['usable a']);
  });

  it('leaves the live design and the tilts out while only outlines are drawn', () => {
    const { compare, names } = begun;
    compare.setState({ chosen: firstChoice(DEMOS.steady, null), overlaid: true });
    expect(names()).toEqual(['layout b', 'layout c']);
  });

  it('forgets the oldest results', async () => {
    const { design, dialog, compare, calls } = begun;
    compare.setState({ chosen: [{ source: 'live' }] });
    showDialog(dialog, { kind: 'compare' });
    for (let gap = 1; gap <= MOST_KEPT + 5; gap++) {
      previewDocument(design, changeRing(DEMOS.steady, 'base', { gap_deg: gap }));
    }
    for (const { settle } of calls) settle(failed('x'));
    await settled();
    const { layouts } = compare.getState();
    expect(layouts.size).toBe(MOST_KEPT);
    expect(layouts.has(layoutKey(changeRing(DEMOS.steady, 'base', { gap_deg: MOST_KEPT + 5 })))).toBe(true);
  });

  it('stops', () => {
    const { dialog, compare, names, stop } = begun;
    compare.setState({ chosen: [{ source: 'live' }] });
    stop();
    showDialog(dialog, { kind: 'compare' });
    closeDialog(dialog);
    expect(names()).toEqual([]);
  });
});

describe('columns', () => {
  it('begin with the live design, the pinned one and the newest snapshots', () => {
    const one = takeSnapshot(DEMOS.steady, 'One', new Date(0));
    const two = one.ok ? takeSnapshot(one.value, 'Two', new Date(1)) : one;
    if (!two.ok) throw new Error(two.fault);
    const columns = comparedDesigns(firstChoice(two.value, DEMOS.even), two.value, DEMOS.even);
    expect(columns.map(({ letter, source, title }) => [letter, source, title])).toEqual([
      ['a', 'live', 'Wave table, steady'],
      ['b', 'pinned', 'Wave table, evenly spaced'],
      ['c', 'snapshot', 'Two'],
      ['d', 'snapshot', 'One'],
    ]);
    expect(columns[2].key).toBe(columns[0].key);
  });

  it('lose the pinned design when nothing is pinned any more', () => {
    const columns = comparedDesigns([{ source: 'pinned' }, { source: 'live' }], DEMOS.steady, null);
    expect(columns.map(({ letter, source }) => [letter, source])).toEqual([['a', 'live']]);
  });

  it('all carry what the open design carries and keep its floors, so that one of them can be best', () => {
    const loaded = { ...DEMOS.steady, payload: { mass_kg: 3 }, floors: { condition: 9 } };
    const other = { ...DEMOS.roomy, payload: { mass_kg: 0.1 }, load: { force_N: [1, 0, 0] as const } };
    const choices = [{ source: 'live' as const }, { source: 'file' as const, title: 'Other', document: other }];
    const [live, beside] = comparedDesigns(choices, loaded, null);
    expect(live.document).toBe(loaded);
    expect(beside.document).toEqual({ ...DEMOS.roomy, payload: { mass_kg: 3 }, floors: { condition: 9 } });
    // the same question gives the same object, so that nothing is compiled twice
    expect(comparedDesigns(choices, { ...loaded, name: 'renamed' }, null)[1].document).toBe(beside.document);
  });

  it('are never more than four, and the reference stays with its design', () => {
    const { compare } = begun;
    const taken = takeSnapshot(DEMOS.steady, 'One', new Date(0));
    if (!taken.ok) throw new Error(taken.fault);
    for (let n = 0; n < 6; n++) addCompared(compare, snapshotChoice(snapshotsOf(taken.value)[0]));
    expect(compare.getState().chosen).toHaveLength(MOST_COMPARED);
    compare.setState({ reference: 2 });
    removeCompared(compare, 0);
    expect(compare.getState()).toMatchObject({ reference: 1 });
    removeCompared(compare, 1);
    expect(compare.getState()).toMatchObject({ reference: 0 });
  });
});

it('the tilts have a key of their own for every range', () => {
  expect(new Set([tiltsKey('x', 0.1, 0), tiltsKey('x', 0, 0.1), tiltsKey('y', 0.1, 0)]).size).toBe(3);
});
