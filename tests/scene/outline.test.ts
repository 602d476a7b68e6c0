import { describe, expect, it } from 'vitest';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { convexHull, type Point2 } from '../../src/scene/shape/convex-hull.ts';
import { OUTLINE_CORNERS, plateOutline, roundedOutline } from '../../src/scene/shape/plate-outline.ts';

const cross = (a: Point2, b: Point2, c: Point2) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Distance of a point from a segment. */
function distanceTo(p: Point2, a: Point2, b: Point2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

const randomPoints = (seed: number, count: number): Point2[] => {
  const random = seededRandom(seed);
  return Array.from({ length: count }, (): Point2 => [uniform(random, -80, 80), uniform(random, -80, 80)]);
};

describe('convex hull', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])('keeps just the points that some line leaves on one side, seed %i', (seed) => {
    const points = randomPoints(seed, 9);
    const hull = convexHull(points);
    // by definition: a point is a corner when a line through it and another has all points on one side
    const corners = points.filter((p) =>
      points.some((q) => q !== p && points.every((r) => r === p || r === q || cross(p, q, r) > 0)),
    );
    expect(new Set(hull)).toEqual(new Set(corners));
    hull.forEach((point, i) => {
      expect(cross(point, hull[(i + 1) % hull.length], hull[(i + 2) % hull.length])).toBeGreaterThan(0);
    });
  });

  it('gives the ends of points in a line, and one point for one place', () => {
    expect(
      convexHull([
        [0, 0],
        [2, 2],
        [1, 1],
      ]),
    ).toEqual([
      [0, 0],
      [2, 2],
    ]);
    expect(
      convexHull([
        [3, 4],
        [3, 4],
      ]),
    ).toEqual([[3, 4]]);
  });
});

describe('plate outline', () => {
  it.each([11, 12, 13, 14, 15, 16])('runs at the margin round the hull, seed %i', (seed) => {
    const points = randomPoints(seed, 6);
    const hull = convexHull(points);
    const { corners, normals } = roundedOutline(hull, 7);
    expect(corners).toHaveLength(2 * OUTLINE_CORNERS);
    for (let i = 0; i < OUTLINE_CORNERS; i++) {
      const corner: Point2 = [corners[2 * i], corners[2 * i + 1]];
      const nearest = Math.min(...hull.map((a, k) => distanceTo(corner, a, hull[(k + 1) % hull.length])));
      expect(nearest).toBeCloseTo(7, 9);
      const next: Point2 = [corners[(2 * i + 2) % corners.length], corners[(2 * i + 3) % corners.length]];
      for (const joint of points) expect(cross(corner, next, joint)).toBeGreaterThan(0);
      expect(Math.hypot(normals[2 * i], normals[2 * i + 1])).toBeCloseTo(1, 12);
    }
  });

  it('stands round two places and round a single one', () => {
    const { corners } = roundedOutline(
      [
        [0, 0],
        [10, 0],
      ],
      5,
    );
    expect(Math.max(...corners.filter((_, i) => i % 2 === 0))).toBeCloseTo(15, 1);
    const single = roundedOutline([[4, 6]], 5).corners;
    for (let i = 0; i < single.length; i += 2) expect(Math.hypot(single[i] - 4, single[i + 1] - 6)).toBeCloseTo(5, 12);
  });

  it('is a circle for joints on a circle', () => {
    const { corners } = plateOutline(new Float64Array(18), 12, 100);
    for (let i = 0; i < corners.length; i += 2) expect(Math.hypot(corners[i], corners[i + 1])).toBeCloseTo(112, 10);
  });
});
