import { beforeAll, describe, expect, it } from 'vitest';
import { DEMOS } from '../../src/document/demos.ts';
import type { DesignDocument } from '../../src/document/design.ts';
import { changeLegs, changeRing } from '../../src/document/edits/edit.ts';
import { mechanismFromDocument, poseAnglesFromDocument } from '../../src/document/units.ts';
import { comparedLayout } from '../../src/jobs/compare-jobs.ts';
import { COMPARED_COLUMNS } from '../../src/jobs/compare-service.ts';
import { reachJobs } from '../../src/jobs/reach-jobs.ts';
import { type CompareCell, compareRows } from '../../src/panels/compare/compare-rows.ts';
import type { ComparedFigures } from '../../src/panels/compare/compared-figures.ts';
import { curveScales, curvesOf, letterPlace, magnificationAt } from '../../src/panels/compare/curve-shapes.ts';
import { floorsOf, settingsOf } from '../../src/state/design/judging-inputs.ts';
import { layoutKey } from '../../src/state/design/layout-key.ts';

const RANGE = { tiltRange: (10 * Math.PI) / 180, yawRange: 0 };

/** A column as the workers would fill it. */
function column(document: DesignDocument, place: number): ComparedFigures {
  const mechanism = mechanismFromDocument(document);
  const question = { spec: mechanism.spec, R_BP: mechanism.home.R_BP };
  const home = poseAnglesFromDocument(document.home);
  return {
    design: {
      letter: COMPARED_COLUMNS[place],
      source: 'demo',
      title: document.name,
      document,
      key: layoutKey(document),
    },
    layout: { kind: 'done', value: comparedLayout({ ...question, home }) },
    usable: {
      kind: 'done',
      value: reachJobs.comparedUsable({ ...question, settings: settingsOf(document) }, floorsOf(document)),
    },
    tilts: { kind: 'done', value: reachJobs.tilted(question, { tilt: RANGE.tiltRange, yaw: 0 }) },
  };
}

const levelOf = ({ layout }: ComparedFigures): number =>
  layout?.kind === 'done' ? layout.value.level.volume : Number.NaN;

function cells(columns: readonly ComparedFigures[], id: string, reference = 0): readonly CompareCell[] {
  const row = compareRows(columns, reference, RANGE).find((one) => one.id === id);
  if (!row) throw new Error(`no row ${id}`);
  return row.cells;
}

const shown = ({ text }: CompareCell): string => text;

/** Number at the front of a text, by the signs and spaces of print. */
const read = (text: string): number =>
  Number(/^[+−]?[\d\u2009.]+/.exec(text)?.[0].replace('−', '-').replaceAll('\u2009', ''));

let demos: readonly ComparedFigures[];
beforeAll(() => {
  demos = [DEMOS.steady, DEMOS.roomy, DEMOS.even].map(column);
});

