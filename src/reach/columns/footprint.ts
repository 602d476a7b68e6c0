import type { Box } from './bounding-box.ts';
import { ACROSS, type Direction } from './column-cutter.ts';
import type { ColumnLattice, Footprint, Rectangle } from './column-lattice.ts';
import type { ThreeFoldMirror } from './symmetry.ts';

const ROW_HEIGHT = Math.sqrt(3) / 2;

/** What columns of one direction must cover to cover a box. */
export function rectangleOf(box: Box, direction: Direction): Rectangle {
  const [u, v] = ACROSS[direction];
  return { kind: 'rectangle', lowU: box[u], lowV: box[v], highU: box[3 + u], highV: box[3 + v] };
}

/** A wedge of z columns whose six copies cover a box; the reach lies in the box and shares the symmetry. */
export function wedgeOf(box: Box, { x, y, angle }: ThreeFoldMirror): Footprint {
  // The reach also lies in the box's two copies turned by a third, so its radius is at most the lesser half diagonal's.
  const alongX = Math.max(Math.abs(box[0] - x), Math.abs(box[3] - x));
  const alongY = Math.max(Math.abs(box[1] - y), Math.abs(box[4] - y));
  return { kind: 'wedge', u: x, v: y, angle, radius: Math.hypot(alongX, alongY) };
}

/** Area covered [mm^2], counting all six copies of a wedge. */
export const footprintArea = (footprint: Footprint): number =>
  footprint.kind === 'wedge'
    ? Math.PI * footprint.radius ** 2
    : (footprint.highU - footprint.lowU) * (footprint.highV - footprint.lowV);

/** The spacing at which about `columns` columns (six copies of a wedge counted) cover a footprint [mm]. */
export const spacingFor = (footprint: Footprint, columns: number): number =>
  Math.sqrt(footprintArea(footprint) / (columns * ROW_HEIGHT));

/** The part of a lattice's footprint with reach, and one spacing around it; the lattice must have hits. */
export function tightened(lattice: ColumnLattice, footprint: Footprint): Footprint {
  const { us, vs, firsts, columnCount, spacing } = lattice;
  if (footprint.kind === 'wedge') {
    let square = 0;
    for (let column = 0; column < columnCount; column++) {
      if (firsts[column] < firsts[column + 1]) {
        square = Math.max(square, (us[column] - footprint.u) ** 2 + (vs[column] - footprint.v) ** 2);
      }
    }
    return { ...footprint, radius: Math.min(footprint.radius, Math.sqrt(square) + spacing) };
  }
  let lowU = Number.POSITIVE_INFINITY;
  let lowV = Number.POSITIVE_INFINITY;
  let highU = Number.NEGATIVE_INFINITY;
  let highV = Number.NEGATIVE_INFINITY;
  for (let column = 0; column < columnCount; column++) {
    if (firsts[column] === firsts[column + 1]) continue;
    lowU = Math.min(lowU, us[column]);
    highU = Math.max(highU, us[column]);
    lowV = Math.min(lowV, vs[column]);
    highV = Math.max(highV, vs[column]);
  }
  return {
    kind: 'rectangle',
    lowU: Math.max(footprint.lowU, lowU - spacing),
    lowV: Math.max(footprint.lowV, lowV - spacing),
    highU: Math.min(footprint.highU, highU + spacing),
    highV: Math.min(footprint.highV, highV + spacing),
  };
}

/**
 * A footprint made larger, within `limit`, on every side where the lattice's columns next to its edge have reach; the same
 * object when there is none.
 */
export function widened(lattice: ColumnLattice, footprint: Footprint, limit: Footprint): Footprint {
  const { us, vs, firsts, columnCount, spacing } = lattice;
  const near = 0.9 * spacing;
  if (footprint.kind === 'wedge') {
    if (limit.kind !== 'wedge' || footprint.radius >= limit.radius) return footprint;
    const edge = footprint.radius - near;
    for (let column = 0; column < columnCount; column++) {
      if (firsts[column] === firsts[column + 1]) continue;
      if (Math.hypot(us[column] - footprint.u, vs[column] - footprint.v) > edge) {
        return { ...footprint, radius: Math.min(limit.radius, WIDENING * footprint.radius) };
      }
    }
    return footprint;
  }
  if (limit.kind !== 'rectangle') return footprint;
  let { lowU, lowV, highU, highV } = footprint;
  const growU = (WIDENING - 1) * (highU - lowU);
  const growV = (WIDENING - 1) * (highV - lowV);
  for (let column = 0; column < columnCount; column++) {
    if (firsts[column] === firsts[column + 1]) continue;
    if (us[column] < footprint.lowU + near) lowU = Math.max(limit.lowU, footprint.lowU - growU);
    if (us[column] > footprint.highU - near) highU = Math.min(limit.highU, footprint.highU + growU);
    if (vs[column] < footprint.lowV + near) lowV = Math.max(limit.lowV, footprint.lowV - growV);
    if (vs[column] > footprint.highV - near) highV = Math.min(limit.highV, footprint.highV + growV);
  }
  const same =
    lowU === footprint.lowU && lowV === footprint.lowV && highU === footprint.highU && highV === footprint.highV;
  return same ? footprint : { kind: 'rectangle', lowU, lowV, highU, highV };
}

/** Growth of a footprint whose edge turned out to have reach. */
const WIDENING = 1.2;
