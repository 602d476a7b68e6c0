import { OrthographicCamera, PerspectiveCamera, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { unit, type Vec3 } from '../../src/math/vec3.ts';
import { betweenFramings, STANDARD_DIRECTIONS } from '../../src/scene/canvas/framings.ts';
import { type Framing, fitParallel, fitView, type Insets, NO_INSETS } from '../../src/scene/shape/view-fit.ts';

const LENS = { halfAngle: 0.2, aspect: 1.6 };
const INSETS: Insets = { top: 0.1, bottom: 0.2, left: 0.05, right: 0.02 };

const randomPoints = (seed: number): Vec3[] => {
  const random = seededRandom(seed);
  return Array.from(
    { length: 40 },
    (): Vec3 => [uniform(random, -90, 120), uniform(random, -60, 60), uniform(random, -20, 240)],
  );
};

/** Places of points on screen by three's own cameras, -1 to 1. */
function onScreen(points: readonly Vec3[], { target, toCamera, distance }: Framing, kind: 'perspective' | 'parallel') {
  const half = distance * Math.tan(LENS.halfAngle);
  const camera =
    kind === 'perspective'
      ? new PerspectiveCamera((360 * LENS.halfAngle) / Math.PI, LENS.aspect, 0.1, 1e5)
      : new OrthographicCamera(-half * LENS.aspect, half * LENS.aspect, half, -half, -1e5, 1e5);
  camera.up.set(0, 0, 1);
  camera.position
    .set(...toCamera)
    .multiplyScalar(distance)
    .add(new Vector3(...target));
  camera.lookAt(...target);
  camera.updateMatrixWorld();
  camera.updateProjectionMatrix();
  return points.map((point) => new Vector3(...point).project(camera));
}

describe.each(['perspective', 'parallel'] as const)('a %s fit', (kind) => {
  const fitted = kind === 'perspective' ? fitView : fitParallel;
  it.each([1, 2, 3, 4, 5, 6])('holds all points within the insets and wastes no room, seed %i', (seed) => {
    const random = seededRandom(seed + 100);
    const direction = unit([uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -0.9, 0.9)]);
    for (const insets of [NO_INSETS, INSETS]) {
      const seen = onScreen(randomPoints(seed), fitted(randomPoints(seed), direction, LENS, insets), kind);
      const left = Math.min(...seen.map(({ x }) => x)) - (-1 + 2 * insets.left);
      const right = 1 - 2 * insets.right - Math.max(...seen.map(({ x }) => x));
      const bottom = Math.min(...seen.map(({ y }) => y)) - (-1 + 2 * insets.bottom);
      const top = 1 - 2 * insets.top - Math.max(...seen.map(({ y }) => y));
      for (const room of [left, right, bottom, top]) expect(room).toBeGreaterThan(-1e-9);
      // one pair of opposite edges is touched
      expect(Math.min(Math.max(left, right), Math.max(top, bottom))).toBeLessThan(1e-9);
    }
  });
});

describe('standard views', () => {
  const views = Object.entries(STANDARD_DIRECTIONS);
  it.each(views)('%s looks along a unit direction', (_, direction) => {
    expect(Math.hypot(...direction)).toBeCloseTo(1, 12);
  });

  it.each([
    ['top', [1, 0, 0], [0, 1, 0]],
    ['front', [1, 0, 0], [0, 0, 1]],
    ['right', [0, 1, 0], [0, 0, 1]],
  ] as const)('%s has the right axes to the right and upward', (view, right, up) => {
    const framing = { target: [0, 0, 0], toCamera: STANDARD_DIRECTIONS[view], distance: 100 } as const;
    const [a, b] = onScreen([right, up], framing, 'parallel');
    expect(a.x).toBeGreaterThan(0);
    expect(Math.abs(a.y)).toBeLessThan(1e-3);
    expect(b.y).toBeGreaterThan(0);
    expect(Math.abs(b.x)).toBeLessThan(1e-3);
  });
});

describe('the way between two framings', () => {
  const from: Framing = { target: [0, 0, 0], toCamera: unit([1, -1, 1]), distance: 100 };
  const to: Framing = { target: [10, 0, 40], toCamera: [-1, 0, 0], distance: 400 };

  it('starts and ends where it should', () => {
    expect(betweenFramings(from, to, 1)).toBe(to);
    const start = betweenFramings(from, to, 0);
    start.toCamera.forEach((value, k) => expect(value).toBeCloseTo(from.toCamera[k], 12));
    expect(start.distance).toBe(100);
  });

  it('keeps directions at unit length and doubles distance evenly', () => {
    const middle = betweenFramings(from, to, 0.5);
    expect(Math.hypot(...middle.toCamera)).toBeCloseTo(1, 12);
    expect(middle.distance).toBeCloseTo(200, 9);
  });
});