describe('a row', () => {
  it('gives values, signed changes with their share, and the best', () => {
    const reach = cells(demos, 'level');
    expect(reach.map(shown)).toEqual(demos.map((column) => (levelOf(column) / 1000).toFixed(0)));
    expect(reach.map(({ best }) => best)).toEqual([false, false, true]);
    expect(reach[0].change).toBeNull();
    expect(reach[1].change).toMatchObject({ direction: 'up', judged: 'better' });
    expect(reach[1].change?.words).toMatch(/^\+3\d\d \(\+5\d\u00a0%\)$/);
  });

  it('has differences of the numbers that are shown, with equally many digits along the row', () => {
    for (const row of compareRows(demos, 0, RANGE)) {
      const places = (text: string) => /\.(\d+)/.exec(text)?.[1].length ?? 0;
      const [first, ...others] = row.cells;
      for (const { reading, text, change } of others) {
        const same = change === null || change.direction === 'same' || change.direction === 'other';
        if (reading.kind !== 'number' || reading.own !== undefined || first.reading.kind !== 'number' || same) continue;
        expect(places(text), row.id).toBe(places(first.text));
        expect(places(change.words.split(' (')[0]), row.id).toBe(places(first.text));
        expect(read(change.words), row.id).toBeCloseTo(read(text) - read(first.text), 9);
      }
    }
  });

  it('says what is usable, never more than the reach beside it', () => {
    const usable = cells(demos, 'usable');
    const level = cells(demos, 'level');
    // the steady demo has no floors and no singular pose in its reach: all of it is usable
    expect(shown(usable[0])).toBe(shown(level[0]));
    // in the evenly spaced one every pose is singular
    expect(shown(usable[2])).toBe('nothing');
    expect(usable[2].change?.judged).toBe('worse');
    expect(read(shown(usable[1]))).toBeLessThanOrEqual(read(shown(level[1])));
  });

  it('states firmness as one over magnification', () => {
    const [firmness, magnification] = (['smallest', 'magnification'] as const).map((id) => cells(demos, id));
    for (const place of [0, 1]) {
      const product = read(shown(firmness[place])) * read(shown(magnification[place]));
      expect(Math.abs(product - 1)).toBeLessThan(0.03);
    }
    expect(read(shown(firmness[2]))).toBe(0);
  });

  it('counts from whichever design is the reference', () => {
    const reach = cells(demos, 'level', 1);
    expect(reach[1].change).toBeNull();
    expect(reach[0].change).toMatchObject({ direction: 'down', judged: 'worse' });
    expect(reach[0].change?.words).toMatch(/^−3\d\d \(−3\d\u00a0%\)$/);
  });

  it('judges words by their order and says nothing where nothing is better', () => {
    const verdict = cells(demos, 'firmness');
    expect(verdict.map(shown)).toEqual(['Firm', 'Nearly singular', 'Singular at every pose']);
    expect(verdict.map(({ best }) => best)).toEqual([true, false, false]);
    expect(verdict[2].change).toEqual({ words: 'differs', direction: 'other', judged: 'worse' });
    const gaps = cells(demos, 'gapSum');
    expect(gaps.map(shown)).toEqual(['40.0', '115.0', '120.0']);
    expect(gaps.map(({ best }) => best)).toEqual([false, false, false]);
    expect(gaps[1].change).toMatchObject({ direction: 'up', judged: null });
    expect(gaps[1].change?.words).toMatch(/^\+75\.0 \(\+18[78]\u00a0%\)$/);
  });

  it('never calls what has no bound the best', () => {
    for (const id of ['magnification', 'condition', 'error', 'force']) {
      const row = cells(demos, id);
      expect(row[2].best, id).toBe(false);
      expect(
        row.some(({ best }) => best),
        id,
      ).toBe(true);
      expect(shown(row[2]), id).toMatch(/bound/);
      expect(row[2].change?.judged, id).toBe('worse');
    }
  });

  it('marks nothing where all designs read the same', () => {
    const twins = [column(DEMOS.steady, 0), column({ ...DEMOS.steady, name: 'Twin' }, 1)];
    for (const row of compareRows(twins, 0, RANGE)) {
      expect(row.cells.map(({ best }) => best)).toEqual([false, false]);
      expect(row.cells[1].change).toEqual({ words: 'same', direction: 'same', judged: null });
    }
  });

  it('waits, and says why a value is missing', () => {
    const waiting = { ...demos[1], layout: null };
    const failed = { ...demos[2], layout: { kind: 'failed' as const, reason: 'The calculation stopped.' } };
    const reach = cells([demos[0], waiting, failed], 'level');
    expect(reach.map(({ reading }) => reading.kind)).toEqual(['number', 'waiting', 'failed']);
    expect(reach.every(({ best, change }) => !best && change === null)).toBe(true);
  });

  it('names an empty reach, and a home that breaks limits, as the worst', () => {
    const out = column(changeLegs(DEMOS.steady, { min_mm: 120, max_mm: 130 }), 1);
    expect(cells([demos[0], out], 'travel z').map(shown)[1]).toBe('home breaks limits');
    expect(cells([demos[0], out], 'travel z').map(({ best }) => best)).toEqual([true, false]);
    expect(cells([demos[0], out], 'limits').map(shown)).toEqual(['None', '▲ 6']);
  });

  it('states every number of the reach that the design itself has', () => {
    const { layout } = demos[0];
    if (layout?.kind !== 'done' || !layout.value.level.bounds) throw new Error('a reach');
    const { low, high } = layout.value.level.bounds;
    [0, 1, 2].forEach((axis) => {
      expect(shown(cells(demos, `box ${axis}`)[0])).toBe((high[axis] - low[axis]).toFixed(1));
    });
  });
});

describe('curves', () => {
  it('run through the value that the table states for home, and end with the free travel', () => {
    const [steady] = curvesOf(demos, 5);
    expect(magnificationAt(steady, 0)).toBeCloseTo(read(shown(cells(demos, 'magnification')[0])), 2);
    expect(magnificationAt(steady, steady.offsets[0] - 0.01)).toBeNull();
    expect(shown(cells(demos, 'travel yaw')[0])).toBe(
      `−${Math.abs(steady.offsets[0]).toFixed(1)} to +${(steady.offsets.at(-1) ?? 0).toFixed(1)}`,
    );
  });

  it('leave out what is singular everywhere, without a place for its letter', () => {
    const even = curvesOf(demos, 0)[2];
    const scales = curveScales(curvesOf(demos, 0), 400, 300);
    expect(even.letter).toBe('c');
    expect(letterPlace(even, scales)).toBeNull();
    expect(magnificationAt(even, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(scales.y.domain()[1]).toBeLessThanOrEqual(100);
  });

  it('do not exist for a home that breaks limits', () => {
    const out = column(changeLegs(changeRing(DEMOS.steady, 'base', { gap_deg: 30 }), { max_mm: 130 }), 1);
    expect(curvesOf([out], 2)).toEqual([]);
  });
});
