import { describe, expect, it } from 'vitest';
import { coarseFirst, dimensionsAt, evenly, type Grid, gridSize, indexOf, placesOf } from '../../src/explore/grid.ts';

const grid: Grid = [
  { name: 'baseGap', values: evenly(0, 1, 7) },
  { name: 'platformGap', values: evenly(2, 3, 5) },
  { name: 'radiusRatio', values: evenly(0.3, 1.2, 9) },
];

describe('grid', () => {
  it('counts and places every layout once', () => {
    expect(gridSize(grid)).toBe(315);
    const seen = new Set<string>();
    for (let index = 0; index < 315; index++) {
      const places = placesOf(grid, index);
      expect(indexOf(grid, places)).toBe(index);
      seen.add(places.join());
    }
    expect(seen.size).toBe(315);
    expect(dimensionsAt(grid, 314)).toEqual({ baseGap: 1, platformGap: 3, radiusRatio: 1.2 });
  });

  it('visits coarse grids first and every index once', () => {
    const order = coarseFirst(grid);
    expect(Array.from(order).sort((a, b) => a - b)).toEqual(Array.from({ length: 315 }, (_, n) => n));
    const step = (index: number) => {
      let stride = 8;
      while (placesOf(grid, index).some((place) => place % stride !== 0)) stride /= 2;
      return stride;
    };
    const strides = Array.from(order, step);
    expect(strides).toEqual([...strides].sort((a, b) => b - a));
  });

  it('covers a single value and single layouts', () => {
    expect(evenly(3, 9, 1)).toEqual(Float64Array.of(3));
    expect(Array.from(coarseFirst([{ name: 'turn', values: evenly(1, 1, 1) }]))).toEqual([0]);
    expect(Array.from(coarseFirst([]))).toEqual([0]);
  });
});
