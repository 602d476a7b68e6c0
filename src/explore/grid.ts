import type { Dimensions } from '../kinematics/dimensions.ts';
import type { DimensionName } from '../terms/dimensions.ts';

/** One dimension of a grid: its values in order [mm, rad or ratio]. */
export interface GridAxis {
  readonly name: DimensionName;
  readonly values: Float64Array;
}

/** A grid of layouts; a layout's index counts through it with the last axis fastest. */
export type Grid = readonly GridAxis[];

/** Evenly spaced values from one end to the other, both included; one value alone is the start. */
export const evenly = (from: number, to: number, count: number): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => (count === 1 ? from : from + ((to - from) * n) / (count - 1)));

/** Number of layouts. */
export const gridSize = (grid: Grid): number => grid.reduce((product, axis) => product * axis.values.length, 1);

/** Place of a layout on every axis. */
export function placesOf(grid: Grid, index: number): readonly number[] {
  const places = new Array<number>(grid.length);
  let rest = index;
  for (let axis = grid.length - 1; axis >= 0; axis--) {
    const count = grid[axis].values.length;
    places[axis] = rest % count;
    rest = Math.floor(rest / count);
  }
  return places;
}

/** Inverse of {@link placesOf}. */
export const indexOf = (grid: Grid, places: readonly number[]): number =>
  grid.reduce((index, axis, n) => index * axis.values.length + places[n], 0);

/** The dimensions of one layout of the grid. */
export function dimensionsAt(grid: Grid, index: number): Dimensions {
  const places = placesOf(grid, index);
  return Object.fromEntries(grid.map((axis, n) => [axis.name, axis.values[places[n]]]));
}

/**
 * All indices, coarse grids first: those whose places are all multiples of a large power of two, then of half that, and
 * so on down to one, each index once. The first few hundred already span every axis.
 */
export function coarseFirst(grid: Grid): Uint32Array {
  const order = new Uint32Array(gridSize(grid));
  const longest = grid.reduce((most, axis) => Math.max(most, axis.values.length), 1);
  let stride = 1;
  while (stride * 2 < longest) stride *= 2;
  let filled = 0;
  for (let step = stride; step >= 1; step /= 2) {
    const coarsest = step === stride;
    visitMultiples(grid, step, (index, allCoarser) => {
      if (coarsest || !allCoarser) order[filled++] = index;
    });
  }
  return order;
}

/** Visits the indices whose places are multiples of `step`, saying whether all are multiples of twice that. */
function visitMultiples(grid: Grid, step: number, visit: (index: number, allCoarser: boolean) => void): void {
  const walk = (axis: number, index: number, allCoarser: boolean): void => {
    if (axis === grid.length) {
      visit(index, allCoarser);
      return;
    }
    const count = grid[axis].values.length;
    for (let place = 0; place < count; place += step) {
      walk(axis + 1, index * count + place, allCoarser && place % (2 * step) === 0);
    }
  };
  walk(0, 0, true);
}
