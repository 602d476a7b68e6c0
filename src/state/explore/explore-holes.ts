import { proxy } from 'comlink';
import { figureOptions } from '../../document/build-inputs.ts';
import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { countThreefoldChoices } from '../../explore/hole-choices.ts';
import type { HoleSearch } from '../../explore/hole-search.ts';
import { FIGURE_COUNT } from '../../explore/layout-figures.ts';
import type { Bound, Goal } from '../../explore/optimise.ts';
import type { ChunkRun } from '../../jobs/chunk-pool.ts';
import { chunkCount, type HoleList } from '../../jobs/explore-jobs.ts';
import type { ExploreWorkers } from '../../jobs/explore-workers.ts';
import { reasonOf } from '../../jobs/outcome.ts';
import { FIGURE_NAMES } from '../../terms/figures.ts';
import type { DesignStore } from '../design/design-store.ts';
import type { ExploreStore } from './explore-store.ts';
import { holeDesign, neighbouringChoices } from './hole-edits.ts';
import { type HoleRun, type HoleSearchRun, type HolesStore, LISTED_CHOICES } from './holes-store.ts';

/** How often the list is ranked again while choices come in [ms]. */
const RANK_TIME = 250;

/** A layout has to fit together, to stand at home and to hold itself up somewhere. */
export const SOUND: readonly Bound[] = [
  { figure: 'buildGap', atLeast: 0 },
  { figure: 'homeReachable', atLeast: 1 },
  { figure: 'singularEverywhere', atMost: 0 },
];

interface HoleStores {
  readonly design: DesignStore;
  readonly explore: ExploreStore;
  readonly holes: HolesStore;
}

/** Measures and ranks choices of holes. */
export class HoleDesk {
  readonly #stores: HoleStores;
  readonly #workers: ExploreWorkers;
  #turn = 0;
  /** Names the search last started. */
  #ticket = 0;
  #chunks: ChunkRun | null = null;
  #rankTimer: ReturnType<typeof setTimeout> | null = null;

  constructor(stores: HoleStores, workers: ExploreWorkers) {
    this.#stores = stores;
    this.#workers = workers;
  }

  /** Measures every three-fold choice on the present design's two circles. */
  async list(): Promise<void> {
    const { document } = this.#stores.design.getState();
    const holes = holeDesign(document);
    if (!holes) return;
    this.cancelList();
    this.#turn += 1;
    const turn = this.#turn;
    const { base, platform } = holes.circles;
    const choices = countThreefoldChoices(base, platform);
    const question: HoleList = { design: holes.design, base, platform, options: this.#options() };
    const key = JSON.stringify([turn, base, platform]);
    this.#stores.holes.setState({
      run: { document, status: 'running', choices, known: 0, ranked: null, failure: null },
    });
    try {
      await this.#workers.holes.call((table) => table.open(key, { base, platform }));
      if (turn !== this.#turn) return;
      this.#chunks = this.#workers.pool.run({
        chunks: Array.from({ length: chunkCount(choices) }, (_, chunk) => chunk),
        compute: (worker, chunk) => worker.holeChunk(key, question, chunk),
        onChunk: (chunk, rows) => {
          if (turn !== this.#turn) return;
          this.#change(({ known }) => ({ known: known + rows.length / FIGURE_COUNT }));
          void this.#workers.holes.call((table) => table.add(key, chunk, rows)).catch((lost) => this.#fail(turn, lost));
          this.#rankTimer ??= setTimeout(() => this.rank(), RANK_TIME);
        },
      });
      const outcome = await this.#chunks.finished;
      if (turn !== this.#turn) return;
      this.#chunks = null;
      if (outcome.kind === 'failed') this.#change(() => ({ status: 'failed', failure: outcome.reason }));
      else this.#change(() => ({ status: outcome.kind }));
      this.rank();
    } catch (thrown) {
      this.#fail(turn, thrown);
    }
  }

  /** Stops measuring; what is known stays listed. */
  cancelList(): void {
    this.#chunks?.cancel();
  }

