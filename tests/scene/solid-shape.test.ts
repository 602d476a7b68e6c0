import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import type { Solid } from '../../src/kinematics/bodies.ts';
import { drawnSolid } from '../../src/scene/drawing/drawn-solid.ts';

/** Volume inside a closed surface: a sixth of the sum of a . (b x c); negative where triangles face inward. */
function volume(triangles: Float64Array): number {
  let sum = 0;
  for (let t = 0; t < triangles.length; t += 9) {
    const corner = (k: number) => new Vector3(triangles[t + k], triangles[t + k + 1], triangles[t + k + 2]);
    sum += corner(0).dot(corner(3).cross(corner(6))) / 6;
  }
  return sum;
}

/** Textbook volumes; a drawn cylinder is a prism over 32 corners, n/2 r^2 sin(2 pi / n) h. */
const CASES: readonly (readonly [string, Solid, number])[] = [
  ['a turned box', { kind: 'box', centre: [5, -3, 20], size: [30, 40, 50], turn: 0.4 }, 30 * 40 * 50],
  [
    'a slanted cylinder',
    { kind: 'cylinder', from: [1, 2, 3], to: [1, 32, 43], radius: 10 },
    16 * 100 * Math.sin((2 * Math.PI) / 32) * 50,
  ],
  ['a prism', { kind: 'prism', outline: Float64Array.of(0, 0, 60, 0, 0, 80), bottom: -4, top: 6 }, (60 * 80 * 10) / 2],
  [
    'the hull of a cube with points inside',
    {
      kind: 'hull',
      points: Float64Array.from(
        [0, 1, 2, 3, 4, 5, 6, 7]
          .flatMap((n) => [n & 1 ? 20 : -10, n & 2 ? 20 : -10, n & 4 ? 20 : -10])
          .concat([1, 2, 3]),
      ),
    },
    30 ** 3,
  ],
];

describe('a drawn solid', () => {
  it.each(CASES)('%s closes and holds its volume', (_, solid, expected) => {
    expect(volume(drawnSolid(solid).triangles)).toBeCloseTo(expected, 6);
  });

  it('has the edges of its outline and no others', () => {
    // a cube has twelve edges however many triangles its faces have
    expect(drawnSolid(CASES[3][1]).edges).toHaveLength(12 * 6);
    expect(drawnSolid(CASES[0][1]).edges).toHaveLength(12 * 6);
  });
});
