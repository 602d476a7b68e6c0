import { columnDomain, type Domain } from '../explore/column-domain.ts';
import {
  type Density,
  type DensityQuestion,
  density,
  type Histogram,
  histogram,
  nearestLayout,
} from '../explore/density.ts';
import type { Grid } from '../explore/grid.ts';
import { type HeatSlice, heatSlice, type SliceQuestion } from '../explore/heat-slice.ts';
import { FIGURE_COUNT } from '../explore/layout-figures.ts';
import { type ColumnName, LayoutTable, type Ranges } from '../explore/layout-table.ts';
import { type Knee, kneeOf } from '../explore/pareto.ts';
import { type SingularLine, singularLine } from '../explore/singular-line.ts';
import type { Sweep } from '../explore/sweep.ts';
import { type ObjectiveChoice, tableFront, tableObjectives } from '../explore/table-front.ts';
import { LAYOUTS_A_CHUNK } from './explore-jobs.ts';

/** Layouts of one column in equal steps, for each of some columns, with how many layouts pass. */
export interface Spread {
  readonly columns: readonly Histogram[];
  readonly known: number;
  readonly passing: number;
}

/** The layouts of a front that are shown: index and figures of each, best in the first objective first. */
export interface Front {
  readonly indices: Uint32Array;
  /** Rows of figures, in the order of `indices`. */
  readonly rows: Float64Array;
  /** Layouts on the whole front; more than are shown when it is very long. */
  readonly count: number;
  readonly knee: Knee | null;
  readonly objectives: readonly ObjectiveChoice[];
}

/** Layouts of a front that are handed over at most. */
export const SHOWN_FRONT = 2000;

/** Bins of a figure's spread; a dimension has one for each of its values, up to so many. */
const BINS = 48;
const MOST_BINS = 64;

/** How near to a layout a pointer has to be to mean it, as a share of the axes. */
const NEAR = 0.04;

/** One column of an exported table: what it is called, by how much its numbers are multiplied, and how they are written. */
export interface ExportColumn {
  readonly name: ColumnName;
  readonly header: string;
  readonly scale: number;
  /** Given values come back as they were typed, to 15 digits; figures keep every digit; yes or no stands for 1 and 0. */
  readonly kind: 'given' | 'figure' | 'yesNo';
}

/** Which layouts are exported. */
export type ExportChoice = { readonly kind: 'passing' } | { readonly kind: 'front'; readonly indices: Uint32Array };

/** All figures of one sweep and the pictures taken from them; lives in a worker of its own. */
export class ExploreTableJobs {
  #open: { readonly key: string; readonly sweep: Sweep; readonly table: LayoutTable } | null = null;
  #mask: { readonly ranges: string; readonly count: number; readonly passing: Uint8Array } | null = null;
  #line: { readonly question: string; readonly line: SingularLine } | null = null;

  /** Starts an empty table. */
  open(key: string, sweep: Sweep): void {
    this.#open = { key, sweep, table: new LayoutTable(sweep.grid) };
    this.#mask = null;
    this.#line = null;
  }

