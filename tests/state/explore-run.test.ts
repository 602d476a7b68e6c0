import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { SweepDocument } from '../../src/document/sweep-file.ts';
import { sweepAxes } from '../../src/document/sweep-file.ts';
import { coarseFirst } from '../../src/explore/grid.ts';
import { FIGURE_COUNT } from '../../src/explore/layout-figures.ts';
import { sweepRows } from '../../src/explore/sweep.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { createDesignStore } from '../../src/state/design/design-store.ts';
import {
  type KeptSweeps,
  keptChunks,
  openKeptSweeps,
  readChunks,
  writeChunks,
} from '../../src/state/explore/explore-kept.ts';
import { questionOf, SweepRunner } from '../../src/state/explore/explore-run.ts';
import { createExploreStore, type SweepRun } from '../../src/state/explore/explore-store.ts';
import { type KeepingFault, SweepKeeper } from '../../src/state/explore/sweep-keeper.ts';
import { standInWorkers } from './explore-stand-ins.ts';
import { sampleDesign } from './sample-design.ts';

/** 1,200 layouts: two full chunks and a short one. */
const SMALL: SweepDocument = {
  format: 'legroom-sweep',
  version: 1,
  variables: [
    { name: 'baseGap_deg', from: 5, to: 100, count: 12 },
    { name: 'platformGap_deg', from: 5, to: 100, count: 10 },
    { name: 'radiusRatio', from: 0.4, to: 1.3, count: 10 },
  ],
  tilt_deg: 0,
  firmnessFloor: 0.25,
  deadLength_mm: 0,
};

const open: { close(): void }[] = [];

afterEach(async () => {
  for (const one of open.splice(0)) one.close();
  await new Promise((settle) => {
    const request = indexedDB.deleteDatabase('legroom-explore');
    request.onsuccess = settle;
    request.onblocked = settle;
  });
});

/** One visit to the page: its own stores and workers, the browser's store shared with the other visits. */
async function visit(openKept: () => Promise<KeptSweeps> = openKeptSweeps, now?: () => number) {
  const stands = standInWorkers();
  const faults: KeepingFault[] = [];
  const design = createDesignStore(sampleDesign);
  const explore = createExploreStore();
  explore.setState({ setup: SMALL });
  let database: KeptSweeps | null = null;
  const keeper = new SweepKeeper(
    async () => {
      database = await openKept();
      return database;
    },
    (fault) => faults.push(fault),
  );
  const runner = new SweepRunner({ design, explore }, stands.workers, keeper, now);
  open.push(stands, { close: () => database?.close() });
  await keeper.list();
  const run = (): SweepRun => {
    const state = explore.getState().run;
    if (!state) throw new Error('no sweep');
    return state;
  };
  const reached = (status: SweepRun['status']) =>
    new Promise<void>((settle) => {
      if (explore.getState().run?.status === status) settle();
      const leave = explore.subscribe((state) => {
        if (state.run?.status !== status) return;
        leave();
        settle();
      });
    });
  const row = (index: number) => stands.workers.table.call((table) => table.row(index));
  return { ...stands, explore, design, runner, keeper, faults, run, reached, row };
}

