import { type Grid, placesOf } from '../../explore/grid.ts';
import { FIGURE_COUNT } from '../../explore/layout-figures.ts';
import { FIGURE_NAMES, FIGURES, type FigureName } from '../../terms/figures.ts';

/** How a table is written: one JSON object a line after a head line, or comma-separated after two. */
export type TableKind = 'ndjson' | 'csv';

/** What the lines of a sweep's table need to know of the sweep. Plain data: it crosses to the processes that write them. */
export interface TableColumns {
  /** All columns in order, the first for the layout's number. */
  readonly names: readonly string[];
  /** Values of each variable as the sweep states them. */
  readonly values: readonly (readonly number[])[];
}

/** Names of the figures' columns. */
export const figureColumns = (): readonly string[] => FIGURE_NAMES.map((figure) => FIGURES[figure].header);

/** The text of a layout's line up to its first figure: its number and the values of its variables. */
export function lineStart(kind: TableKind, { names, values }: TableColumns, grid: Grid): (layout: number) => string {
  const before = cellStarts(kind, names);
  const variables = values.map((axis) => axis.map(String));
  return (layout) => {
    const places = placesOf(grid, layout);
    let text = before[0] + layout;
    for (let axis = 0; axis < places.length; axis++) text += before[axis + 1] + variables[axis][places[axis]];
    return text;
  };
}

/** The lines of consecutive layouts; `rows` holds {@link FIGURE_COUNT} numbers each. */
export function tableLines(
  kind: TableKind,
  columns: TableColumns,
  grid: Grid,
  first: number,
  rows: Float64Array,
): string {
  const start = lineStart(kind, columns, grid);
  const before = cellStarts(kind, columns.names).slice(grid.length + 1);
  const after = lineEnd(kind);
  let text = '';
  for (let n = 0; n * FIGURE_COUNT < rows.length; n++) {
    text += start(first + n);
    for (let column = 0; column < FIGURE_COUNT; column++) {
      text += before[column] + figureCell(kind, FIGURE_NAMES[column], rows[n * FIGURE_COUNT + column]);
    }
    text += `${after}\n`;
  }
  return text;
}

/** What stands before each cell of a line. */
export const cellStarts = (kind: TableKind, names: readonly string[]): readonly string[] =>
  names.map((name, k) => (kind === 'ndjson' ? `${k === 0 ? '{' : ','}"${name}":` : k === 0 ? '' : ','));

/** What stands behind the last cell of a line. */
export const lineEnd = (kind: TableKind): string => (kind === 'ndjson' ? '}' : '');

/** A number as it is written in a table. */
const NUMBER = '-?\\d+(?:\\.\\d+)?(?:e[+-]\\d+)?';

/** What a cell of a variable may hold, as the source of a regular expression. */
export const VARIABLE_CELL = NUMBER;

/** The same of each figure's cell, in their order. */
export const figureCells = (kind: TableKind): readonly string[] =>
  FIGURE_NAMES.map((figure) =>
    FIGURES[figure].kind === 'yesNo' ? '(?:true|false)' : kind === 'csv' ? `(?:${NUMBER})?` : `(?:${NUMBER}|null)`,
  );

/** A number that a table cannot hold (an infinite condition) is null in JSON and empty in CSV. */
function figureCell(kind: TableKind, figure: FigureName, value: number): string {
  if (FIGURES[figure].kind === 'yesNo') return value === 1 ? 'true' : 'false';
  const shown = value * FIGURES[figure].scale;
  if (Number.isFinite(shown)) return String(shown);
  return kind === 'csv' ? '' : 'null';
}
