import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { type SweepDocument, sweepAxes } from '../../src/document/sweep-file.ts';
import { coarseFirst } from '../../src/explore/grid.ts';
import { FIGURE_COUNT } from '../../src/explore/layout-figures.ts';
import { sweepRows } from '../../src/explore/sweep.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { createDesignStore } from '../../src/state/design/design-store.ts';
import { openKeptSweeps } from '../../src/state/explore/explore-kept.ts';
import { followPictures } from '../../src/state/explore/explore-pictures.ts';
import { questionOf, SweepRunner } from '../../src/state/explore/explore-run.ts';
import { changeRange, createExploreStore } from '../../src/state/explore/explore-store.ts';
import { SweepKeeper } from '../../src/state/explore/sweep-keeper.ts';
import { standInWorkers } from './explore-stand-ins.ts';
import { sampleDesign } from './sample-design.ts';

const SWEEP: SweepDocument = {
  format: 'legroom-sweep',
  version: 1,
  variables: [
    { name: 'baseGap_deg', from: 5, to: 115, count: 24 },
    { name: 'platformGap_deg', from: 5, to: 115, count: 24 },
    { name: 'radiusRatio', from: 0.4, to: 1.3, count: 4 },
  ],
  tilt_deg: 0,
  firmnessFloor: 0.25,
  deadLength_mm: 0,
};

const open: (() => void)[] = [];

afterEach(() => {
  for (const close of open.splice(0)) close();
});

async function desk() {
  const stands = standInWorkers();
  const explore = createExploreStore();
  explore.setState({ setup: SWEEP });
  const keeper = new SweepKeeper(openKeptSweeps, () => undefined);
  await keeper.list();
  const runner = new SweepRunner({ design: createDesignStore(sampleDesign), explore }, stands.workers, keeper);
  const leave = followPictures(explore, stands.workers.table);
  open.push(stands.close, leave);
  return { explore, runner };
}

describe('the pictures of a sweep', () => {
  it('are said to be drawn only when they are of all layouts that are known', async () => {
    const { explore, runner } = await desk();
    const leave = explore.subscribe(({ run, drawn, pictures }) => {
      if (run?.status !== 'done') return;
      // as soon as they are said to be drawn, they count every layout
      if (drawn === run.known) expect(pictures.spread?.known).toBe(run.layouts);
    });
    await runner.start();
    // between the end and the last pictures the page can say that they are older, however the view changes meanwhile
    changeRange(explore, 'reach', [0, 5e6]);
    await expect.poll(() => explore.getState().drawn, { timeout: 20_000 }).toBe(2304);
    leave();
    const { run, pictures } = explore.getState();
    if (!run || !pictures.front) throw new Error('no pictures');
    // second way: a plain filter of the rows as a table has them, each platform once
    const rows = sweepRows(questionOf(run), coarseFirst(sweepAxes(SWEEP)), neverStop);
    expect(rows.length).toBe(2304 * FIGURE_COUNT);
    const { indices } = pictures.front;
    const platforms = new Set([...indices].map((index) => twinKey(index)));
    expect(platforms.size).toBe(indices.length);
  });

  it('start anew with every sweep', async () => {
    const { explore, runner } = await desk();
    await runner.start();
    await expect.poll(() => explore.getState().drawn, { timeout: 20_000 }).toBe(2304);
    explore.setState({ setup: { ...SWEEP, deadLength_mm: 10 } });
    await runner.start();
    expect(explore.getState().drawn).toBe(0);
  });
});

/** Both names of a layout whose pairs can be named either way. */
function twinKey(index: number): string {
  const [base, platform, ratio] = [Math.floor(index / 96), Math.floor(index / 4) % 24, index % 4];
  return [`${base}/${platform}`, `${23 - base}/${23 - platform}`].sort()[0] + ratio;
}
