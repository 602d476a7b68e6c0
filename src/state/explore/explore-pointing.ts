import { checked } from '../../document/edits/edit.ts';
import { FIGURE_COUNT } from '../../explore/layout-figures.ts';
import type { ExploreTableJobs } from '../../jobs/explore-table-jobs.ts';
import { LatestQueue } from '../../jobs/latest-queue.ts';
import type { WorkerHost } from '../../jobs/worker-host.ts';
import { changeDocument, type DesignStore } from '../design/design-store.ts';
import { type NoticesStore, notify } from '../session/notices-store.ts';
import type { SessionStore } from '../session/session-store.ts';
import { drilledWords } from './drilled-words.ts';
import { changeLabel, hasHoles, valuesAt, withLayout, withLayoutOnHoles } from './explore-layout.ts';
import type { ExploreStore } from './explore-store.ts';

export interface PointingStores {
  readonly design: DesignStore;
  readonly session: SessionStore;
  readonly explore: ExploreStore;
  readonly notices: NoticesStore;
}

/** Points at single layouts of a sweep, as a ghost and in numbers, and makes one of them the design. */
export class LayoutPointer {
  readonly #stores: PointingStores;
  readonly #table: WorkerHost<ExploreTableJobs>;
  readonly #queue = new LatestQueue<'nearest' | 'row'>(['nearest', 'row']);
  /** Rises with every move of the pointer, so that a late answer does not bring back what was left. */
  #turn = 0;

  constructor(stores: PointingStores, table: WorkerHost<ExploreTableJobs>) {
    this.#stores = stores;
    this.#table = table;
  }

  /** Points at a layout by its index, or at none. */
  point(index: number | null): void {
    this.#turn += 1;
    const { run, pointed, pictures } = this.#stores.explore.getState();
    if (index === null || !run) {
      if (pointed) this.#stores.explore.setState({ pointed: null });
      this.#stores.session.setState({ hovered: null });
      return;
    }
    if (pointed?.index === index) return;
    const values = valuesAt(run.sweep, index);
    const row = frontRow(pictures.front, index);
    this.#stores.explore.setState({ pointed: { index, values, row } });
    this.#stores.session.setState({ hovered: withLayout(run.document, values) });
    if (!row) this.#askRow(index);
  }

  /** Points at the layout nearest to a place on the scatter, in the figures' inside units. */
  pointNear(at: readonly [number, number]): void {
    this.#turn += 1;
    const turn = this.#turn;
    const { view } = this.#stores.explore.getState();
    const [first, second] = view.objectives;
    if (!first || !second) return;
    const ask = () => this.#table.call((table) => table.nearest(first.figure, second.figure, at, view.ranges));
    void this.#queue.ask('nearest', ask).then((outcome) => {
      if (outcome.kind === 'done' && turn === this.#turn) this.point(outcome.value);
    });
  }

  /** Makes a layout of the sweep the design, as one step that can be undone. */
  load(index: number): void {
    const { run, stale } = this.#stores.explore.getState();
    if (!run) return;
    const { design, notices, session } = this.#stores;
    if (stale) {
      notify(notices, 'These layouts were measured for another design; run the sweep again first.', {
        tone: 'warning',
      });
      return;
    }
    const { document } = design.getState();
    const values = valuesAt(run.sweep, index);
    const loaded = checked(withLayoutOnHoles(document, values), document);
    if (!loaded.ok) {
      notify(notices, `This layout cannot be loaded: ${loaded.fault}`, { tone: 'warning' });
      return;
    }
    const label = changeLabel(values, document);
    changeDocument(design, loaded.value, label);
    session.setState({ hovered: null, pose: null });
    notify(
      notices,
      hasHoles(document)
        ? `${label} is loaded, each joint in its nearest hole. ${drilledWords(withLayout(document, values), loaded.value, run.sweep)}`
        : `${label} is loaded.`,
    );
  }

  #askRow(index: number): void {
    const { explore } = this.#stores;
    void this.#queue
      .ask('row', () => this.#table.call((table) => table.row(index)))
      .then((outcome) => {
        if (outcome.kind !== 'done' || !outcome.value) return;
        const { pointed } = explore.getState();
        if (pointed?.index === index) explore.setState({ pointed: { ...pointed, row: outcome.value } });
      });
  }
}

/** The figures of a layout on the front, which are here already. */
function frontRow(front: { readonly indices: Uint32Array; readonly rows: Float64Array } | null, index: number) {
  const place = front ? front.indices.indexOf(index) : -1;
  return front && place >= 0 ? front.rows.slice(place * FIGURE_COUNT, (place + 1) * FIGURE_COUNT) : null;
}
