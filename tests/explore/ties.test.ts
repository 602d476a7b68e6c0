import { describe, expect, it } from 'vitest';
import { sweepAxes, sweepOptions, validateSweep } from '../../src/document/sweep-file.ts';
import { dimensionsAt, gridSize } from '../../src/explore/grid.ts';
import { rankRows } from '../../src/explore/hole-ranking.ts';
import { FIGURE_COUNT, LayoutFigures } from '../../src/explore/layout-figures.ts';
import { LayoutTable } from '../../src/explore/layout-table.ts';
import { kneeOf, type Objective, paretoFront } from '../../src/explore/pareto.ts';
import { sweepRows } from '../../src/explore/sweep.ts';
import { tableFront } from '../../src/explore/table-front.ts';
import { ties, withoutLastDigits, withTies } from '../../src/explore/ties.ts';
import { firstTwin } from '../../src/explore/twins.ts';
import { type RingSpec, withDimensions } from '../../src/kinematics/dimensions.ts';
import { compileMechanism } from '../../src/kinematics/mechanism.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { type Random, seededRandom, uniform } from '../../src/math/random.ts';
import { FIGURE_NAMES } from '../../src/terms/figures.ts';
import { DEG } from '../kinematics/designs.ts';
import { tableSpec } from './layouts.ts';

const SEED = 1854;

/** Changes numbers in their last digits, as another browser's sine does. */
const jittered = (values: Float64Array, random: Random) =>
  values.map((value) => value * (1 + uniform(random, -1e-12, 1e-12)));

/** A front of distinct steps, each of them under four names that differ in rounding. */
function fourfoldFront(random: Random, steps: number) {
  const first = Float64Array.from({ length: 4 * steps }, (_, n) => 700 - 3 * (n >> 2));
  const second = Float64Array.from({ length: 4 * steps }, (_, n) => 0.1 + 0.01 * Math.sqrt(n >> 2));
  return { first: jittered(first, random), second: jittered(second, random) };
}

const all = (count: number) => Array.from({ length: count }, (_, n) => n);
const more = (values: Float64Array): Objective => ({ values, better: 'more' });

