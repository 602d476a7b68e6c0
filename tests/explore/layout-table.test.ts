import { describe, expect, it } from 'vitest';
import { columnDomain, isUnbounded } from '../../src/explore/column-domain.ts';
import { density, histogram, nearestLayout } from '../../src/explore/density.ts';
import { coarseFirst, dimensionsAt, evenly, type Grid, indexOf } from '../../src/explore/grid.ts';
import { CELL, heatSlice } from '../../src/explore/heat-slice.ts';
import { FIGURE_COUNT } from '../../src/explore/layout-figures.ts';
import { LayoutTable } from '../../src/explore/layout-table.ts';
import { paretoFront } from '../../src/explore/pareto.ts';
import { tableFront, tableObjectives } from '../../src/explore/table-front.ts';
import { seededRandom } from '../../src/math/random.ts';
import { FIGURE_NAMES } from '../../src/terms/figures.ts';

const grid: Grid = [
  { name: 'baseGap', values: evenly(0.1, 2, 12) },
  { name: 'platformGap', values: evenly(0.1, 2, 9) },
  { name: 'radiusRatio', values: evenly(0.3, 1.5, 7) },
];
const SEED = 31;

/** A table with invented figures in its first `layouts` rows; some are infinite, some repeat. */
function filled(layouts: number) {
  const random = seededRandom(SEED);
  const table = new LayoutTable(grid);
  const order = coarseFirst(grid);
  const rows = new Float64Array(layouts * FIGURE_COUNT);
  for (let at = 0; at < rows.length; at++) {
    const figure = FIGURE_NAMES[at % FIGURE_COUNT];
    rows[at] = Math.floor(40 * random()) / 40;
    if (figure === 'homeCondition' && random() < 0.1) rows[at] = Number.POSITIVE_INFINITY;
    if (figure === 'singularEverywhere') rows[at] = random() < 0.2 ? 1 : 0;
  }
  table.addRows(0, rows);
  const value = (place: number, name: (typeof FIGURE_NAMES)[number]) =>
    rows[place * FIGURE_COUNT + FIGURE_NAMES.indexOf(name)];
  return { table, order, value };
}

describe(`a table of layouts (seed ${SEED})`, () => {
  it('gives every row back at its own index, with its own dimensions', () => {
    const { table, order, value } = filled(500);
    expect(table.count).toBe(500);
    const read = { gap: table.reader('baseGap'), ratio: table.reader('radiusRatio'), reach: table.reader('reach') };
    for (let place = 0; place < 500; place++) {
      const index = order[place];
      const { baseGap, radiusRatio } = dimensionsAt(grid, index);
      expect([read.gap(index), read.ratio(index)]).toEqual([baseGap, radiusRatio]);
      expect(read.reach(index)).toBe(value(place, 'reach'));
      expect(table.row(index)[0]).toBe(value(place, 'reach'));
    }
    expect(Number.isNaN(table.reader('turn')(0))).toBe(true);
  });

  it('counts a layout once however often it comes in', () => {
    const { table } = filled(100);
    table.addRows(0, new Float64Array(50 * FIGURE_COUNT));
    expect(table.count).toBe(100);
  });

  it('lets through what lies in all ranges, ends included, and nothing unknown', () => {
    const { table, order, value } = filled(500);
    const mask = table.passing({ reach: [0.25, 0.5], homeCondition: [0, Number.POSITIVE_INFINITY], baseGap: [0.1, 1] });
    const referee = new Set<number>();
    for (let place = 0; place < 500; place++) {
      const { baseGap = 0 } = dimensionsAt(grid, order[place]);
      const reach = value(place, 'reach');
      if (reach >= 0.25 && reach <= 0.5 && baseGap <= 1) referee.add(order[place]);
    }
    expect(new Set([...mask.keys()].filter((index) => mask[index] === 1))).toEqual(referee);
    expect(referee.size).toBeGreaterThan(20);
  });

  it.each([2, 3])('finds the same front of %d objectives as the plain filter of all layouts', (count) => {
    const { table } = filled(table0Size());
    const mask = table.passing({ singularEverywhere: [0, 0] });
    const choices = (
      [
        { figure: 'reach', better: 'more' },
        { figure: 'homeCondition', better: 'less' },
        { figure: 'meanFirmness', better: 'more' },
      ] as const
    ).slice(0, count);
    const candidates = [...mask.keys()].filter((index) => mask[index] === 1);
    const front = tableFront(table, mask, choices);
    expect(front).toEqual(paretoFront(candidates, tableObjectives(table, choices)));
    expect(front.length).toBeGreaterThan(0);
  });
});

