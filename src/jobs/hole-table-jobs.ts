import { type HoleChoice, threefoldChoices } from '../explore/hole-choices.ts';
import { rankRows, type Weight } from '../explore/hole-ranking.ts';
import { FIGURE_COUNT } from '../explore/layout-figures.ts';
import { type HoleList, LAYOUTS_A_CHUNK } from './explore-jobs.ts';

/** The best of the choices measured so far, best first. */
export interface RankedHoles {
  readonly choices: readonly HoleChoice[];
  readonly scores: Float64Array;
  /** Rows of figures in the same order. */
  readonly rows: Float64Array;
  /** Choices measured. */
  readonly known: number;
}

/** Holds the figures of all hole choices and ranks them; lives in a worker of its own. */
export class HoleTableJobs {
  #open: { readonly key: string; readonly choices: readonly HoleChoice[]; readonly rows: Float64Array } | null = null;
  #known = new Uint8Array();

  /** Starts an empty table. */
  open(key: string, { base, platform }: Pick<HoleList, 'base' | 'platform'>): void {
    const choices = threefoldChoices(base, platform);
    this.#open = { key, choices, rows: new Float64Array(choices.length * FIGURE_COUNT) };
    this.#known = new Uint8Array(choices.length);
  }

  /** Takes in one chunk of rows; one of another list is dropped. */
  add(key: string, chunk: number, rows: Float64Array): void {
    if (this.#open?.key !== key) return;
    const first = chunk * LAYOUTS_A_CHUNK;
    this.#open.rows.set(rows, first * FIGURE_COUNT);
    this.#known.fill(1, first, first + rows.length / FIGURE_COUNT);
  }

  /** Ranks what is known and gives back the first `most`. */
  rank(weights: readonly Weight[], most: number): RankedHoles {
    const places = [...this.#known.keys()].filter((place) => this.#known[place] === 1);
    const all = this.#open?.rows ?? new Float64Array();
    const compact = new Float64Array(places.length * FIGURE_COUNT);
    places.forEach((place, n) => {
      compact.set(all.subarray(place * FIGURE_COUNT, (place + 1) * FIGURE_COUNT), n * FIGURE_COUNT);
    });
    const { order, scores } = rankRows(compact, weights);
    const shown = order.subarray(0, most);
    const rows = new Float64Array(shown.length * FIGURE_COUNT);
    shown.forEach((n, at) => {
      rows.set(compact.subarray(n * FIGURE_COUNT, (n + 1) * FIGURE_COUNT), at * FIGURE_COUNT);
    });
    const choices = this.#open?.choices ?? [];
    return {
      choices: Array.from(shown, (n) => choices[places[n]]),
      scores: Float64Array.from(shown, (n) => scores[n]),
      rows,
      known: places.length,
    };
  }
}
