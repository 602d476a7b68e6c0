/** A point in a plane [mm]. */
export type Point2 = readonly [number, number];

/**
 * Convex hull, counter-clockwise, without points inside an edge (A. M. Andrew's monotone chain, 1979). Points in a line give
 * their two ends; a single place gives one point.
 */
export function convexHull(points: readonly Point2[]): readonly Point2[] {
  const sorted = [...points]
    .sort((a, b) => a[0] - b[0] || a[1] - b[1])
    .filter((point, i, all) => i === 0 || point[0] !== all[i - 1][0] || point[1] !== all[i - 1][1]);
  const lower = chain(sorted);
  const upper = chain(sorted.toReversed());
  const hull = [...lower.slice(0, -1), ...upper.slice(0, -1)];
  return hull.length > 0 ? hull : sorted.slice(0, 1);
}

function chain(points: readonly Point2[]): Point2[] {
  const kept: Point2[] = [];
  for (const point of points) {
    while (kept.length >= 2 && turn(kept[kept.length - 2], kept[kept.length - 1], point) <= 0) kept.pop();
    kept.push(point);
  }
  return kept;
}

/** Twice the area of the triangle, positive for a left turn. */
const turn = (a: Point2, b: Point2, c: Point2): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