const table0Size = () => 12 * 9 * 7;

describe(`pictures of a table (seed ${SEED})`, () => {
  it('counts every known layout into one cell of a scatter', () => {
    const { table } = filled(400);
    const mask = table.passing({ reach: [0, 0.5] });
    const [x, y] = (['reach', 'meanFirmness'] as const).map((name) => columnDomain(table, name));
    if (!x || !y) throw new Error('no domain');
    const { known, passing, beyond } = density(
      table,
      mask,
      { x: 'reach', y: 'meanFirmness', columns: 5, rows: 4 },
      x,
      y,
    );
    const sum = (counts: Uint32Array) => counts.reduce((total, count) => total + count, 0);
    expect(sum(known)).toBe(400);
    expect(beyond).toBe(0);
    expect(sum(passing)).toBe(mask.reduce((total, one) => total + one, 0));
    // nothing passes to the right of a reach of 0.5
    for (let row = 0; row < 4; row++) for (const column of [3, 4]) expect(passing[row * 5 + column]).toBe(0);
  });

  it('cuts a figure without bound at its 95th percentile and says so', () => {
    const { table } = filled(700);
    const domain = columnDomain(table, 'homeCondition');
    expect(domain?.open).toBe(true);
    expect(domain?.high).toBeLessThanOrEqual(1);
    const bins = domain && histogram(table, table.known, 'homeCondition', domain, 6);
    // what lies beyond is counted into the last bin
    expect(bins?.known.reduce((sum, count) => sum + count, 0)).toBe(700);
  });

  it('leaves out of that percentile what only rounding keeps from infinity', () => {
    const table = new LayoutTable(grid);
    const singular = new Float64Array(700 * FIGURE_COUNT).fill(0.5);
    // a third of the layouts singular: their condition and force are some 1e13 instead of infinite
    for (let n = 0; n < 700; n += 3)
      for (const name of ['homeCondition', 'forceFactor'] as const)
        singular[n * FIGURE_COUNT + FIGURE_NAMES.indexOf(name)] = 3e13;
    table.addRows(0, singular);
    for (const name of ['homeCondition', 'forceFactor'] as const) {
      expect(columnDomain(table, name)).toEqual({ low: 0.5, high: 0.5, open: true });
      expect(isUnbounded(name, 3e13)).toBe(true);
      expect(isUnbounded(name, 0.5)).toBe(false);
    }
    expect(isUnbounded('reach', 3e13)).toBe(false);
  });

  it('shows each cell of a slice as measured, or as the nearest coarser layout', () => {
    const { table, order } = filled(60);
    const question = { x: 'baseGap', y: 'platformGap', figure: 'reach', places: [0, 0, 3] } as const;
    const slice = heatSlice(table, table.known, question, columnDomain(table, 'reach'));
    const known = new Set(order.subarray(0, 60));
    const read = table.reader('reach');
    for (let row = 0, cell = 0; row < 9; row++) {
      for (let column = 0; column < 12; column++, cell++) {
        const index = indexOf(grid, [column, row, 3]);
        expect(slice.state[cell]).toBe(known.has(index) ? CELL.measured : CELL.coarse);
        if (known.has(index)) expect(slice.values[cell]).toBe(read(index));
        else expect(Number.isFinite(slice.values[cell])).toBe(true);
      }
    }
  });

  it('finds the passing layout nearest to a point', () => {
    const { table } = filled(700);
    const mask = table.passing({ singularEverywhere: [0, 0] });
    const domain = { low: 0, high: 1, open: false };
    const picture = { x: 'reach', y: 'meanFirmness', xDomain: domain, yDomain: domain } as const;
    const read = [table.reader('reach'), table.reader('meanFirmness')];
    const away = (index: number) => Math.hypot(read[0](index) - 0.31, read[1](index) - 0.62);
    const found = nearestLayout(table, mask, picture, [0.31, 0.62], 0.5);
    const candidates = [...mask.keys()].filter((index) => mask[index] === 1);
    expect(away(found)).toBeCloseTo(Math.min(...candidates.map(away)), 12);
    expect(nearestLayout(table, mask, picture, [50, 50], 0.5)).toBe(-1);
  });
});
