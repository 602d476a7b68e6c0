import { contours } from 'd3-contour';

/** One line of equal value; points run x, y, x, y in cell units, 0.5 being the middle of the first cell. */
export interface ContourLine {
  readonly value: number;
  readonly points: Float32Array;
}

/**
 * Lines of equal value through a lattice, by marching squares with linear interpolation. The library closes every line along the
 * lattice's edge; those parts are left out. Cells without a value (NaN) count as lowest.
 * @param values row by row, x fastest
 */
export function contourLines(
  values: Float64Array,
  columns: number,
  rows: number,
  thresholds: readonly number[],
): readonly ContourLine[] {
  if (columns < 2 || rows < 2 || thresholds.length === 0) return [];
  const plain = Array.from(values);
  const draw = contours().size([columns, rows]);
  const lines: ContourLine[] = [];
  for (const value of thresholds) {
    for (const polygon of draw.contour(plain, value).coordinates) {
      for (const ring of polygon) {
        for (const points of inside(ring, columns, rows)) lines.push({ value, points });
      }
    }
  }
  return lines;
}

/** The pieces of a closed ring that do not lie on the lattice's edge. */
function inside(ring: readonly (readonly number[])[], columns: number, rows: number): readonly Float32Array[] {
  const onEdge = ([x, y]: readonly number[]) => x <= 0 || y <= 0 || x >= columns || y >= rows;
  const open = ring.slice(0, -1);
  const start = open.findIndex(onEdge);
  if (start < 0) return [Float32Array.from(ring.flat())];
  const pieces: Float32Array[] = [];
  let piece: number[] = [];
  for (let n = 1; n <= open.length; n++) {
    const point = open[(start + n) % open.length];
    if (!onEdge(point)) piece.push(...point);
    else {
      if (piece.length >= 4) pieces.push(Float32Array.from(piece));
      piece = [];
    }
  }
  return pieces;
}
