import { describe, expect, it } from 'vitest';
import { contourLines } from '../../src/explore/contour-lines.ts';

/** Values of a function at the middles of a lattice's cells, in cell units. */
const lattice = (columns: number, rows: number, of: (x: number, y: number) => number) =>
  Float64Array.from({ length: columns * rows }, (_, n) => of((n % columns) + 0.5, Math.floor(n / columns) + 0.5));

describe('lines of equal value', () => {
  it('are exact for a plane, and end before the edge of the lattice', () => {
    const lines = contourLines(
      lattice(20, 15, (x, y) => 2 * x + 3 * y),
      20,
      15,
      [30, 40],
    );
    expect(lines.map(({ value }) => value)).toEqual([30, 40]);
    for (const { value, points } of lines) {
      for (let n = 0; n < points.length; n += 2) {
        expect(2 * points[n] + 3 * points[n + 1]).toBeCloseTo(value, 4);
        expect(points[n]).toBeGreaterThanOrEqual(0.5);
        expect(points[n + 1]).toBeLessThanOrEqual(14.5);
      }
    }
  });

  it('close around a hill', () => {
    const [line] = contourLines(
      lattice(40, 40, (x, y) => -Math.hypot(x - 20, y - 20)),
      40,
      40,
      [-10],
    );
    const { points } = line;
    for (let n = 0; n < points.length; n += 2)
      expect(Math.hypot(points[n] - 20, points[n + 1] - 20)).toBeCloseTo(10, 1);
    expect([points[0], points[1]]).toEqual([points.at(-2), points.at(-1)]);
  });

  it('are none for a lattice too thin to have any', () => {
    expect(contourLines(new Float64Array(5), 5, 1, [0.5])).toEqual([]);
  });
});
