import { contours } from 'd3-contour';
import type { ReachSurface } from '../../jobs/reach-picture.ts';
import type { Point2 } from '../shape/convex-hull.ts';
import { type FlatViewName, upwardAxis } from './projection.ts';

/** Cells along the longer side of the grid on which a shell's shadow is collected. */
const CELLS = 180;

/** Empty cells round the shadow, so that every outline closes. */
const BORDER = 2;

/**
 * Outlines of a shell's shadow in a view, holes and separate parts included [mm, y down]. The triangles' shadows are
 * collected on a grid and traced with marching squares (d3-contour), so the outline is good to about half a cell.
 */
export function silhouette(
  shell: Pick<ReachSurface, 'positions' | 'indices'>,
  view: FlatViewName,
  cells = CELLS,
): readonly (readonly Point2[])[] {
  const up = upwardAxis(view);
  const { positions, indices } = shell;
  if (indices.length === 0) return [];
  const box = shadowBox(positions, up);
  const cell = Math.max(box.width, box.height, 1e-6) / cells;
  const columns = Math.ceil(box.width / cell) + 2 * BORDER;
  const rows = Math.ceil(box.height / cell) + 2 * BORDER;
  const left = box.left - BORDER * cell;
  const top = box.top - BORDER * cell;
  const cover = new Float64Array(columns * rows);
  const x = (index: number): number => (positions[3 * index] - left) / cell;
  const y = (index: number): number => (-positions[3 * index + up] - top) / cell;
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [indices[t], indices[t + 1], indices[t + 2]];
    fillTriangle(cover, columns, rows, x(a), y(a), x(b), y(b), x(c), y(c));
  }
  const [traced] = contours().size([columns, rows]).thresholds([0.5])(Array.from(cover));
  return traced.coordinates.flatMap((polygon) =>
    polygon.map((ring) => ring.map(([x, y]): Point2 => [left + x * cell, top + y * cell])),
  );
}

function shadowBox(positions: Float64Array, up: 1 | 2) {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity];
  for (let i = 0; i < positions.length; i += 3) {
    left = Math.min(left, positions[i]);
    right = Math.max(right, positions[i]);
    top = Math.min(top, -positions[i + up]);
    bottom = Math.max(bottom, -positions[i + up]);
  }
  return { left, top, width: right - left, height: bottom - top };
}

/** Marks the cells whose middles a triangle covers, edges included. A shell has ten thousand triangles, so nothing is allocated. */
function fillTriangle(
  cover: Float64Array,
  columns: number,
  rows: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
): void {
  const firstRow = Math.max(0, Math.ceil(Math.min(ay, by, cy) - 0.5));
  const lastRow = Math.min(rows - 1, Math.floor(Math.max(ay, by, cy) - 0.5));
  for (let row = firstRow; row <= lastRow; row++) {
    const y = row + 0.5;
    SPAN[0] = Number.POSITIVE_INFINITY;
    SPAN[1] = Number.NEGATIVE_INFINITY;
    widen(ax, ay, bx, by, y);
    widen(bx, by, cx, cy, y);
    widen(cx, cy, ax, ay, y);
    const first = Math.max(0, Math.ceil(SPAN[0] - 0.5));
    const last = Math.min(columns - 1, Math.floor(SPAN[1] - 0.5));
    for (let column = first; column <= last; column++) cover[row * columns + column] = 1;
  }
}

/** From where to where a triangle covers the row being filled. */
const SPAN = new Float64Array(2);

/** Widens {@link SPAN} by where an edge from p to q meets a height. */
function widen(px: number, py: number, qx: number, qy: number, y: number): void {
  if ((py > y && qy > y) || (py < y && qy < y)) return;
  const x = py === qy ? px : px + ((y - py) * (qx - px)) / (qy - py);
  SPAN[0] = Math.min(SPAN[0], x);
  SPAN[1] = Math.max(SPAN[1], py === qy ? Math.max(px, qx) : x);
  if (py === qy) SPAN[0] = Math.min(SPAN[0], qx);
}
