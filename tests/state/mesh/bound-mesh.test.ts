import { describe, expect, it } from 'vitest';
import { checked } from '../../../src/document/edits/edit.ts';
import { withPayloadShape } from '../../../src/document/edits/payload-shape.ts';
import { emptyDesign } from '../../../src/document/empty-design.ts';
import { MOST_HULL_CORNERS } from '../../../src/document/judgement-fields.ts';
import { fixedPlacement, PlacedSolid } from '../../../src/kinematics/bodies.ts';
import { seededRandom } from '../../../src/math/random.ts';
import { boundMesh } from '../../../src/state/mesh/bound-mesh.ts';
import { likelyPlacing, placedSize, placeMesh } from '../../../src/state/mesh/place-mesh.ts';
import { boxTriangles } from './mesh-files.ts';

/** How far a hull reaches in a direction, by its support point. */
function reachOf(points: ArrayLike<number>, d: readonly [number, number, number]): number {
  const tip = new Float64Array(3);
  new PlacedSolid({ kind: 'hull', points: Float64Array.from(points) }, fixedPlacement()).support(...d, tip, 0);
  return d[0] * tip[0] + d[1] * tip[1] + d[2] * tip[2];
}

const SEED = 77;

describe('the bound of a mesh', () => {
  it('is its convex hull where that has few corners', () => {
    const { corners, excess } = boundMesh(
      Float32Array.from([...boxTriangles([30, 20, 10]), 1, 1, 1, 2, 3, 4, 5, 6, 7]),
    );
    expect(corners).toHaveLength(24);
    expect(excess).toBe(0);
  });

  it('holds a ball of many corners, and little more', () => {
    const random = seededRandom(SEED);
    const points = Float32Array.from({ length: 9 * 1500 });
    for (let i = 0; i < points.length; i += 3) {
      const z = 2 * random() - 1;
      const turn = 2 * Math.PI * random();
      const flat = Math.sqrt(1 - z * z);
      points.set([50 * flat * Math.cos(turn), 50 * flat * Math.sin(turn), 50 * z], i);
    }
    const { corners, excess } = boundMesh(points);
    if (!corners) throw new Error('a ball is not flat');
    // grown about the middle of its box, so that it stays where it is
    for (const axis of [0, 1, 2]) {
      const along = (flat: ArrayLike<number>) => Array.from(flat).filter((_, n) => n % 3 === axis);
      const middle = (values: readonly number[]) => (Math.min(...values) + Math.max(...values)) / 2;
      expect(middle(along(corners))).toBeCloseTo(middle(along(points)), 4);
    }
    expect(corners.length).toBeLessThanOrEqual(3 * MOST_HULL_CORNERS);
    expect(excess).toBeGreaterThan(0);
    // 120 corners spread evenly see each other under some 0.33 rad, so that the middles of their triangles lie some 2 % inside of
    // the ball; corners that are chosen one after the other lie up to twice as far apart
    expect(excess).toBeLessThan(0.08 * 50);
    for (let n = 0; n < 2000; n++) {
      const d = [random() - 0.5, random() - 0.5, random() - 0.5] as const;
      const size = Math.hypot(...d);
      const [inner, outer] = [reachOf(points, d) / size, reachOf(corners, d) / size];
      expect(outer).toBeGreaterThanOrEqual(inner - 1e-9);
      expect(outer).toBeLessThanOrEqual(inner + excess + 1e-9);
    }
  });

  it.each([
    ['a plane', [0, 0, 5, 30, 0, 5, 30, 20, 5, 0, 0, 5, 30, 20, 5, 0, 20, 5]],
    ['a line', [0, 0, 0, 1, 1, 1, 2, 2, 2]],
    ['one place', [1, 2, 3, 1, 2, 3, 1, 2, 3]],
  ])('is the box around a mesh in %s', (_, triangles) => {
    expect(boundMesh(Float32Array.from(triangles)).corners).toBeNull();
  });
});

describe('a placed mesh', () => {
  const triangles = Float32Array.from(boxTriangles([3, 2, 1]));
  const mesh = { source: 'box.stl', kind: 'stl', triangles, bound: boundMesh(triangles), solid: null } as const;

  it('stands on the plate, centred, in the unit that was chosen', () => {
    const placed = placeMesh(mesh, { ...likelyPlacing(mesh, 22), unit: 'cm' });
    if (!placed.ok || !('hull' in placed.value.shape)) throw new Error('not placed');
    const { corners_mm } = placed.value.shape.hull;
    for (const axis of [0, 1, 2]) {
      const along = corners_mm.map((corner) => corner[axis]);
      expect([Math.min(...along), Math.max(...along)]).toEqual(
        [
          [-15, 15],
          [-10, 10],
          [22, 32],
        ][axis],
      );
    }
    expect(Math.max(...placed.value.triangles)).toBeCloseTo(15, 4);
  });

  it('turns what is up in the file up on the platform', () => {
    placedSize(mesh, { unit: 'inch', up: 'y', standsAt: null }).forEach((size, axis) => {
      expect(size).toBeCloseTo([76.2, 25.4, 50.8][axis], 9);
    });
    const placed = placeMesh(mesh, { unit: 'mm', up: 'y', standsAt: null });
    if (!placed.ok || !('hull' in placed.value.shape)) throw new Error('not placed');
    // (x, y, z) goes to (x, -z, y): right-handed
    expect(placed.value.shape.hull.corners_mm.map(([x, y, z]) => `${x} ${y} ${z}`).sort()[0]).toBe('0 -1 0');
  });

  it('is a payload that the design takes, and a flat one is a thin box', () => {
    const flat = { ...mesh, bound: { ...mesh.bound, corners: null, high: [3, 2, 0] as const } };
    for (const each of [mesh, flat]) {
      const placed = placeMesh(each, likelyPlacing(each, 10));
      if (!placed.ok) throw new Error(placed.fault.message);
      expect(checked(withPayloadShape(emptyDesign(), placed.value.shape)).ok).toBe(true);
    }
  });

  it('is refused when it is beyond a kilometre or below a micrometre, naming the unit', () => {
    const huge = { ...mesh, bound: boundMesh(triangles.map((value) => value * 1e6)) };
    const placed = placeMesh(huge, { unit: 'm', up: 'z', standsAt: 0 });
    expect(!placed.ok && placed.fault.message).toMatch(
      /^box\.stl is .+ mm away .+; it must be within 1000000 mm\. Choose a smaller unit/,
    );
    const tiny = { ...mesh, bound: boundMesh(triangles.map((value) => value * 1e-6)) };
    const lost = placeMesh(tiny, { unit: 'mm', up: 'z', standsAt: 0 });
    expect(!lost.ok && lost.fault.message).toMatch(
      /^box\.stl is .+ mm large; it must be at least 0\.001 mm .+Choose a larger unit\.$/,
    );
  });
});