describe(`ties (seed ${SEED})`, () => {
  it('are differences of rounding and no others', () => {
    expect(ties(703.5713970496719, 703.5713970530335)).toBe(true);
    expect(ties(0, 3e-16)).toBe(true);
    expect(ties(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY)).toBe(true);
    expect(ties(703.57, 703.57001)).toBe(false);
    expect(ties(0, 1e-9)).toBe(false);
  });

  it('make numbers equal, whatever their last digits and their order', () => {
    const random = seededRandom(SEED);
    const exact = Float64Array.from({ length: 400 }, () => Math.floor(60 * random()) - 20);
    const tied = withTies(jittered(exact, random));
    const [one, other] = [new Map<number, number>(), new Set(tied)];
    exact.forEach((value, n) => {
      expect(one.get(value) ?? tied[n]).toBe(tied[n]);
      one.set(value, tied[n]);
    });
    expect(other.size).toBe(new Set(exact).size);
    expect([...withTies(Float64Array.of(Number.NaN, 1, Number.POSITIVE_INFINITY))]).toEqual([
      Number.NaN,
      1,
      Number.POSITIVE_INFINITY,
    ]);
  });

  it('are hardly ever broken by the last digits of a figure, which keeps ten', () => {
    const random = seededRandom(SEED);
    let broken = 0;
    for (let n = 0; n < 20_000; n++) {
      const value = uniform(random, -1, 1) * 10 ** uniform(random, -9, 9);
      const kept = withoutLastDigits(value);
      expect(Math.abs(kept / value - 1)).toBeLessThan(1.2e-10);
      if (withoutLastDigits(value * (1 + 4 * Number.EPSILON)) !== kept) broken++;
    }
    expect(broken).toBeLessThan(5);
    expect([40, 0, -2.5, Number.POSITIVE_INFINITY].map(withoutLastDigits)).toEqual([
      40,
      0,
      -2.5,
      Number.POSITIVE_INFINITY,
    ]);
  });

  it('leave one layout of each on a front, the first, and one knee, in every browser', () => {
    const random = seededRandom(SEED);
    const found = all(20).map(() => {
      const { first, second } = fourfoldFront(random, 30);
      const front = paretoFront(all(120), [more(first), more(second)]);
      return { front, knee: kneeOf(front, more(first), more(second))?.place };
    });
    const expected = all(30).map((n) => 4 * n);
    for (const { front, knee } of found) expect({ front, knee }).toEqual({ front: expected, knee: found[0].knee });
    expect(found[0].knee).toBeGreaterThan(0);
  });

  it('keep the order of the list in a ranking of holes, in every browser', () => {
    const random = seededRandom(SEED);
    const place = (name: (typeof FIGURE_NAMES)[number]) => FIGURE_NAMES.indexOf(name);
    const rows = new Float64Array(60 * FIGURE_COUNT);
    for (let n = 0; n < 60; n++) {
      rows[n * FIGURE_COUNT + place('reach')] = 100 + (n % 5);
      rows[n * FIGURE_COUNT + place('homeFirmness')] = 0.3 + 0.01 * (n % 3);
      rows[n * FIGURE_COUNT + place('homeReachable')] = 1;
    }
    const weights = [
      { figure: 'reach', better: 'more', weight: 3 },
      { figure: 'homeFirmness', better: 'more', weight: 2 },
    ] as const;
    const plain = [...rankRows(rows, weights).order];
    for (let browser = 0; browser < 10; browser++) {
      const other = jittered(rows, random).map((value, n) => (rows[n] === 1 ? 1 : value));
      expect([...rankRows(other, weights).order]).toEqual(plain);
    }
  });
});

const FIELD = { format: 'legroom-sweep', version: 1, tilt_deg: 10, firmnessFloor: 0.25, deadLength_mm: 0 } as const;

function sweepOf(variables: readonly object[]) {
  const sweep = validateSweep({ ...FIELD, variables });
  if (!sweep.ok) throw new Error('not a sweep');
  return { grid: sweepAxes(sweep.value), options: sweepOptions(sweep.value) };
}

const gaps = ['baseGap_deg', 'platformGap_deg'].map((name) => ({ name, from: 5, to: 115, count: 12 }));
const turns = { name: 'turn_deg', from: -20, to: 20, count: 5 };