  /** Takes in chunks of a sweep; those of another sweep are dropped. Returns the layouts known. */
  add(key: string, chunks: readonly (readonly [chunk: number, rows: Float64Array])[]): number {
    if (this.#open?.key !== key) return 0;
    const { table } = this.#open;
    for (const [chunk, rows] of chunks) table.addRows(chunk * LAYOUTS_A_CHUNK, rows);
    return table.count;
  }

  heat(question: SliceQuestion, ranges: Ranges): HeatSlice | null {
    const table = this.#table();
    if (!table || !hasAxes(table.grid, [question.x, question.y])) return null;
    return heatSlice(table, this.#passing(table, ranges), question, columnDomain(table, question.figure));
  }

  /** Where the layouts of a slice are singular at home. */
  singular({ x, y, places }: Pick<SliceQuestion, 'x' | 'y' | 'places'>): SingularLine | null {
    if (!this.#open || !hasAxes(this.#open.table.grid, [x, y])) return null;
    const { sweep, key } = this.#open;
    const fixed = sweep.grid.map(({ name }, axis) => (name === x || name === y ? -1 : places[axis]));
    const question = JSON.stringify([key, x, y, fixed]);
    if (this.#line?.question !== question) {
      this.#line = { question, line: singularLine(sweep.design, sweep.grid, x, y, places) };
    }
    return this.#line.line;
  }

  scatter(question: DensityQuestion, ranges: Ranges): Density | null {
    const table = this.#table();
    const domains = table && domainsOf(table, [question.x, question.y]);
    if (!domains) return null;
    return density(table, this.#passing(table, ranges), question, domains[0], domains[1]);
  }

  spread(names: readonly ColumnName[], ranges: Ranges): Spread | null {
    const table = this.#table();
    if (!table) return null;
    const passing = this.#passing(table, ranges);
    const columns = names.flatMap((name) => {
      const domain = columnDomain(table, name);
      const given = table.grid.find((axis) => axis.name === name)?.values.length;
      return domain ? [histogram(table, passing, name, domain, Math.min(given ?? BINS, MOST_BINS))] : [];
    });
    return { columns, known: table.count, passing: passing.reduce((sum, one) => sum + one, 0) };
  }

  front(objectives: readonly ObjectiveChoice[], ranges: Ranges): Front | null {
    const table = this.#table();
    if (!table) return null;
    const front = tableFront(table, this.#passing(table, ranges), objectives);
    const [first, second, third] = tableObjectives(table, objectives);
    const knee = first && second && !third ? kneeOf(front, first, second) : null;
    const shown = thinned(front, SHOWN_FRONT, knee?.place);
    const rows = new Float64Array(shown.length * FIGURE_COUNT);
    shown.forEach((index, n) => {
      rows.set(table.row(index), n * FIGURE_COUNT);
    });
    return { indices: Uint32Array.from(shown), rows, count: front.length, knee, objectives };
  }

  /** The passing layout nearest to a point of the scatter; null when none is near. */
  nearest(x: ColumnName, y: ColumnName, point: readonly [number, number], ranges: Ranges): number | null {
    const table = this.#table();
    const domains = table && domainsOf(table, [x, y]);
    if (!domains) return null;
    const [xDomain, yDomain] = domains;
    const index = nearestLayout(table, this.#passing(table, ranges), { x, y, xDomain, yDomain }, point, NEAR);
    return index < 0 ? null : index;
  }

  /** The figures of one layout; null while they are not known. */
  row(index: number): Float64Array | null {
    const table = this.#table();
    return table?.known[index] === 1 ? table.row(index) : null;
  }

  /** Comma-separated text of some layouts, with a line of headers. */
  csv(columns: readonly ExportColumn[], choice: ExportChoice, ranges: Ranges): Blob {
    const parts = [`layout,${columns.map(({ header }) => header).join(',')}\n`];
    const table = this.#table();
    if (table) {
      const cells = columns.map(({ name, scale, kind }) => {
        const read = table.reader(name);
        return (index: number) => cellText(kind, read(index) * scale);
      });
      const line = (index: number) => `${index},${cells.map((cell) => cell(index)).join(',')}\n`;
      if (choice.kind === 'front') for (const index of choice.indices) parts.push(line(index));
      else {
        this.#passing(table, ranges).forEach((passes, index) => {
          if (passes === 1) parts.push(line(index));
        });
      }
    }
    return new Blob(parts, { type: 'text/csv' });
  }

  #table(): LayoutTable | null {
    return this.#open?.table ?? null;
  }

  /** The mask of the last ranges is kept: all pictures of a moment ask for the same. */
  #passing(table: LayoutTable, ranges: Ranges): Uint8Array {
    // JSON has no infinity; a range without an end must not look like another one
    const text = JSON.stringify(ranges, (_, value) => (typeof value === 'number' ? String(value) : value));
    if (this.#mask?.ranges !== text || this.#mask.count !== table.count) {
      this.#mask = { ranges: text, count: table.count, passing: table.passing(ranges) };
    }
    return this.#mask.passing;
  }
}

/** A number that a table cannot hold (an infinite condition) is left empty. */
function cellText(kind: ExportColumn['kind'], value: number): string {
  if (kind === 'yesNo') return value === 1 ? 'true' : 'false';
  if (!Number.isFinite(value)) return '';
  return String(kind === 'given' ? Number(value.toPrecision(15)) : value);
}

const hasAxes = (grid: Grid, names: readonly ColumnName[]): boolean =>
  names.every((name) => grid.some((axis) => axis.name === name));

function domainsOf(table: LayoutTable, names: readonly ColumnName[]): readonly Domain[] | null {
  const domains = names.map((name) => columnDomain(table, name));
  return domains.every((domain) => domain !== null) ? domains : null;
}

/** Every so many of a long list, ends and one chosen place kept. */
function thinned(list: readonly number[], most: number, keep: number | undefined): readonly number[] {
  if (list.length <= most) return list;
  const step = (list.length - 1) / (most - 1);
  const shown = new Set(Array.from({ length: most }, (_, n) => list[Math.round(n * step)]));
  if (keep !== undefined) shown.add(keep);
  return list.filter((index) => shown.has(index));
}
