import { SWEEP_VARIABLES, type SweepDocument, sweepValues } from '../../document/sweep-file.ts';
import { degrees } from '../../document/units.ts';
import { placesOf } from '../../explore/grid.ts';
import { FIGURE_COUNT, FIGURE_NAMES, type FigureName } from '../../explore/layout-figures.ts';

/** How a table is written: one JSON object a line after a head line, or comma-separated with a head line. */
export type TableKind = 'ndjson' | 'csv';

/** Column names of the figures, with their units, and the factor from the inside unit. */
const FIGURE_COLUMNS: Readonly<Record<FigureName, { readonly name: string; readonly factor: number }>> = {
  reach: { name: 'reach_cm3', factor: 1e-3 },
  tiltReach: { name: 'tiltReach_cm3', factor: 1e-3 },
  usableReach: { name: 'usableReach_cm3', factor: 1e-3 },
  homeFirmness: { name: 'homeFirmness', factor: 1 },
  homeCondition: { name: 'homeCondition', factor: 1 },
  worstFirmness: { name: 'worstFirmness', factor: 1 },
  meanFirmness: { name: 'meanFirmness', factor: 1 },
  forceFactor: { name: 'forceFactor', factor: 1 },
  jointTilt: { name: 'jointTilt_deg', factor: degrees(1) },
  spareStroke: { name: 'spareStroke_mm', factor: 1 },
  homeReachable: { name: 'homeReachable', factor: 1 },
  singularEverywhere: { name: 'singularEverywhere', factor: 1 },
};

/** Figures that are yes or no. */
const YES_NO: ReadonlySet<FigureName> = new Set<FigureName>(['homeReachable', 'singularEverywhere']);

/** A part of a sweep's table: layouts from one index to before another. */
export interface TableSpan {
  readonly from: number;
  readonly to: number;
}

/** What a table's first line says about it. */
export interface TableHead extends TableSpan {
  /** Fingerprint of the design. */
  readonly design: string;
  readonly sweep: SweepDocument;
}

/** First key of a table's head line. */
export const TABLE_FORMAT = 'legroom-sweep-table';

/** First line of a table. */
export function headLine(kind: TableKind, head: TableHead): string {
  if (kind === 'csv') return `${columnNames(head.sweep).join(',')}\n`;
  const { design, sweep, from, to } = head;
  return `${JSON.stringify({ format: TABLE_FORMAT, version: 1, design, from, to, sweep })}\n`;
}

/** Names of all columns in order. */
export const columnNames = (sweep: SweepDocument): readonly string[] => [
  'layout',
  ...sweep.variables.map(({ name }) => name),
  ...FIGURE_NAMES.map((figure) => FIGURE_COLUMNS[figure].name),
];

/** The lines of consecutive layouts; `rows` holds {@link FIGURE_COUNT} numbers each. */
export function tableLines(kind: TableKind, sweep: SweepDocument, first: number, rows: Float64Array): string {
  const names = columnNames(sweep);
  const values = sweep.variables.map(sweepValues);
  const grid = sweep.variables.map((variable, n) => ({
    name: SWEEP_VARIABLES[variable.name].dimension,
    values: Float64Array.from(values[n]),
  }));
  let text = '';
  for (let n = 0; n * FIGURE_COUNT < rows.length; n++) {
    const index = first + n;
    const cells = [
      String(index),
      ...placesOf(grid, index).map((place, axis) => String(values[axis][place])),
      ...FIGURE_NAMES.map((figure, column) => figureCell(kind, figure, rows[n * FIGURE_COUNT + column])),
    ];
    text +=
      kind === 'csv' ? `${cells.join(',')}\n` : `{${cells.map((cell, k) => `"${names[k]}":${cell}`).join(',')}}\n`;
  }
  return text;
}

/** A number that a table cannot hold (an infinite condition) is null in JSON and empty in CSV. */
function figureCell(kind: TableKind, figure: FigureName, value: number): string {
  if (YES_NO.has(figure)) return value === 1 ? 'true' : 'false';
  const shown = value * FIGURE_COLUMNS[figure].factor;
  if (Number.isFinite(shown)) return String(shown);
  return kind === 'csv' ? '' : 'null';
}

/** Layouts of shard `number` of `count`: even consecutive spans, so that joined shards are the whole table. */
export const shardSpan = (layouts: number, number: number, count: number): TableSpan => ({
  from: Math.floor((layouts * (number - 1)) / count),
  to: Math.floor((layouts * number) / count),
});
