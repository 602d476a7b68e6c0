import { proxy } from 'comlink';
import { createStore } from 'zustand/vanilla';
import { figureOptions } from '../../document/build-inputs.ts';
import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { SWEEP_VARIABLES, type SweepVariableName } from '../../document/sweep-file.ts';
import { sweptDesign } from '../../document/swept-design.ts';
import type { Bound, Optimisation, RoundResult } from '../../explore/optimise.ts';
import type { ExploreWorkers } from '../../jobs/explore-workers.ts';
import { reasonOf } from '../../jobs/outcome.ts';
import { FIGURE_NAMES, type FigureName } from '../../terms/figures.ts';
import { radians } from '../../terms/units.ts';
import type { DesignStore } from '../design/design-store.ts';
import { betterOf, columnWords } from './explore-columns.ts';
import { unitOf } from './explore-holes.ts';
import type { ExploreStore } from './explore-store.ts';
import type { WorkStatus } from './holes-store.ts';

/** A variable that may move, from and to in its own unit. */
export interface FreeVariable {
  readonly name: SweepVariableName;
  readonly from: number;
  readonly to: number;
}

/** A figure to be made as good as can be. */
export interface GoalChoice {
  readonly figure: FigureName;
  readonly weight: number;
}

/** A figure that must not pass a limit, in its shown unit. */
export interface BoundChoice {
  /** Tells bounds of the same figure apart. */
  readonly id: number;
  readonly figure: FigureName;
  readonly kind: 'atLeast' | 'atMost';
  readonly value: number;
}

/** A search under way or ended. */
export interface OptimiserRun {
  readonly document: DesignDocument;
  readonly status: WorkStatus;
  readonly rounds: number;
  readonly goals: readonly GoalChoice[];
  readonly result: RoundResult | null;
  readonly failure: string | null;
}

export interface OptimiserState {
  readonly free: readonly FreeVariable[];
  readonly goals: readonly GoalChoice[];
  readonly bounds: readonly BoundChoice[];
  readonly seed: number;
  readonly rounds: number;
  readonly run: OptimiserRun | null;
}

export const createOptimiserStore = () =>
  createStore<OptimiserState>()(() => ({
    free: [
      { name: 'baseGap_deg', from: 5, to: 110 },
      { name: 'platformGap_deg', from: 5, to: 110 },
      { name: 'radiusRatio', from: 0.3, to: 1.4 },
    ],
    goals: [{ figure: 'usableReach', weight: 1 }],
    bounds: [{ id: 1, figure: 'worstFirmness', kind: 'atLeast', value: 0.25 }],
    seed: 1,
    rounds: 60,
    run: null,
  }));

export type OptimiserStore = ReturnType<typeof createOptimiserStore>;

/** What keeps a search from being started, in one sentence; null when nothing does. */
export function optimiserFault({ free, goals }: OptimiserState): string | null {
  if (free.length === 0) return 'Free at least one variable.';
  if (goals.every(({ weight }) => weight === 0)) return 'Give at least one goal a weight.';
  const reversed = free.find(({ from, to }) => !(to > from));
  if (reversed) return `${columnWords(SWEEP_VARIABLES[reversed.name].dimension).name}: "to" must be above "from".`;
  const names = free.map(({ name }) => name);
  if (new Set(names).size < names.length) return 'A variable is freed twice; remove one.';
  if (names.includes('radiusRatio') && names.includes('platformRadius_mm')) {
    return 'Radius ratio and platform radius set the same thing; remove one.';
  }
  return null;
}

interface OptimiserStores {
  readonly design: DesignStore;
  readonly explore: ExploreStore;
  readonly optimiser: OptimiserStore;
}

/** Looks for the best layout in a worker. */
export class OptimiserDesk {
  readonly #stores: OptimiserStores;
  readonly #workers: ExploreWorkers;
  /** Names the search last started. */
  #ticket = 0;

  constructor(stores: OptimiserStores, workers: ExploreWorkers) {
    this.#stores = stores;
    this.#workers = workers;
  }

  /** Starts the search that is set up; does nothing while it has a fault or one is running. */
  async start(): Promise<void> {
    const { optimiser, design, explore } = this.#stores;
    const state = optimiser.getState();
    const { document } = design.getState();
    const swept = sweptDesign(document);
    if (optimiserFault(state) !== null || !swept.ok || state.run?.status === 'running') return;
    const { goals, rounds } = state;
    this.#ticket += 1;
    const ticket = this.#ticket;
    optimiser.setState({ run: { document, status: 'running', rounds, goals, result: null, failure: null } });
    const show = (change: Partial<OptimiserRun>) =>
      optimiser.setState(({ run }) => (run ? { run: { ...run, ...change } } : {}));
    const options = figureOptions(document, explore.getState().setup);
    const layout = compiledDesign(document).mechanism.spec;
    try {
      const row = await this.#workers.single.call((worker) => worker.measure([layout], options));
      const search: Optimisation = { design: swept.value, options, ...questionOf(state, row) };
      const report = proxy((result: RoundResult) => show({ result }));
      const end = await this.#workers.single.call((worker) => worker.optimise(search, ticket, report));
      show({ result: end.state, status: end.stopped ? 'cancelled' : 'done' });
    } catch (thrown) {
      show({ status: 'failed', failure: reasonOf(thrown) });
    }
  }

  /** Ends the search after its present round; the best so far stays. */
  cancel(): void {
    void this.#workers.single.call((worker) => worker.stop('optimiser', this.#ticket)).catch(() => undefined);
  }
}

type Question = Pick<Optimisation, 'free' | 'goals' | 'bounds' | 'seed' | 'rounds'>;

/** The set-up in inside units; several goals are counted in units of the present design's figures. */
function questionOf({ free, goals, bounds, seed, rounds }: OptimiserState, present: Float64Array): Question {
  const inside = (name: SweepVariableName, value: number) => (name.endsWith('_deg') ? radians(value) : value);
  return {
    free: free.map(({ name, from, to }) => ({
      name: SWEEP_VARIABLES[name].dimension,
      from: inside(name, from),
      to: inside(name, to),
    })),
    goals: goals
      .filter(({ weight }) => weight > 0)
      .map(({ figure, weight }) => ({
        figure,
        better: betterOf(figure),
        weight,
        unit: unitOf(present[FIGURE_NAMES.indexOf(figure)]),
      })),
    bounds: [
      ...bounds.map(({ figure, kind, value }): Bound => ({ figure, [kind]: value / columnWords(figure).scale })),
      { figure: 'buildGap', atLeast: 0 },
      { figure: 'homeReachable', atLeast: 1 },
      { figure: 'singularEverywhere', atMost: 0 },
    ],
    seed,
    rounds,
  };
}
