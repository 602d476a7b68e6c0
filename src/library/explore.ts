export { dimensionsAt, evenly, type Grid, type GridAxis, gridSize } from '../explore/grid.ts';
export { FIGURE_COUNT, type FigureOptions } from '../explore/layout-figures.ts';
export { namedFigures } from '../explore/optimise.ts';
export { type Objective, paretoFront } from '../explore/pareto.ts';
export { type Sweep, sweepRows } from '../explore/sweep.ts';
export { type LongWork, neverStop } from '../math/long-work.ts';
export { FIGURE_NAMES, type FigureName } from '../terms/figures.ts';
