import { describe, expect, it } from 'vitest';
import { mechanismOf, points, ring } from './designs.ts';

describe('the size that tolerances are relative to', () => {
  // derived: on a ring every joint is one radius from the centroid
  it.each([
    [100, 70],
    [70, 100],
  ])('is the larger of the two plates, rings of %d and %d mm', (base, platform) => {
    expect(mechanismOf(ring(base, 20), ring(platform, 20), 150).size).toBeCloseTo(100, 9);
  });

  it('is the farthest of free points from their centroid, on either plate', () => {
    // centroid (30, 0, 0); the farthest point is 150 mm from it
    const spread = points([180, 0, 0, 0, 50, 0, 0, -50, 0, 0, 50, 0, 0, -50, 0, 0, 0, 0]);
    expect(mechanismOf(spread, ring(70, 20), 150).size).toBeCloseTo(150, 9);
    expect(mechanismOf(ring(70, 20), spread, 150).size).toBeCloseTo(150, 9);
  });
});
