import type { Histogram } from '../../explore/density.ts';
import { dimensionsAt, type Grid } from '../../explore/grid.ts';
import { FIGURE_COUNT } from '../../explore/layout-figures.ts';
import { type ColumnName, isDimension } from '../../explore/layout-table.ts';
import type { Front } from '../../jobs/explore-table-jobs.ts';
import { FIGURE_NAMES } from '../../terms/figures.ts';
import type { Point } from './usePictureDrag.ts';

/** An upright axis of the ranges: one column, where it stands [px], and the height of its values [px]. */
export interface RangeAxis {
  readonly column: Histogram;
  readonly x: number;
  readonly y: { (value: number): number; invert(pixel: number): number };
}

/** A layout as a line across the axes: its height on each [px], NaN where its value is not known. */
export interface AcrossLine {
  readonly index: number;
  readonly heights: Float64Array;
}

/** Layouts of the front that are drawn as lines at most. */
const MOST_LINES = 120;

/** How near to a line a pointer has to be to mean it [px]. */
const NEAR = 9;

/** The line of one layout of a grid; `row` holds its figures, null while they are not known. */
export function lineAcross(
  axes: readonly RangeAxis[],
  grid: Grid,
  index: number,
  row: Float64Array | null,
): AcrossLine {
  const dimensions = dimensionsAt(grid, index);
  const read = (name: ColumnName): number =>
    (isDimension(name) ? dimensions[name] : row?.[FIGURE_NAMES.indexOf(name)]) ?? Number.NaN;
  const heights = Float64Array.from(axes, ({ column, y }) => y(Math.min(read(column.name), column.domain.high)));
  return { index, heights };
}

/** The lines of a front, at most {@link MOST_LINES} of it. */
export function frontAcross(axes: readonly RangeAxis[], grid: Grid, { indices, rows }: Front): readonly AcrossLine[] {
  const step = Math.max(1, Math.ceil(indices.length / MOST_LINES));
  return [...indices.keys()]
    .filter((n) => n % step === 0)
    .map((n) => lineAcross(axes, grid, indices[n], rows.subarray(n * FIGURE_COUNT, (n + 1) * FIGURE_COUNT)));
}

/** An svg path along a line; axes without a value are passed over. */
export function acrossPath(axes: readonly RangeAxis[], { heights }: AcrossLine): string {
  let path = '';
  axes.forEach(({ x }, n) => {
    if (Number.isNaN(heights[n])) return;
    path += `${path === '' ? 'M' : 'L'}${x.toFixed(1)} ${heights[n].toFixed(1)}`;
  });
  return path;
}

/** The line that runs nearest to a point, measured square to it; null when none is near. */
export function nearestLine(
  axes: readonly RangeAxis[],
  lines: readonly AcrossLine[],
  [x, y]: Point,
): AcrossLine | null {
  const right = axes.findIndex((axis) => axis.x >= x);
  const to = right < 0 ? axes.length - 1 : right;
  const from = right <= 0 ? to : right - 1;
  if (to < 0) return null;
  const gap = axes[to].x - axes[from].x;
  const share = gap > 0 ? (x - axes[from].x) / gap : 0;
  let nearest: AcrossLine | null = null;
  let least = NEAR;
  for (const line of lines) {
    const rise = line.heights[to] - line.heights[from];
    const away = Math.abs(y - line.heights[from] - share * rise) * (gap > 0 ? gap / Math.hypot(gap, rise) : 1);
    if (!(away < least)) continue;
    least = away;
    nearest = line;
  }
  return nearest;
}
