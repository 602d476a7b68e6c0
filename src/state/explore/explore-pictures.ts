import type { DensityQuestion } from '../../explore/density.ts';
import { rangeNames } from '../../explore/layout-table.ts';
import type { ExploreTableJobs } from '../../jobs/explore-table-jobs.ts';
import { LatestQueue } from '../../jobs/latest-queue.ts';
import type { JobOutcome } from '../../jobs/outcome.ts';
import type { WorkerHost } from '../../jobs/worker-host.ts';
import { YES_NO } from './explore-columns.ts';
import {
  cutPlaces,
  type ExploreState,
  type ExploreStore,
  type ExploreView,
  type Pictures,
  type SweepRun,
} from './explore-store.ts';

/** Kinds of pictures, in the order in which they are taken. */
const KINDS = ['heat', 'singular', 'scatter', 'spread', 'front'] as const;

type Kind = (typeof KINDS)[number];

/**
 * Quiet time between two rounds of pictures while a sweep runs [ms], and at least so many times what the last round took, so that
 * pictures of many layouts take little from the measuring. A change of the view, and the end of a sweep, is answered at once.
 */
const REFRESH_TIME = 400;
const REST_SHARE = 8;

/** Cells of the scatter's lattice: about two pixels each on a desk. */
const SCATTER_CELLS = { columns: 160, rows: 120 };

/** Keeps the pictures in step with the view and with what is known of the sweep. Returns how to end it. */
export function followPictures(explore: ExploreStore, table: WorkerHost<ExploreTableJobs>): () => void {
  const queue = new LatestQueue<Kind>(KINDS);
  let timer: ReturnType<typeof setTimeout> | null = null;
  let roundTime = 0;
  /** The singular line of a sweep just opened is drawn with the first round, after the map that it belongs to. */
  let lineMissing = false;

  const ask = async (kind: Kind): Promise<JobOutcome<unknown>['kind']> => {
    const { run, view } = explore.getState();
    if (!run) return 'failed';
    const outcome = await queue.ask(kind, () => table.call((remote) => takePicture(remote, kind, run, view)));
    // a worker that died is noticed, and told, where rows are handed to it
    if (outcome.kind !== 'done') return outcome.kind;
    if (explore.getState().run?.identity.key !== run.identity.key) return 'failed';
    explore.setState(({ pictures }) => ({ pictures: { ...pictures, ...outcome.value } }));
    return 'done';
  };

  const refresh = async () => {
    timer = null;
    const start = performance.now();
    const { run } = explore.getState();
    const kinds = KINDS.filter((kind) => kind !== 'singular' || lineMissing);
    lineMissing = false;
    const taken = await Promise.all(kinds.map(ask));
    roundTime = performance.now() - start;
    if (!run || explore.getState().run?.identity.key !== run.identity.key) return;
    // the rows of all that are known went to the table before the questions did
    if (taken.every((kind) => kind === 'done'))
      explore.setState(({ drawn }) => ({ drawn: Math.max(drawn, run.known) }));
    // another view was asked for meanwhile: once more, so that all pictures are of one state
    else if (!taken.includes('failed')) refreshAfter(REFRESH_TIME);
  };

  const refreshAfter = (wait: number) => {
    if (wait === 0 && timer !== null) {
      clearTimeout(timer);
      timer = null;
    }
    timer ??= setTimeout(() => void refresh(), wait);
  };

  const unsubscribe = explore.subscribe((state, before) => {
    // the table takes questions about a sweep once it has been opened
    if (before.run?.status === 'loading' && state.run?.status !== 'loading') lineMissing = true;
    for (const kind of KINDS)
      if (state.view !== before.view && isTouched(kind, state.view, before.view)) void ask(kind);
    if (!hasNews(state, before)) return;
    const first = before.pictures.heat === null && state.pictures.heat === null;
    const ended = state.run?.status !== before.run?.status;
    refreshAfter(first || ended ? 0 : Math.max(REFRESH_TIME, REST_SHARE * roundTime));
  });
  return () => {
    unsubscribe();
    if (timer !== null) clearTimeout(timer);
  };
}

/** More is known than when pictures were last asked for. */
const hasNews = ({ run }: ExploreState, before: ExploreState): boolean =>
  run !== null && run.known > 0 && (run.known !== before.run?.known || run.status !== before.run.status);

/** Whether a change of the view calls for a new picture of a kind. */
function isTouched(kind: Kind, view: ExploreView, before: ExploreView): boolean {
  const changed = (...keys: readonly (keyof ExploreView)[]) => keys.some((key) => view[key] !== before[key]);
  switch (kind) {
    case 'heat':
      return changed('heatX', 'heatY', 'heatFigure', 'cuts', 'ranges');
    case 'singular':
      return changed('heatX', 'heatY', 'cuts');
    case 'scatter':
      return changed('objectives', 'ranges');
    case 'spread':
      return changed('figures', 'ranges');
    case 'front':
      return changed('objectives', 'ranges');
  }
}

type RemoteTable = Parameters<Parameters<WorkerHost<ExploreTableJobs>['call']>[0]>[0];

async function takePicture(
  table: RemoteTable,
  kind: Kind,
  run: SweepRun,
  view: ExploreView,
): Promise<Partial<Pictures>> {
  const { ranges, objectives } = view;
  switch (kind) {
    case 'heat': {
      const question = { x: view.heatX, y: view.heatY, figure: view.heatFigure, places: cutPlaces(view, run.grid) };
      const slice = await table.heat(question, ranges);
      return slice ? { heat: { question, slice } } : {};
    }
    case 'singular':
      return { singular: await table.singular({ x: view.heatX, y: view.heatY, places: cutPlaces(view, run.grid) }) };
    case 'scatter': {
      const [first, second] = objectives;
      if (!first || !second) return {};
      const question: DensityQuestion = { x: first.figure, y: second.figure, ...SCATTER_CELLS };
      const density = await table.scatter(question, ranges);
      return density ? { scatter: { x: first.figure, y: second.figure, density } } : {};
    }
    case 'spread': {
      const dimensions = run.grid.filter(({ values }) => values.length > 1).map(({ name }) => name);
      const limited = rangeNames(ranges).filter((name) => !YES_NO.has(name));
      const names = [...new Set([...dimensions, ...view.figures, ...limited])];
      return { spread: await table.spread(names, ranges) };
    }
    case 'front':
      return { front: await table.front(objectives, ranges) };
  }
}
