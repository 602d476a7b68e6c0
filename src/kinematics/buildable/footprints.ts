import type { Footprint } from './spec.ts';

/** Where a footprint stands on its plate [mm], and which way its ray points [rad]. */
export interface Foot {
  readonly x: number;
  readonly y: number;
  readonly azimuth: number;
}

/**
 * Signed gap of two footprints [mm]; below zero by how far one must move for them to be clear. Circles: exact. Rectangles: the largest
 * separation along any of their sides, and beyond it from corner to corner; exact too.
 */
export function footprintGap(shape: Footprint, a: Foot, b: Foot): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  if (shape.kind === 'circle') return Math.sqrt(dx * dx + dy * dy) - shape.diameter;
  const [one, other] = [cornersOf(shape, a), cornersOf(shape, b)];
  const apart = Math.max(separation(one, other), separation(other, one));
  return apart <= 0 ? apart : Math.min(cornerDistance(one, other), cornerDistance(other, one));
}

type Corners = readonly (readonly [x: number, y: number])[];

function cornersOf(shape: Extract<Footprint, { kind: 'rectangle' }>, { x, y, azimuth }: Foot): Corners {
  const [c, s] = [Math.cos(azimuth + shape.turn), Math.sin(azimuth + shape.turn)];
  const [u, v] = [shape.along / 2, shape.across / 2];
  return [
    [x + c * u - s * v, y + s * u + c * v],
    [x - c * u - s * v, y - s * u + c * v],
    [x - c * u + s * v, y - s * u - c * v],
    [x + c * u + s * v, y + s * u - c * v],
  ];
}

/** Largest distance by which all of `other` lies beyond one side of `own` (counter-clockwise); below zero where they overlap. */
function separation(own: Corners, other: Corners): number {
  let most = Number.NEGATIVE_INFINITY;
  own.forEach(([ax, ay], n) => {
    const [bx, by] = own[(n + 1) % own.length];
    const length = Math.hypot(bx - ax, by - ay);
    const [nx, ny] = [(by - ay) / length, (ax - bx) / length];
    most = Math.max(most, Math.min(...other.map(([x, y]) => nx * (x - ax) + ny * (y - ay))));
  });
  return most;
}

/** Least distance from a corner of one to a side of the other. */
function cornerDistance(corners: Corners, sides: Corners): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [x, y] of corners) {
    sides.forEach(([ax, ay], n) => {
      const [bx, by] = sides[(n + 1) % sides.length];
      const [ex, ey] = [bx - ax, by - ay];
      const t = Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey)));
      least = Math.min(least, Math.hypot(x - ax - t * ex, y - ay - t * ey));
    });
  }
  return least;
}

/** Least gap angle [rad] of a pair of round bodies on a ring: they stand `spacing` apart. Null where the ring is too small for it. */
export function leastPairGap(radius: number, diameter: number, spacing: number): number | null {
  const sine = (diameter + spacing) / (2 * radius);
  return sine <= 1 ? 2 * Math.asin(sine) : null;
}

/** Web between neighbouring holes of a circle [mm]. */
export const holeWeb = (radius: number, count: number, diameter: number): number =>
  2 * radius * Math.sin(Math.PI / count) - diameter;
