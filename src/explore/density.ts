import type { Domain } from './column-domain.ts';
import type { ColumnName, LayoutTable } from './layout-table.ts';

/** A picture of two columns: how many layouts fall into each cell of a lattice. */
export interface DensityQuestion {
  readonly x: ColumnName;
  readonly y: ColumnName;
  readonly columns: number;
  readonly rows: number;
}

/** Layouts a cell, x fastest, low y first: all known ones, and those that pass the ranges. */
export interface Density {
  readonly columns: number;
  readonly rows: number;
  readonly known: Uint32Array;
  readonly passing: Uint32Array;
  /** Passing layouts that lie off the axes. */
  readonly beyond: number;
  readonly xDomain: Domain;
  readonly yDomain: Domain;
}

/** Counts the layouts of a table into cells. */
export function density(
  table: LayoutTable,
  passing: Uint8Array,
  { x, y, columns, rows }: DensityQuestion,
  xDomain: Domain,
  yDomain: Domain,
): Density {
  const all = new Uint32Array(columns * rows);
  const through = new Uint32Array(columns * rows);
  const readX = table.reader(x);
  const readY = table.reader(y);
  const toColumn = cellOf(xDomain, columns);
  const toRow = cellOf(yDomain, rows);
  let beyond = 0;
  for (let index = 0; index < table.size; index++) {
    if (table.known[index] === 0) continue;
    const column = toColumn(readX(index));
    const row = toRow(readY(index));
    if (column < 0 || row < 0) {
      beyond += passing[index];
      continue;
    }
    const cell = row * columns + column;
    all[cell] += 1;
    through[cell] += passing[index];
  }
  return { columns, rows, known: all, passing: through, beyond, xDomain, yDomain };
}

/** The cell of a value on an axis; -1 outside and for what is no number. The upper end belongs to the last cell. */
export function cellOf({ low, high }: Domain, cells: number): (value: number) => number {
  const scale = high > low ? cells / (high - low) : 0;
  return (value) => {
    if (!(value >= low && value <= high)) return -1;
    return Math.min(cells - 1, Math.floor((value - low) * scale));
  };
}

/** Layouts of one column in equal steps of its axis. */
export interface Histogram {
  readonly name: ColumnName;
  readonly domain: Domain;
  readonly known: Uint32Array;
  readonly passing: Uint32Array;
}

/** Counts one column into bins; a value beyond an open end goes into the last. */
export function histogram(
  table: LayoutTable,
  passing: Uint8Array,
  name: ColumnName,
  domain: Domain,
  bins: number,
): Histogram {
  const all = new Uint32Array(bins);
  const through = new Uint32Array(bins);
  const read = table.reader(name);
  const toBin = cellOf(domain, bins);
  for (let index = 0; index < table.size; index++) {
    if (table.known[index] === 0) continue;
    const value = read(index);
    const bin = domain.open && value > domain.high ? bins - 1 : toBin(value);
    if (bin < 0) continue;
    all[bin] += 1;
    through[bin] += passing[index];
  }
  return { name, domain, known: all, passing: through };
}

/** The passing layout nearest to a point of a picture, both axes scaled to their own length; -1 when none is near. */
export function nearestLayout(
  table: LayoutTable,
  passing: Uint8Array,
  picture: { readonly x: ColumnName; readonly y: ColumnName; readonly xDomain: Domain; readonly yDomain: Domain },
  point: readonly [x: number, y: number],
  within: number,
): number {
  const readX = table.reader(picture.x);
  const readY = table.reader(picture.y);
  const scaleX = 1 / (picture.xDomain.high - picture.xDomain.low || 1);
  const scaleY = 1 / (picture.yDomain.high - picture.yDomain.low || 1);
  let best = -1;
  let least = within * within;
  for (let index = 0; index < table.size; index++) {
    if (passing[index] === 0) continue;
    const dx = (readX(index) - point[0]) * scaleX;
    const dy = (readY(index) - point[1]) * scaleY;
    const away = dx * dx + dy * dy;
    if (away < least) {
      least = away;
      best = index;
    }
  }
  return best;
}
