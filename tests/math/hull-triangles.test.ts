import { describe, expect, it } from 'vitest';
import { hullTriangles } from '../../src/math/hull-triangles.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { solidMoments } from '../../src/math/solid-moments.ts';

const momentsOf = (points: readonly number[]) => {
  const corners = hullTriangles(points);
  return corners && solidMoments(corners.flatMap((n) => points.slice(3 * n, 3 * n + 3)));
};

/** Corners of a box and, on request, a grid of points in its faces, edges and inside. */
const grid = (steps: number, [a, b, c]: readonly number[]): number[] => {
  const points: number[] = [];
  for (let i = 0; i <= steps; i++)
    for (let j = 0; j <= steps; j++)
      for (let k = 0; k <= steps; k++) points.push((a * i) / steps, (b * j) / steps, (c * k) / steps);
  return points;
};

describe('the hull of points', () => {
  it.each([1, 2, 3, 4])('of a box filled with a grid of %i steps has the moments of the box', (steps) => {
    const [a, b, c] = [30, 20, 10];
    const found = momentsOf(grid(steps, [a, b, c]));
    if (!found) throw new Error('no solid');
    expect(found.volume / (a * b * c)).toBeCloseTo(1, 12);
    [a / 2, b / 2, c / 2].forEach((middle, axis) => expect(found.centroid[axis]).toBeCloseTo(middle, 10));
    // V a^2 / 12 along each axis, nothing between them
    const second = [a * a, b * b, c * c].map((square) => (a * b * c * square) / 12);
    second.forEach((value, axis) => expect(found.second[axis] / value).toBeCloseTo(1, 12));
    for (const product of found.second.slice(3)) expect(Math.abs(product) / second[0]).toBeLessThan(1e-12);
  });

  it('has every point on or behind each of its faces (200 point sets, seed 71)', () => {
    const random = seededRandom(71);
    for (let n = 0; n < 200; n++) {
      const count = 4 + Math.floor(40 * random());
      // every third set on whole numbers, so that many points share planes, lines and places
      const points = Array.from({ length: 3 * count }, () => {
        const value = uniform(random, -3, 3);
        return n % 3 === 0 ? Math.round(value) : value;
      });
      const corners = hullTriangles(points);
      if (!corners) continue;
      for (let f = 0; f < corners.length; f += 3) {
        const [a, b, c] = [0, 1, 2].map((k) => points.slice(3 * corners[f + k], 3 * corners[f + k] + 3));
        const u = b.map((value, axis) => value - a[axis]);
        const v = c.map((value, axis) => value - a[axis]);
        const normal = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
        for (let p = 0; p < points.length; p += 3) {
          const above = normal.reduce((sum, entry, axis) => sum + entry * (points[p + axis] - a[axis]), 0);
          // a point may stay outside by the nudge, 1e-7 of a size of some 10, times the area of the face
          expect(above).toBeLessThan(1e-5);
        }
      }
    }
  });

  it('is nothing for points in a plane, on a line or in one place', () => {
    expect(hullTriangles([0, 0, 0, 1, 0, 0, 0, 1, 0, 1, 1, 0, 3, 2, 0])).toBeNull();
    expect(hullTriangles([0, 0, 0, 1, 1, 1, 2, 2, 2, 5, 5, 5])).toBeNull();
    expect(hullTriangles([1, 2, 3, 1, 2, 3, 1, 2, 3, 1, 2, 3])).toBeNull();
    expect(hullTriangles([1, 2, 3])).toBeNull();
  });

  for (const size of [1e-3, 1, 1e3])
    it(`scales (x${size}): a corner of a cube, V = s^3 / 6 and second moments 3 s^5 / 480 and -s^5 / 480`, () => {
      // tetrahedron on three unit axes about its centroid: integral of (x - 1/4)^2 is 1/60 - 1/96, of (x - 1/4) (y - 1/4) 1/120 - 1/96
      const found = momentsOf([0, 0, 0, size, 0, 0, 0, size, 0, 0, 0, size]);
      if (!found) throw new Error('no solid');
      expect((6 * found.volume) / size ** 3).toBeCloseTo(1, 12);
      const expected = [
        1 / 60 - 1 / 96,
        1 / 60 - 1 / 96,
        1 / 60 - 1 / 96,
        1 / 120 - 1 / 96,
        1 / 120 - 1 / 96,
        1 / 120 - 1 / 96,
      ];
      expected.forEach((value, n) => expect(found.second[n] / size ** 5 / value).toBeCloseTo(1, 10));
    });
});
