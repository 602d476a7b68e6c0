import { SphereGeometry, TorusGeometry } from 'three';
import { describe, expect, it } from 'vitest';
import { compiledDesign } from '../../src/document/compiled.ts';
import { DEMOS } from '../../src/document/demos.ts';
import { barPath, project } from '../../src/scene/flat/projection.ts';
import { sheetFor } from '../../src/scene/flat/sheet.ts';
import { silhouette } from '../../src/scene/flat/silhouette.ts';
import type { Point2 } from '../../src/scene/shape/convex-hull.ts';

/** Signed area by the shoelace formula. */
const area = (ring: readonly Point2[]): number =>
  ring.reduce((sum, [x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length];
    return sum + (x * ny - nx * y) / 2;
  }, 0);

function meshOf(geometry: SphereGeometry | TorusGeometry) {
  const index = geometry.getIndex();
  if (!index) throw new Error('an indexed mesh');
  return {
    positions: Float64Array.from(geometry.getAttribute('position').array),
    indices: Uint32Array.from(index.array),
  };
}

describe('the outline of a shell', () => {
  it.each(['plan', 'elevation'] as const)('of a ball is a circle of its radius, in %s', (view) => {
    const rings = silhouette(meshOf(new SphereGeometry(40, 96, 64)), view);
    expect(rings).toHaveLength(1);
    expect(Math.abs(area(rings[0])) / (Math.PI * 40 * 40)).toBeCloseTo(1, 1.7);
    for (const [x, y] of rings[0]) expect(Math.abs(Math.hypot(x, y) - 40)).toBeLessThan(0.6);
  });

  it('of a ring has a hole seen along its axis and none seen from the side', () => {
    const ring = meshOf(new TorusGeometry(40, 10, 32, 96));
    const seen = silhouette(ring, 'plan');
    expect(seen).toHaveLength(2);
    const whole = seen.reduce((sum, part) => sum + area(part), 0);
    expect(Math.abs(whole) / (Math.PI * (50 * 50 - 30 * 30))).toBeCloseTo(1, 1.5);
    expect(silhouette(ring, 'elevation')).toHaveLength(1);
  });

  it('of nothing is nothing', () => {
    expect(silhouette({ positions: new Float64Array(0), indices: new Uint32Array(0) }, 'plan')).toEqual([]);
  });
});

describe('the sheet', () => {
  const { mechanism } = compiledDesign(DEMOS.steady);
  it.each([
    ['plan', 360, 300],
    ['elevation', 360, 300],
    ['elevation', 180, 400],
  ] as const)('of the %s fills a panel of %d by %d with the whole design', (view, width, height) => {
    const sheet = sheetFor(mechanism, null, view, width, height);
    expect(sheet.width / sheet.height).toBeCloseTo(width / height, 9);
    expect(sheet.hair).toBeCloseTo(sheet.width / width, 9);
    for (const point of [
      [110, 0, -12],
      [-110, 0, -12],
      [0, 0, 162],
    ] as const) {
      const [x, y] = project(view, point);
      expect(x).toBeGreaterThan(sheet.left);
      expect(x).toBeLessThan(sheet.left + sheet.width);
      expect(y).toBeGreaterThan(sheet.top);
      expect(y).toBeLessThan(sheet.top + sheet.height);
    }
  });

  it('looks down on X and Y, and from the front on X and Z, upward', () => {
    expect(project('plan', [1, 2, 3])).toEqual([1, -2]);
    expect(project('elevation', [1, 2, 3])).toEqual([1, -3]);
  });

  it('draws a bar as wide as it is', () => {
    expect(barPath([0, 0], [10, 0], 4)).toBe('M0 -2L10 -2L10 2L0 2Z');
    expect(barPath([5, 5], [5, 5], 4)).toBe('');
  });
});
