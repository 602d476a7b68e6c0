import { describe, expect, it } from 'vitest';
import { uniformBody } from '../../../src/kinematics/uniform-body.ts';
import type { SolidMoments } from '../../../src/math/solid-moments.ts';
import type { Vec3 } from '../../../src/math/vec3.ts';
import { closedSolid } from '../../../src/state/mesh/closed-solid.ts';
import { weldCorners } from '../../../src/state/mesh/weld.ts';
import { boxTriangles } from './mesh-files.ts';

const closed = (triangles: readonly number[]) => {
  const flat = Float32Array.from(triangles);
  return closedSolid(flat, weldCorners(flat));
};

const hullBody = (corners: readonly Vec3[]) => {
  const body = uniformBody({ kind: 'hull', points: Float64Array.from(corners.flat()) });
  return body && { volume: body.volume, centroid: body.centre };
};

const moved = (triangles: readonly number[], by: Vec3): readonly number[] =>
  triangles.map((value, n) => value + by[n % 3]);

/** The same surface with every triangle facing the other way. */
const inward = (triangles: readonly number[]): readonly number[] =>
  Array.from({ length: triangles.length / 9 }, (_, t) => t).flatMap((t) => [
    ...triangles.slice(9 * t, 9 * t + 3),
    ...triangles.slice(9 * t + 6, 9 * t + 9),
    ...triangles.slice(9 * t + 3, 9 * t + 6),
  ]);

/** A cone of radius r and height h about the z axis, its rim a regular polygon of `count` corners. */
function cone(
  r: number,
  h: number,
  count: number,
): { readonly triangles: readonly number[]; readonly corners: readonly Vec3[] } {
  const rim = Array.from({ length: count }, (_, n): Vec3 => {
    const turn = (2 * Math.PI * n) / count;
    return [Math.fround(r * Math.cos(turn)), Math.fround(r * Math.sin(turn)), 0];
  });
  const triangles = rim.flatMap((corner, n) => {
    const next = rim[(n + 1) % count];
    return [...corner, ...next, 0, 0, h, ...next, ...corner, 0, 0, 0];
  });
  return { triangles, corners: [...rim, [0, 0, h]] };
}

function expectNear(
  found: Pick<SolidMoments, 'volume' | 'centroid'> | null,
  volume: number,
  centroid: Vec3,
  share = 1e-6,
) {
  if (!found) throw new Error('no solid');
  expect(Math.abs(found.volume / volume - 1)).toBeLessThan(share);
  const size = Math.cbrt(volume);
  found.centroid.forEach((value, axis) => {
    expect(Math.abs(value - centroid[axis])).toBeLessThan(share * size);
  });
}

// coordinates of a mesh are single precision: 6e-8 of their size
describe('the volume centroid of a closed mesh', () => {
  it('is the middle of a box, wherever it stands (V = a b c)', () => {
    expectNear(closed(boxTriangles([30, 20, 10])), 6000, [15, 10, 5]);
    expectNear(closed(moved(boxTriangles([30, 20, 10]), [500, -300, 200])), 6000, [515, -290, 205]);
    expectNear(closed(moved(boxTriangles([0.03, 0.02, 0.01]), [0.5, 0, 0])), 6e-6, [0.515, 0.01, 0.005], 1e-4);
  });

  it('is a quarter of the height above the base of a cone (V = A h / 3, A of a regular polygon n r^2 sin(2 pi / n) / 2)', () => {
    const [r, h, count] = [20, 60, 48];
    const area = (count / 2) * r * r * Math.sin((2 * Math.PI) / count);
    const { triangles, corners } = cone(r, h, count);
    expectNear(closed(triangles), (area * h) / 3, [0, 0, h / 4]);
    expectNear(hullBody(corners), (area * h) / 3, [0, 0, h / 4]);
    // pi r^2 h / 3 of the round cone, which 48 corners fill to 0.3 %
    expect(Math.abs((closed(triangles)?.volume ?? 0) / ((Math.PI * r * r * h) / 3) - 1)).toBeLessThan(0.003);
  });

  it('leaves out a hollow (V c = V1 c1 - V2 c2)', () => {
    const body = [...boxTriangles([30, 30, 30]), ...inward(moved(boxTriangles([10, 10, 10]), [15, 10, 10]))];
    const volume = 27_000 - 1000;
    expectNear(closed(body), volume, [(27_000 * 15 - 1000 * 20) / volume, 15, 15]);
  });

  it('differs from that of the hull where the mesh is not convex (two boxes: V c = V1 c1 + V2 c2)', () => {
    const body = [...boxTriangles([10, 10, 40]), ...moved(boxTriangles([30, 10, 10]), [10, 0, 0])];
    expectNear(closed(body), 7000, [(4000 * 5 + 3000 * 25) / 7000, 5, (4000 * 20 + 3000 * 5) / 7000]);
    // the hull: an L filled up by a prism over the triangle (10, 40) (40, 10) (10, 10), which is 450 mm^2 about (20, 20)
    const corners: Vec3[] = [0, 10].flatMap((y): Vec3[] => [
      [0, y, 0],
      [40, y, 0],
      [40, y, 10],
      [10, y, 40],
      [0, y, 40],
    ]);
    expectNear(hullBody(corners), 11_500, [
      (7000 * (95_000 / 7000) + 4500 * 20) / 11_500,
      5,
      (95_000 + 4500 * 20) / 11_500,
    ]);
  });

  it('is there for a mesh that faces inward as a whole', () => {
    expectNear(closed(inward(boxTriangles([30, 20, 10]))), 6000, [15, 10, 5]);
  });

  it.each([
    ['has a gap', boxTriangles([30, 20, 10]).slice(9)],
    [
      'has a triangle that faces the other way',
      [...inward(boxTriangles([30, 20, 10]).slice(0, 9)), ...boxTriangles([30, 20, 10]).slice(9)],
    ],
    ['is folded flat', [0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0, 1, 0, 0]],
  ])('is unknown for a mesh that %s', (_, triangles) => {
    expect(closed(triangles)).toBeNull();
  });
});