  /** Ranks what is known by the present weights. */
  rank(): void {
    if (this.#rankTimer !== null) clearTimeout(this.#rankTimer);
    this.#rankTimer = null;
    const turn = this.#turn;
    const { weights } = this.#stores.holes.getState();
    void this.#workers.holes
      .call((table) => table.rank(weights, LISTED_CHOICES))
      .then(
        (ranked) => {
          if (turn === this.#turn) this.#change(() => ({ ranked }));
        },
        (thrown) => this.#fail(turn, thrown),
      );
  }

  /** Measures the steps from the present holes to the next ones. */
  async weighMoves(document: DesignDocument): Promise<void> {
    if (!holeDesign(document)) {
      this.#stores.holes.setState({ moves: null });
      return;
    }
    const steps = neighbouringChoices(document);
    const measured = [document, ...steps.flatMap(({ document: next }) => (next ? [next] : []))];
    const layouts = measured.map((next) => compiledDesign(next).mechanism.spec);
    const options = this.#options();
    const rows = await this.#workers.single.call((worker) => worker.measure(layouts, options));
    const rowOf = (next: (typeof steps)[number]['document']) => {
      const place = next ? measured.indexOf(next) : -1;
      return place < 0 ? null : rows.slice(place * FIGURE_COUNT, (place + 1) * FIGURE_COUNT);
    };
    if (this.#stores.design.getState().document !== document) return;
    const moves = steps.map((step) => ({ ...step, row: rowOf(step.document) }));
    this.#stores.holes.setState({ moves: { document, present: rows.slice(0, FIGURE_COUNT), moves } });
  }

  /** Searches single joints' holes, without symmetry, for the present weights. */
  async search(): Promise<void> {
    const { document } = this.#stores.design.getState();
    const holes = holeDesign(document);
    if (!holes) return;
    const { seed, rounds } = this.#stores.holes.getState();
    const show = (change: Partial<HoleSearchRun>) =>
      this.#stores.holes.setState(({ search }) => (search ? { search: { ...search, ...change } } : {}));
    this.#stores.holes.setState({ search: { document, status: 'running', state: null, failure: null } });
    this.#ticket += 1;
    const ticket = this.#ticket;
    try {
      const goals = await this.#goals();
      const question: HoleSearch = { ...holes, goals, bounds: SOUND, options: this.#options(), seed, rounds };
      const report = proxy((state: HoleSearchRun['state']) => show({ state }));
      const { state, stopped } = await this.#workers.single.call((worker) =>
        worker.searchHoles(question, ticket, report),
      );
      show({ state, status: stopped ? 'cancelled' : 'done' });
    } catch (thrown) {
      show({ status: 'failed', failure: reasonOf(thrown) });
    }
  }

  /** Ends the search after its present round; the best so far stays. */
  cancelSearch(): void {
    void this.#workers.single.call((worker) => worker.stop('holes', this.#ticket)).catch(() => undefined);
  }

  /** The weights as goals, each figure counted in units of the present design's own. */
  async #goals(): Promise<readonly Goal[]> {
    const { document } = this.#stores.design.getState();
    const options = this.#options();
    const layout = compiledDesign(document).mechanism.spec;
    const row = await this.#workers.single.call((worker) => worker.measure([layout], options));
    return this.#stores.holes
      .getState()
      .weights.filter(({ weight }) => weight > 0)
      .map((weight) => ({ ...weight, unit: unitOf(row[FIGURE_NAMES.indexOf(weight.figure)]) }));
  }

  #options() {
    return figureOptions(this.#stores.design.getState().document, this.#stores.explore.getState().setup);
  }

  #change(change: (run: HoleRun) => Partial<HoleRun>): void {
    this.#stores.holes.setState(({ run }) => (run ? { run: { ...run, ...change(run) } } : {}));
  }

  #fail(turn: number, thrown: unknown): void {
    if (turn === this.#turn) this.#change(() => ({ status: 'failed', failure: reasonOf(thrown) }));
  }
}

/** A figure's own size as its unit; 1 where it is nothing or without bound. */
export const unitOf = (value: number): number => (Number.isFinite(value) && value !== 0 ? Math.abs(value) : 1);