describe('twins', () => {
  it.each([
    ['pairs named by their other neighbours', [...gaps, { name: 'radiusRatio', from: 0.5, to: 1, count: 2 }], 1.9],
    ['pairs and mirror images', [...gaps.map((gap) => ({ ...gap, count: 5 })), turns], 2.5],
  ])('have the same figures: %s', (_, variables, fold) => {
    const { grid, options } = sweepOf(variables);
    const design = tableSpec();
    const size = gridSize(grid);
    const rows = sweepRows({ design, grid, options }, all(size), neverStop);
    const figures = new LayoutFigures(options);
    const own = new Float64Array(FIGURE_COUNT);
    const platforms = new Map<string, number>();
    for (let index = 0; index < size; index++) {
      const row = rows.subarray(index * FIGURE_COUNT, (index + 1) * FIGURE_COUNT);
      const spec = withDimensions(design, dimensionsAt(grid, index));
      const name = platformName(spec);
      const first = platforms.get(name) ?? index;
      platforms.set(name, first);
      row.forEach((value, figure) => {
        const other = rows[first * FIGURE_COUNT + figure];
        expect(ties(value, other) || !(value < 1e6), `${FIGURE_NAMES[figure]} of ${index} and ${first}`).toBe(true);
      });
      // second way: the layout measured under its own name; sampled figures look at other places then
      figures.measure(compileMechanism(spec), own);
      own.forEach((value, figure) => {
        const name = FIGURE_NAMES[figure];
        const exact = name === 'reach' || name === 'homeFirmness' || name === 'spareStroke';
        if (!exact && name !== 'tiltReach' && name !== 'meanFirmness') return;
        const error = Math.abs(row[figure] - value) / Math.max(1e-3, Math.abs(value));
        expect(error, `${name} of ${index}`).toBeLessThan(exact ? 1e-9 : 0.02);
      });
    }
    expect(size / platforms.size).toBeGreaterThan(fold);
    const table = new LayoutTable(grid);
    const inOrder = new Float64Array(size * FIGURE_COUNT);
    table.order.forEach((index, n) => {
      inOrder.set(rows.subarray(index * FIGURE_COUNT, (index + 1) * FIGURE_COUNT), n * FIGURE_COUNT);
    });
    table.addRows(0, inOrder);
    const front = tableFront(table, table.known, [
      { figure: 'reach', better: 'more' },
      { figure: 'homeFirmness', better: 'more' },
    ]);
    expect(front.length).toBeGreaterThan(2);
    const named = new Set(front.map((index) => platformName(withDimensions(design, dimensionsAt(grid, index)))));
    expect(named.size).toBe(front.length);
  });

  it.each<[string, Partial<RingSpec>]>([
    ['a home beside the axis', { home: poseFromAngles({ position: [5, 0, 150], roll: 0, pitch: 0, yaw: 0 }) }],
    ['a leaning home', { home: poseFromAngles({ position: [0, 0, 150], roll: 0.1, pitch: 0, yaw: 0 }) }],
    ['a tool beside the axis', { tool: [0, 8, 0] }],
    [
      'mounts of fixed directions',
      {
        joints: {
          base: {
            tiltLimit: 25 * DEG,
            mount: { kind: 'leaning', lean: 0.3, toward: Float64Array.of(1, 1, 3, 3, 5, 5) },
          },
          platform: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
        },
      },
    ],
  ])('are not taken for the same beside %s', (_, more) => {
    const design = tableSpec(more);
    const changed = withDimensions(design, { baseGap: 1.6, platformGap: 1.1, turn: -0.1 });
    expect(firstTwin(changed)).toBe(changed);
  });

  it('are found by pairs, but not mirrored, about a home that is turned', () => {
    const turned = { home: poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 0.2 }) };
    const { base, platform } = firstTwin(
      withDimensions(tableSpec(turned), { baseGap: 1.6, platformGap: 1.1, turn: -0.1 }),
    );
    expect(base.ring.gap).toBeCloseTo((2 * Math.PI) / 3 - 1.6, 14);
    expect(platform.ring.turn).toBe(-0.1);
  });
});

/**
 * Second implementation: the six legs as pairs of points, each the nearest to 0 deg of its images under turns by a sixth, and the
 * mirror; sorted, so that the order of the legs does not matter.
 */
function platformName({ base, platform }: RingSpec): string {
  const legs = (mirror: number, turned: number) => {
    const fold = (angle: number) => ((((mirror * angle + turned) / DEG) % 360) + 360.0000001) % 360;
    return [0, 120, 240]
      .flatMap((middle) => {
        const at = (angle: number, turn: number) => (middle + angle) * DEG + turn;
        const { gap: g, turn: t } = base.ring;
        const { gap: p, turn: u } = platform.ring;
        return [
          [at(0, t) + g / 2, at(60, u) - p / 2],
          [at(0, t) - g / 2, at(-60, u) + p / 2],
        ];
      })
      .map((pair) => pair.map((angle) => fold(angle).toFixed(3)).join())
      .sort()
      .join(';');
  };
  const names = [1, -1].flatMap((mirror) => [0, 60, 120, 180, 240, 300].map((turned) => legs(mirror, turned * DEG)));
  return `${names.sort()[0]} ${platform.ring.radius}`;
}
