import { figureOptions } from '../../document/build-inputs.ts';
import { compiledDesign } from '../../document/compiled.ts';
import { sweepAxes, sweepSize, validateSweep } from '../../document/sweep-file.ts';
import { sweptDesign } from '../../document/swept-design.ts';
import type { ExploreWorkers } from '../../jobs/explore-workers.ts';
import { LatestQueue } from '../../jobs/latest-queue.ts';
import { sweepIdentity } from './explore-identity.ts';
import type { PointingStores } from './explore-pointing.ts';
import type { SweepRunner } from './explore-run.ts';
import type { ExploreState, SweepRun } from './explore-store.ts';
import type { SweepKeeper } from './sweep-keeper.ts';

/** Quiet time after a change of the design or the set-up before anything is done about it [ms]. */
const QUIET_TIME = 350;

/** Layouts measured to tell how long a sweep will take. */
const PACE_LAYOUTS = 48;

/** Layouts that every worker measures once before the first sweep, so that it starts with compiled code. */
const WARMING_LAYOUTS = 24;

interface Following {
  /** Catches up as after a change of the design. */
  lookAgain(): void;
  end(): void;
}

/**
 * Keeps the place Explore in step with the design: says when the sweep on screen no longer belongs to it, brings up a kept sweep
 * that does, measures the design's own figures, and tells how long the next sweep will take.
 */
export function followDesign(
  { design, explore }: Pick<PointingStores, 'design' | 'explore'>,
  workers: ExploreWorkers,
  runner: SweepRunner,
  keeper: SweepKeeper,
): Following {
  const queue = new LatestQueue<'present' | 'pace'>(['present', 'pace']);
  let timer: ReturnType<typeof setTimeout> | null = null;
  let warmed = false;

  const measurePresent = () => {
    const { document } = design.getState();
    const { run, setup } = explore.getState();
    const options = figureOptions(document, run?.sweep ?? setup);
    const layout = compiledDesign(document).mechanism.spec;
    void queue
      .ask('present', () => workers.single.call((worker) => worker.measure([layout], options)))
      .then((outcome) => {
        if (outcome.kind === 'done') explore.setState({ present: { document, row: outcome.value } });
      });
  };

  const measurePace = () => {
    const { run, setup } = explore.getState();
    const { document } = design.getState();
    const swept = sweptDesign(document);
    const valid = validateSweep(setup);
    if (!swept.ok || !valid.ok || run?.status === 'running') return;
    const question = { design: swept.value, grid: sweepAxes(setup), options: figureOptions(document, setup) };
    const layouts = Math.min(PACE_LAYOUTS, sweepSize(setup));
    if (!warmed) {
      warmed = true;
      workers.pool.warm((worker) => worker.pace(question, WARMING_LAYOUTS));
      void workers.table.call((table) => table.row(0)).catch(() => undefined);
    }
    void queue
      .ask('pace', () => workers.single.call((worker) => worker.pace(question, layouts)))
      .then((outcome) => {
        if (outcome.kind === 'done') explore.setState({ pace: outcome.value });
      });
  };

  const catchUp = async () => {
    timer = null;
    measurePresent();
    const { run } = explore.getState();
    const { document } = design.getState();
    const stale = run !== null && !belongsTo(run, document);
    if (explore.getState().stale !== stale) explore.setState({ stale });
    if (stale && run.status !== 'running') {
      const match = keeper.known.find((kept) => belongs(kept, document) && sameSweep(kept, run));
      if (match) await runner.open(document, match.sweep).catch(() => undefined);
    }
    measurePace();
  };

  const soon = () => {
    if (timer !== null) clearTimeout(timer);
    timer = setTimeout(() => void catchUp(), QUIET_TIME);
  };

  const leaveDesign = design.subscribe((state, before) => {
    if (state.document !== before.document) soon();
  });
  const leaveExplore = explore.subscribe((state, before) => {
    if (needsPace(state, before)) soon();
  });
  soon();
  return {
    lookAgain: soon,
    end: () => {
      if (timer !== null) clearTimeout(timer);
      leaveDesign();
      leaveExplore();
    },
  };
}

const needsPace = (state: ExploreState, before: ExploreState): boolean =>
  state.setup !== before.setup || state.run?.identity !== before.run?.identity;

type Named = Pick<SweepRun, 'sweep'> & { readonly text: string };

function belongs({ sweep, text }: Named, document: SweepRun['document']): boolean {
  const design = sweptDesign(document);
  return (
    design.ok &&
    sweepIdentity(design.value, sweepAxes(sweep), sweep, figureOptions(document, sweep).build).text === text
  );
}

const belongsTo = ({ sweep, identity }: SweepRun, document: SweepRun['document']): boolean =>
  belongs({ sweep, text: identity.text }, document);

const sameSweep = (one: Pick<SweepRun, 'sweep'>, other: Pick<SweepRun, 'sweep'>): boolean =>
  JSON.stringify(one.sweep) === JSON.stringify(other.sweep);

/** Puts the sweep of the present design that was last worked on back on screen, if there is one. */
export async function restoreSweep(
  { design }: Pick<PointingStores, 'design'>,
  runner: SweepRunner,
  keeper: SweepKeeper,
): Promise<boolean> {
  const { document } = design.getState();
  const match = (await keeper.list()).find((kept) => belongs(kept, document));
  return match ? runner.open(document, match.sweep) : false;
}
