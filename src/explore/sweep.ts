import type { RingSpec } from '../kinematics/dimensions.ts';
import { withDimensions } from '../kinematics/dimensions.ts';
import { compileMechanism, mechanismBuffers } from '../kinematics/mechanism.ts';
import type { LongWork } from '../math/long-work.ts';
import { dimensionsAt, type Grid } from './grid.ts';
import { FIGURE_COUNT, type FigureOptions, LayoutFigures } from './layout-figures.ts';
import { firstTwin } from './twins.ts';

/** A grid of layouts around one design, and what to measure of each. */
export interface Sweep {
  readonly design: RingSpec;
  readonly grid: Grid;
  readonly options: FigureOptions;
}

/** Layouts between two looks at whether to stop: some milliseconds of work. */
const LAYOUTS_A_LOOK = 64;

/**
 * Figures of some layouts of a sweep, {@link FIGURE_COUNT} numbers each in the order of `indices`. Layouts that are one platform
 * under two names are measured under the first ({@link firstTwin}), so that their figures are the same.
 * When stopped early the rows done so far come back, whole.
 */
export function sweepRows(sweep: Sweep, indices: ArrayLike<number>, work: LongWork): Float64Array {
  const figures = new LayoutFigures(sweep.options);
  const buffers = mechanismBuffers();
  const rows = new Float64Array(indices.length * FIGURE_COUNT);
  for (let n = 0; n < indices.length; n++) {
    if (n % LAYOUTS_A_LOOK === 0) {
      work.report(n, indices.length);
      if (work.shouldStop()) return rows.slice(0, n * FIGURE_COUNT);
    }
    const spec = firstTwin(withDimensions(sweep.design, dimensionsAt(sweep.grid, indices[n])));
    figures.measure(compileMechanism(spec, buffers), rows, n * FIGURE_COUNT);
  }
  work.report(indices.length, indices.length);
  return rows;
}
