import { type ScaleLinear, scaleLinear } from 'd3-scale';
import type { Grid } from '../../explore/grid.ts';
import type { HeatSlice, SliceQuestion } from '../../explore/heat-slice.ts';
import type { SingularLine } from '../../explore/singular-line.ts';
import { columnWords } from '../../state/explore/explore-columns.ts';
import type { DimensionName } from '../../terms/dimensions.ts';
import type { Point } from './usePictureDrag.ts';

/** Room around a plot for its axes [px]. */
export const HEAT_MARGIN = { left: 50, right: 62, top: 8, bottom: 38 } as const;

/** Where a heat map's cells are on screen. Pixels count from the plot's upper left corner; values are in shown units. */
export interface HeatGeometry {
  readonly width: number;
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
  /** Shown value to pixel, middles of the outer cells half a cell from the edge. */
  readonly x: ScaleLinear<number, number>;
  readonly y: ScaleLinear<number, number>;
}

export function heatGeometry(
  { xPlaces, yPlaces }: Pick<HeatSlice, 'xPlaces' | 'yPlaces'>,
  question: Pick<SliceQuestion, 'x' | 'y'>,
  grid: Grid,
  width: number,
  height: number,
): HeatGeometry {
  const columns = xPlaces.length;
  const rows = yPlaces.length;
  const halfX = width / columns / 2;
  const halfY = height / rows / 2;
  return {
    width,
    height,
    columns,
    rows,
    x: scaleLinear(shownEnds(grid, question.x, xPlaces), [halfX, width - halfX]),
    y: scaleLinear(shownEnds(grid, question.y, yPlaces), [height - halfY, halfY]),
  };
}

/** First and last shown value of an axis; a single value gets some room on both sides. */
function shownEnds(grid: Grid, name: DimensionName, places: Uint32Array): readonly [number, number] {
  const values = grid.find((axis) => axis.name === name)?.values ?? new Float64Array(1);
  const { scale } = columnWords(name);
  const low = values[places[0]] * scale;
  const high = values[places[places.length - 1]] * scale;
  return high > low ? [low, high] : [low - 0.5, low + 0.5];
}

/** Column and row of the cell under a point; null outside. */
export function cellAt(
  { width, height, columns, rows }: HeatGeometry,
  [x, y]: Point,
): readonly [number, number] | null {
  const column = Math.floor((x / width) * columns);
  const row = Math.floor((1 - y / height) * rows);
  return column >= 0 && column < columns && row >= 0 && row < rows ? [column, row] : null;
}

/** Middle of a cell [px]. */
export const middleOf = ({ width, height, columns, rows }: HeatGeometry, column: number, row: number): Point => [
  ((column + 0.5) / columns) * width,
  (1 - (row + 0.5) / rows) * height,
];

/** An svg path through points in cell units (0.5: middle of the first cell). */
export function cellPath({ width, height, columns, rows }: HeatGeometry, points: Float32Array): string {
  return pathOf(
    points,
    (x) => (x / columns) * width,
    (y) => (1 - y / rows) * height,
  );
}

/** An svg path through points given as shares of the axes, 0 at the middle of the first cell. */
export function sharePath(geometry: HeatGeometry, points: SingularLine['lines'][number]): string {
  const { columns, rows } = geometry;
  return cellPath(
    geometry,
    points.map((share, n) => 0.5 + share * ((n % 2 === 0 ? columns : rows) - 1)),
  );
}

/** An svg path around the marked cells, row by row, neighbours in one piece. */
export function blockedPath({ width, height, columns, rows }: HeatGeometry, blocked: Uint8Array): string {
  let path = '';
  for (let row = 0; row < rows; row++) {
    const top = (1 - (row + 1) / rows) * height;
    for (let column = 0; column < columns; column++) {
      if (blocked[row * columns + column] === 0) continue;
      const from = column;
      while (column < columns && blocked[row * columns + column] === 1) column++;
      const [left, wide] = [(from / columns) * width, ((column - from) / columns) * width];
      path += `M${left.toFixed(1)} ${top.toFixed(1)}h${wide.toFixed(1)}v${(height / rows).toFixed(1)}h${(-wide).toFixed(1)}Z`;
    }
  }
  return path;
}

function pathOf(points: Float32Array, toX: (x: number) => number, toY: (y: number) => number): string {
  let path = '';
  for (let n = 0; n < points.length; n += 2) {
    path += `${n === 0 ? 'M' : 'L'}${toX(points[n]).toFixed(1)} ${toY(points[n + 1]).toFixed(1)}`;
  }
  return path;
}