describe('a sweep', () => {
  it('gives every layout the figures that the main thread finds, and keeps them', async () => {
    const page = await visit();
    await page.runner.start();
    await page.reached('done');
    expect(page.run()).toMatchObject({ known: 1200, layouts: 1200, kept: 'browser', measured: 1200 });
    expect([...page.measured].sort()).toEqual([0, 1, 2]);
    const order = coarseFirst(sweepAxes(SMALL));
    const rows = sweepRows(questionOf(page.run()), order, neverStop);
    for (const place of [0, 7, 511, 512, 1100, 1199]) {
      expect(await page.row(order[place])).toEqual(rows.slice(place * FIGURE_COUNT, (place + 1) * FIGURE_COUNT));
    }
  });

  it('is found again after a reload without measuring anything anew', async () => {
    const first = await visit();
    await first.runner.start();
    await first.reached('done');
    const row = await first.row(500);
    const again = await visit();
    expect(await again.runner.open(sampleDesign, SMALL)).toBe(true);
    expect(again.run()).toMatchObject({ status: 'done', known: 1200, measured: 0 });
    expect(again.measured).toEqual([]);
    expect(await again.row(500)).toEqual(row);
  });

  it('goes on after a reload where it was cancelled, measuring only what is missing', async () => {
    const first = await visit();
    const leave = first.explore.subscribe(({ run }) => {
      if ((run?.known ?? 0) > 0) first.runner.cancel();
    });
    first.explore.setState({ setup: SMALL });
    await first.runner.start();
    await Promise.race([first.reached('partial'), first.reached('done')]);
    leave();
    const again = await visit();
    await again.runner.open(sampleDesign, SMALL);
    const known = again.run().known;
    expect(known).toBe(first.run().known);
    if (known < 1200) {
      expect(again.run().status).toBe('paused');
      again.runner.resume();
    }
    await again.reached('done');
    expect(new Set([...first.measured, ...again.measured])).toEqual(new Set([0, 1, 2]));
    expect(first.measured.length + again.measured.length).toBe(3);
  });

  it('shows nothing before the first piece, which spans the whole picture, whichever worker is done first', async () => {
    const page = await visit();
    const order = coarseFirst(sweepAxes(SMALL));
    let handIn: (chunk: number) => void = () => undefined;
    vi.spyOn(page.workers.pool, 'run').mockImplementation(({ onChunk }) => {
      handIn = (chunk) => {
        const rows = sweepRows(questionOf(page.run()), order.subarray(512 * chunk, 512 * (chunk + 1)), neverStop);
        (onChunk as (chunk: number, rows: Float64Array) => void)(chunk, rows);
      };
      return { finished: new Promise(() => undefined), pause() {}, resume() {}, cancel() {} };
    });
    await page.runner.start();
    handIn(1);
    // longer than rows are ever gathered
    await new Promise((settle) => setTimeout(settle, 300));
    expect(page.run().known).toBe(0);
    handIn(0);
    await expect.poll(() => page.run().known).toBe(1024);
  });

  it('tells the pace of its own pieces as soon as enough are in', async () => {
    let clock = 0;
    const page = await visit(openKeptSweeps, () => clock);
    page.explore.setState({ pace: 99 });
    const paces: [status: string | undefined, pace: number | null][] = [];
    page.explore.subscribe(({ pace, run }, before) => {
      if (pace !== before.pace) paces.push([run?.status, pace]);
    });
    const done = page.reached('done');
    page.explore.subscribe(({ run }) => {
      // by the clock given here the whole sweep takes six seconds
      if (run?.status === 'running') clock = 6000;
    });
    await page.runner.start();
    await done;
    expect(paces[0]?.[0]).toBe('running');
    expect(paces.at(-1)?.[1]).toBeCloseTo((6 * page.workers.pool.size) / 1200, 9);
  });

  it('starts another one under way afresh when the set-up changes', async () => {
    const page = await visit();
    await page.runner.start();
    await page.reached('done');
    page.explore.setState({ setup: { ...SMALL, tilt_deg: 5 } });
    await page.runner.start();
    await page.reached('done');
    expect(page.measured).toHaveLength(6);
    expect(page.run().sweep.tilt_deg).toBe(5);
  });

  it('does not mix in kept figures that differ from what is measured now', async () => {
    const first = await visit();
    await first.runner.start();
    await first.reached('done');
    const { key } = first.run().identity;
    const database = await openKeptSweeps();
    const [[, rows] = [0, new Float64Array()]] = await readChunks(database, key, 0, 0);
    await writeChunks(database, key, [[0, rows.map((value) => value * 1.000001)]]);
    const again = await visit();
    await again.runner.open(sampleDesign, SMALL);
    expect(again.run().known).toBe(0);
    expect(await keptChunks(database, key)).toEqual([]);
    database.close();
  });
});

describe('when something fails', () => {
  it('goes on in memory when the browser allows no store, and tells it once', async () => {
    const page = await visit(() => Promise.reject(new Error('refused')));
    await page.runner.start();
    await page.reached('done');
    expect(page.run()).toMatchObject({ known: 1200, kept: 'memory' });
    expect(page.faults).toEqual(['unavailable']);
  });

  it('goes on in memory when the store is full, and says that it is full', async () => {
    const page = await visit(async () => {
      const database = await openKeptSweeps();
      return new Proxy(database, {
        get: (target, name) => {
          if (name === 'transaction') {
            return () => {
              throw new DOMException('no room', 'QuotaExceededError');
            };
          }
          const value: unknown = Reflect.get(target, name, target);
          return typeof value === 'function' ? value.bind(target) : value;
        },
      });
    });
    await page.runner.start();
    await page.reached('done');
    expect(page.run()).toMatchObject({ known: 1200, kept: 'memory' });
    expect(page.faults).toEqual(['full']);
  });

  it('loses nothing when a measuring worker dies', async () => {
    const page = await visit();
    const started = page.runner.start();
    setTimeout(() => page.kill('pool'), 5);
    await started;
    await page.reached('done');
    expect(page.run().known).toBe(1200);
  });

  it('reads the table again when its worker dies', async () => {
    const page = await visit();
    await page.runner.start();
    await page.reached('done');
    page.kill('table');
    await page.runner.open(sampleDesign, SMALL);
    expect(page.run()).toMatchObject({ status: 'done', known: 1200 });
    expect(await page.row(3)).not.toBeNull();
    expect(page.measured).toHaveLength(3);
  });
});
