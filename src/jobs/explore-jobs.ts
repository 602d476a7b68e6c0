import { coarseFirst } from '../explore/grid.ts';
import { type HoleChoice, threefoldChoices, withHoleChoice } from '../explore/hole-choices.ts';
import { type HoleSearch, type HoleSearchState, holeSearchRounds } from '../explore/hole-search.ts';
import { FIGURE_COUNT, type FigureOptions, LayoutFigures } from '../explore/layout-figures.ts';
import { type Optimisation, optimisationRounds, type RoundResult } from '../explore/optimise.ts';
import { type Sweep, sweepRows } from '../explore/sweep.ts';
import { sweepPace } from '../explore/sweep-pace.ts';
import { firstTwin } from '../explore/twins.ts';
import { isRingSpec, type RingSpec } from '../kinematics/dimensions.ts';
import type { HoleCircle } from '../kinematics/layout.ts';
import { compileMechanism, type MechanismSpec } from '../kinematics/mechanism.ts';
import { neverStop } from '../math/long-work.ts';

/** Layouts that one piece of work holds: some tens of milliseconds. */
export const LAYOUTS_A_CHUNK = 512;

export const chunkCount = (layouts: number): number => Math.ceil(layouts / LAYOUTS_A_CHUNK);

/** Layouts in a chunk: all but the last are full. */
export const chunkSize = (layouts: number, chunk: number): number =>
  Math.min(LAYOUTS_A_CHUNK, layouts - chunk * LAYOUTS_A_CHUNK);

/** All three-fold choices of holes around one design. */
export interface HoleList {
  readonly design: RingSpec;
  readonly base: HoleCircle;
  readonly platform: HoleCircle;
  readonly options: FigureOptions;
}

/** A search that goes round by round; `stopped` when it was told to end. */
export interface SearchEnd<State> {
  readonly state: State;
  readonly stopped: boolean;
}

/** The searches; one of each runs at a time. */
export type SearchKind = 'optimiser' | 'holes';

/** Time between two looks at whether a search should stop, and two reports of how far it is [ms]. */
const LOOK_TIME = 60;

/** The work of one worker on many layouts. `key` names what a chunk belongs to, so that lists are made once. */
export class ExploreJobs {
  #order: { readonly key: string; readonly indices: Uint32Array } | null = null;
  #choices: { readonly key: string; readonly list: readonly HoleChoice[] } | null = null;
  readonly #stopped = new Map<SearchKind, number>();

  /** Rows of one chunk of a sweep, in the order of {@link coarseFirst}, or of its first `most` layouts. */
  sweepChunk(key: string, sweep: Sweep, chunk: number, most = LAYOUTS_A_CHUNK): Float64Array {
    if (this.#order?.key !== key) this.#order = { key, indices: coarseFirst(sweep.grid) };
    const from = chunk * LAYOUTS_A_CHUNK;
    return sweepRows(sweep, this.#order.indices.subarray(from, from + most), neverStop);
  }

  /** Rows of one chunk of the hole choices, in the order of {@link threefoldChoices}. */
  holeChunk(key: string, { design, base, platform, options }: HoleList, chunk: number): Float64Array {
    if (this.#choices?.key !== key) this.#choices = { key, list: threefoldChoices(base, platform) };
    const from = chunk * LAYOUTS_A_CHUNK;
    const choices = this.#choices.list.slice(from, from + LAYOUTS_A_CHUNK);
    return this.measure(
      choices.map((choice) => withHoleChoice(design, choice)),
      options,
    );
  }

  /** Rows of single layouts, in their order. */
  measure(layouts: readonly MechanismSpec[], options: FigureOptions): Float64Array {
    const figures = new LayoutFigures(options);
    const rows = new Float64Array(layouts.length * FIGURE_COUNT);
    layouts.forEach((layout, n) => {
      figures.measure(compileMechanism(isRingSpec(layout) ? firstTwin(layout) : layout), rows, n * FIGURE_COUNT);
    });
    return rows;
  }

  /** As {@link sweepPace}. */
  pace(sweep: Sweep, layouts: number): number {
    return sweepPace(sweep, layouts);
  }

  /** The best layout that {@link optimisationRounds} finds; tells how far it is now and then. */
  optimise(
    search: Optimisation,
    ticket: number,
    report: (state: RoundResult) => void,
  ): Promise<SearchEnd<RoundResult>> {
    return this.#follow('optimiser', ticket, optimisationRounds(search), report);
  }

  /** The best single holes that {@link holeSearchRounds} finds. */
  searchHoles(
    search: HoleSearch,
    ticket: number,
    report: (state: HoleSearchState) => void,
  ): Promise<SearchEnd<HoleSearchState>> {
    return this.#follow('holes', ticket, holeSearchRounds(search), report);
  }

  /** Ends the search of a kind that has this ticket after its present round, or its first one if it has yet to start. */
  stop(kind: SearchKind, ticket: number): void {
    this.#stopped.set(kind, ticket);
  }

  async #follow<State>(
    kind: SearchKind,
    ticket: number,
    rounds: Generator<State, State, void>,
    report: (state: State) => void,
  ): Promise<SearchEnd<State>> {
    let looked = performance.now();
    for (;;) {
      const step = rounds.next();
      if (step.done) return { state: step.value, stopped: false };
      if (this.#stopped.get(kind) === ticket) return { state: step.value, stopped: true };
      if (performance.now() - looked < LOOK_TIME) continue;
      report(step.value);
      // lets a call of stop come in
      await new Promise((resume) => setTimeout(resume));
      looked = performance.now();
    }
  }
}
