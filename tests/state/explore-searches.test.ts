import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { readDesign } from '../../src/document/read-design.ts';
import { createDesignStore } from '../../src/state/design/design-store.ts';
import { HoleDesk } from '../../src/state/explore/explore-holes.ts';
import { createOptimiserStore, OptimiserDesk } from '../../src/state/explore/explore-optimiser.ts';
import { createExploreStore } from '../../src/state/explore/explore-store.ts';
import { createHolesStore } from '../../src/state/explore/holes-store.ts';
import { standInWorkers } from './explore-stand-ins.ts';

const demo = readDesign(readFileSync(new URL('../../public/demos/steady.json', import.meta.url)));
if (!demo.ok) throw new Error('the demo does not read');
const withHoles = demo.value;

const open: { close(): void }[] = [];

afterEach(() => {
  for (const one of open.splice(0)) one.close();
});

function desks() {
  const stands = standInWorkers();
  open.push(stands);
  const design = createDesignStore(withHoles);
  const explore = createExploreStore();
  const optimiser = createOptimiserStore();
  const holes = createHolesStore();
  return {
    optimiser,
    holes,
    optimiserDesk: new OptimiserDesk({ design, explore, optimiser }, stands.workers),
    holeDesk: new HoleDesk({ design, explore, holes }, stands.workers),
  };
}

describe('cancelling a search', () => {
  it('holds at whatever moment it is asked for, the first included, and not for the search after', async () => {
    const { optimiser, optimiserDesk } = desks();
    optimiser.setState({ rounds: 100_000 });
    const cancelled = optimiserDesk.start();
    optimiserDesk.cancel();
    await cancelled;
    expect(optimiser.getState().run).toMatchObject({ status: 'cancelled' });
    expect(optimiser.getState().run?.result?.trace).toHaveLength(1);
    optimiser.setState({ rounds: 3 });
    await optimiserDesk.start();
    expect(optimiser.getState().run).toMatchObject({ status: 'done' });
    expect(optimiser.getState().run?.result?.trace).toHaveLength(4);
  });

  it('ends a search that is under way, after the round it is in', async () => {
    const { optimiser, optimiserDesk } = desks();
    optimiser.setState({ rounds: 100_000 });
    const running = optimiserDesk.start();
    await new Promise<void>((started) => {
      const leave = optimiser.subscribe(({ run }) => {
        if (!run?.result) return;
        leave();
        started();
      });
    });
    optimiserDesk.cancel();
    await running;
    expect(optimiser.getState().run?.status).toBe('cancelled');
  });

  it('holds for the search of single holes too', async () => {
    const { holes, holeDesk } = desks();
    holes.setState({ rounds: 100_000 });
    const cancelled = holeDesk.search();
    holeDesk.cancelSearch();
    await cancelled;
    expect(holes.getState().search?.status).toBe('cancelled');
    holes.setState({ rounds: 1 });
    await holeDesk.search();
    expect(holes.getState().search?.status).toBe('done');
  });
});
