import { ticks } from 'd3-array';
import type { DimensionName } from '../terms/dimensions.ts';
import type { FigureName } from '../terms/figures.ts';
import type { Domain } from './column-domain.ts';
import { type ContourLine, contourLines } from './contour-lines.ts';
import type { LayoutTable } from './layout-table.ts';

/** A plane through a grid: two dimensions vary, the others stand at given places. */
export interface SliceQuestion {
  readonly x: DimensionName;
  readonly y: DimensionName;
  readonly figure: FigureName;
  /** Place on every axis of the grid, in its order; those of x and y are not read. */
  readonly places: readonly number[];
}

/** How a cell's value came about: not at all, from the nearest coarser layout, or measured itself. */
export const CELL = { empty: 0, coarse: 1, measured: 2 } as const;

/** One figure over two dimensions. Cells run along x first; `xPlaces` and `yPlaces` are their places on the axes. */
export interface HeatSlice {
  readonly xPlaces: Uint32Array;
  readonly yPlaces: Uint32Array;
  readonly values: Float64Array;
  /** {@link CELL} of each. */
  readonly state: Uint8Array;
  /** 1 where the layout passes the ranges. */
  readonly passes: Uint8Array;
  /** 1 where the layout is known and cannot be built. */
  readonly blocked: Uint8Array;
  /** Lines of equal figure in cell units: 0.5 is the middle of the first cell. */
  readonly contours: readonly ContourLine[];
  readonly domain: Domain | null;
}

/** Most cells along one side; a finer axis is shown in steps. */
const MOST_CELLS = 400;

/** About how many lines of equal figure are drawn. */
const CONTOURS = 7;

/** Takes a slice out of a table. The domain colours it and spaces the contours; null leaves them out. */
export function heatSlice(
  table: LayoutTable,
  passing: Uint8Array,
  question: SliceQuestion,
  domain: Domain | null,
): HeatSlice {
  const { grid } = table;
  const xAxis = grid.findIndex(({ name }) => name === question.x);
  const yAxis = grid.findIndex(({ name }) => name === question.y);
  const xPlaces = shownPlaces(grid[xAxis].values.length);
  const yPlaces = shownPlaces(grid[yAxis].values.length);
  const count = xPlaces.length * yPlaces.length;
  const values = new Float64Array(count).fill(Number.NaN);
  const state = new Uint8Array(count);
  const passes = new Uint8Array(count);
  const blocked = new Uint8Array(count);
  const figure = table.figure(question.figure);
  const buildable = table.figure('buildable');
  const places = Uint32Array.from(question.places);
  const find = knownLayout(table);
  for (let row = 0, cell = 0; row < yPlaces.length; row++) {
    places[yAxis] = yPlaces[row];
    for (let column = 0; column < xPlaces.length; column++, cell++) {
      places[xAxis] = xPlaces[column];
      const index = find(places);
      if (index < 0) continue;
      values[cell] = figure[index];
      passes[cell] = passing[index];
      blocked[cell] = buildable[index] === 1 ? 0 : 1;
      state[cell] = find.exact ? CELL.measured : CELL.coarse;
    }
  }
  const thresholds = domain ? ticks(domain.low, domain.high, CONTOURS) : [];
  const contours = contourLines(values, xPlaces.length, yPlaces.length, thresholds);
  return { xPlaces, yPlaces, values, state, passes, blocked, contours, domain };
}

/** Every place of an axis, or every second, third and so on of a long one. */
export function shownPlaces(count: number): Uint32Array {
  const step = Math.ceil(count / MOST_CELLS);
  return Uint32Array.from({ length: Math.ceil(count / step) }, (_, n) => n * step);
}

interface KnownLayout {
  (places: Uint32Array): number;
  exact: boolean;
}

/**
 * The index of the layout at some places, or while that is not known of the nearest one below it in the finest coarser grid that
 * is: places rounded down to a multiple of 2, 4, 8 and so on, the grids that {@link coarseFirst} fills one after the other.
 * -1 when none is known yet.
 */
function knownLayout({ grid, known }: LayoutTable): KnownLayout {
  const counts = grid.map(({ values }) => values.length);
  const longest = Math.max(...counts);
  const find: KnownLayout = (places) => {
    for (let step = 1; step < 2 * longest; step *= 2) {
      let index = 0;
      for (let axis = 0; axis < counts.length; axis++) {
        index = index * counts[axis] + (places[axis] - (places[axis] % step));
      }
      if (known[index] === 1) {
        find.exact = step === 1;
        return index;
      }
    }
    return -1;
  };
  find.exact = false;
  return find;
}
