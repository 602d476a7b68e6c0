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
  const corner = (index: number): Point2 => [
    (positions[3 * index] - left) / cell,
    (-positions[3 * index + up] - top) / cell,
  ];
  for (let t = 0; t < indices.length; t += 3) {
    fillTriangle(cover, columns, rows, corner(indices[t]), corner(indices[t + 1]), corner(indices[t + 2]));
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

/** Marks the cells whose middles a triangle covers, edges included. */
function fillTriangle(cover: Float64Array, columns: number, rows: number, a: Point2, b: Point2, c: Point2): void {
  const firstRow = Math.max(0, Math.ceil(Math.min(a[1], b[1], c[1]) - 0.5));
  const lastRow = Math.min(rows - 1, Math.floor(Math.max(a[1], b[1], c[1]) - 0.5));
  for (let row = firstRow; row <= lastRow; row++) {
    const y = row + 0.5;
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const [p, q] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      if (Math.min(p[1], q[1]) > y || Math.max(p[1], q[1]) < y) continue;
      const x = p[1] === q[1] ? p[0] : p[0] + ((y - p[1]) * (q[0] - p[0])) / (q[1] - p[1]);
      low = Math.min(low, x);
      high = Math.max(high, x, p[1] === q[1] ? q[0] : x);
    }
    const first = Math.max(0, Math.ceil(low - 0.5));
    const last = Math.min(columns - 1, Math.floor(high - 0.5));
    for (let column = first; column <= last; column++) cover[row * columns + column] = 1;
  }
}
