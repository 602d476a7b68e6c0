import type { ColumnName } from '../../explore/layout-table.ts';
import type { ExportChoice, ExportColumn } from '../../jobs/explore-table-jobs.ts';
import type { ExploreWorkers } from '../../jobs/explore-workers.ts';
import { reasonOf } from '../../jobs/outcome.ts';
import { FIGURE_NAMES } from '../../terms/figures.ts';
import { notify } from '../session/notices-store.ts';
import { columnWords, YES_NO } from './explore-columns.ts';
import { followDesign, restoreSweep } from './explore-following.ts';
import { HoleDesk } from './explore-holes.ts';
import type { KeptSweeps } from './explore-kept.ts';
import { createOptimiserStore, OptimiserDesk } from './explore-optimiser.ts';
import { followPictures } from './explore-pictures.ts';
import { LayoutPointer, type PointingStores } from './explore-pointing.ts';
import { SweepRunner } from './explore-run.ts';
import { createExploreStore, type ExploreStore } from './explore-store.ts';
import { createHolesStore, type HolesStore } from './holes-store.ts';
import { keepSetup, keptSetup } from './kept-setup.ts';
import { type KeepingFault, SweepKeeper } from './sweep-keeper.ts';

/** Everything the place Explore works with. */
export interface ExploreDesk {
  readonly explore: ExploreStore;
  readonly holesStore: HolesStore;
  readonly optimiserStore: ReturnType<typeof createOptimiserStore>;
  /** Processors that share the work. */
  readonly workers: number;
  readonly runner: SweepRunner;
  readonly pointer: LayoutPointer;
  readonly holes: HoleDesk;
  readonly optimiser: OptimiserDesk;
  /** Starts or goes on with the sweep of the set-up. */
  startSweep(): void;
  /** Layouts as comma-separated text. */
  csv(choice: ExportChoice): Promise<Blob>;
  /** Resolves when a kept sweep of the present design, if any, is back on screen. */
  readonly restored: Promise<boolean>;
  /** The place is opened: what is out of step with the design is caught up with. */
  lookAgain(): void;
  close(): void;
}

type OuterStores = Omit<PointingStores, 'explore'>;

const KEEPING_WORDS: Readonly<Record<KeepingFault, string>> = {
  full: "The browser's storage is full. The sweep goes on, but its results are lost when the page is closed; export them, or free some storage.",
  unavailable:
    'This browser cannot keep the results of sweeps; they are lost when the page is closed. Export them to a file.',
};

/** Sets up the place Explore around the page's stores. */
export function createExploreDesk(
  outer: OuterStores,
  workers: ExploreWorkers,
  openKept: () => Promise<KeptSweeps>,
): ExploreDesk {
  const explore = createExploreStore();
  const holesStore = createHolesStore();
  const optimiserStore = createOptimiserStore();
  const stores = { ...outer, explore };
  const tell = (words: string) => notify(outer.notices, words, { tone: 'warning' });
  const keeper = new SweepKeeper(openKept, (fault) => tell(KEEPING_WORDS[fault]));
  const runner = new SweepRunner(stores, workers, keeper);
  const fallBack = (thrown: unknown) => {
    tell(reasonOf(thrown));
    return false;
  };
  const setup = keptSetup();
  if (setup) explore.setState({ setup });
  const leaveSetup = keepSetup(explore);
  const restored = restoreSweep(outer, runner, keeper)
    .catch(fallBack)
    .finally(() => {
      // the sweep that comes back shows its progress; what stood in the fields is the next one
      const { setup: now, run } = explore.getState();
      if (setup && now === run?.sweep) explore.setState({ setup });
    });
  const leavePictures = followPictures(explore, workers.table);
  const following = followDesign(stores, workers, runner, keeper);
  return {
    explore,
    holesStore,
    optimiserStore,
    workers: workers.pool.size,
    runner,
    pointer: new LayoutPointer(stores, workers.table),
    holes: new HoleDesk({ ...stores, holes: holesStore }, workers),
    optimiser: new OptimiserDesk({ ...stores, optimiser: optimiserStore }, workers),
    startSweep: () => void runner.start().catch(fallBack),
    csv: (choice) =>
      workers.table.call((table) => table.csv(exportColumns(explore), choice, explore.getState().view.ranges)),
    restored,
    lookAgain: following.lookAgain,
    close: () => {
      leavePictures();
      following.end();
      leaveSetup();
      runner.cancel();
    },
  };
}

/** The columns of an exported table: what varies, then every figure. */
function exportColumns(explore: ExploreStore): readonly ExportColumn[] {
  const { run } = explore.getState();
  const column = (name: ColumnName, kind: ExportColumn['kind']): ExportColumn => {
    const { header, scale } = columnWords(name);
    return { name, header, scale, kind };
  };
  return [
    ...(run?.grid ?? []).map(({ name }) => column(name, 'given')),
    ...FIGURE_NAMES.map((name) => column(name, YES_NO.has(name) ? 'yesNo' : 'figure')),
  ];
}
