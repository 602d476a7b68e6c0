import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { builtRing } from '../../../src/document/edits/built-ring.ts';
import {
  changeCharacteristicLength,
  changeHoles,
  changeHome,
  changeLean,
  changeLegs,
  changeMount,
  changePoint,
  changeRing,
  changeTiltLimit,
  changeTool,
  changeToward,
  checked,
  type Edit,
  freePoints,
  leanByRule,
  makeHome,
  rename,
  ringThroughPoints,
  spreadPairs,
  turnByHoles,
} from '../../../src/document/edits/edit.ts';
import { ruleOf, TOWARD_RULES } from '../../../src/document/edits/mount-rule.ts';
import { nearestRing } from '../../../src/document/edits/ring-fit.ts';
import { RANGES } from '../../../src/document/ranges.ts';
import { validateDesign } from '../../../src/document/read-design.ts';
import { mechanismFromDocument } from '../../../src/document/units.ts';
import type { PlateName } from '../../../src/kinematics/layout.ts';
import {
  changeDocument,
  commitDraft,
  createDesignStore,
  previewDocument,
  redo,
  undo,
} from '../../../src/state/design/design-store.ts';
import { waveTable } from '../../state/wave-table.ts';

const SEED = 71;

const plates = fc.constantFrom<PlateName>('base', 'platform');
const axis = fc.integer({ min: 0, max: 2 });
const joint = fc.integer({ min: 1, max: 6 });
/** Numbers a person or a program may hand over: good ones, bad ones, no numbers at all. */
const number = fc.oneof(
  fc.double({ min: -400, max: 400, noNaN: true }),
  fc.double(),
  fc.constantFrom(0, -0, 120, 1e-9, Number.NaN, Number.POSITIVE_INFINITY),
);

/** Every edit there is, with any arguments. */
const edits: fc.Arbitrary<Edit> = fc.oneof(
  fc.string().map(
    (name): Edit =>
      (d) =>
        rename(d, name),
  ),
  fc.tuple(plates, fc.constantFrom('radius_mm', 'gap_deg', 'turn_deg', 'jointHeight_mm'), number).map(
    ([plate, key, value]): Edit =>
      (d) =>
        changeRing(d, plate, { [key]: value }),
  ),
  fc.tuple(plates, number, number).map(
    ([plate, count, start_deg]): Edit =>
      (d) =>
        changeHoles(d, plate, { count, start_deg }),
  ),
  plates.map(
    (plate): Edit =>
      (d) =>
        changeHoles(d, plate, { count: 72, start_deg: 0 }),
  ),
  plates.map(
    (plate): Edit =>
      (d) =>
        changeHoles(d, plate, null),
  ),
  fc.tuple(plates, fc.integer({ min: -40, max: 40 })).map(
    ([plate, n]): Edit =>
      (d) =>
        spreadPairs(d, plate, n),
  ),
  fc.tuple(plates, fc.integer({ min: -99, max: 99 })).map(
    ([plate, n]): Edit =>
      (d) =>
        turnByHoles(d, plate, n),
  ),
  plates.map(
    (plate): Edit =>
      (d) =>
        freePoints(d, plate),
  ),
  plates.map(
    (plate): Edit =>
      (d) =>
        ringThroughPoints(d, plate),
  ),
  fc.tuple(plates, joint, axis, number).map(
    ([p, j, a, value]): Edit =>
      (d) =>
        changePoint(d, p, j, a, value),
  ),
  fc.tuple(fc.constantFrom('min_mm', 'max_mm', 'barrelDiameter_mm', 'rodDiameter_mm'), number).map(
    ([key, value]): Edit =>
      (d) =>
        changeLegs(d, { [key]: value }),
  ),
  fc.tuple(plates, number).map(
    ([plate, value]): Edit =>
      (d) =>
        changeTiltLimit(d, plate, value),
  ),
  fc.tuple(plates, fc.constantFrom('square' as const, 'aimed' as const)).map(
    ([p, mount]): Edit =>
      (d) =>
        changeMount(d, p, mount),
  ),
  fc.tuple(plates, fc.constantFrom(...TOWARD_RULES), number).map(
    ([p, rule, lean]): Edit =>
      (d) =>
        leanByRule(d, p, rule, lean),
  ),
  fc.tuple(plates, number).map(
    ([plate, value]): Edit =>
      (d) =>
        changeLean(d, plate, value),
  ),
  fc.tuple(plates, joint, number).map(
    ([p, j, value]): Edit =>
      (d) =>
        changeToward(d, p, j, value),
  ),
  fc.tuple(axis, number).map(
    ([a, value]): Edit =>
      (d) =>
        changeTool(d, a, value),
  ),
  fc.tuple(fc.integer({ min: 0, max: 5 }), number).map(
    ([f, value]): Edit =>
      (d) =>
        changeHome(d, f, value),
  ),
  fc.tuple(number, number, number).map(
    ([z, roll, yaw]): Edit =>
      (d) =>
        makeHome(d, { position: [0, 0, z], roll, pitch: 0, yaw }),
  ),
  fc.option(number).map(
    (value): Edit =>
      (d) =>
        changeCharacteristicLength(d, value),
  ),
);

describe('edits of a design', () => {
  it('lead from a valid design to a valid one, or to a reason and no design', () => {
    fc.assert(
      fc.property(fc.array(edits, { maxLength: 30 }), (chain) => {
        let design = waveTable;
        for (const edit of chain) {
          const before = JSON.stringify(design);
          const result = checked(edit(design));
          expect(JSON.stringify(design)).toBe(before);
          if (result.ok) design = result.value;
          else expect(result.fault).toMatch(/\S.*\.$/);
          expect(validateDesign(JSON.parse(JSON.stringify(design)))).toEqual({ ok: true, value: design });
        }
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('can all be undone and done again, each as one step', () => {
    fc.assert(
      fc.property(fc.array(edits, { minLength: 1, maxLength: 12 }), (chain) => {
        const store = createDesignStore(waveTable);
        const passed = [waveTable];
        for (const edit of chain) {
          const { document } = store.getState();
          const result = checked(edit(document), document);
          // without a change the design itself comes back, which is no step
          if (!result.ok || result.value === document) continue;
          changeDocument(store, result.value, 'Edit');
          passed.push(result.value);
        }
        for (const document of passed.toReversed().slice(1)) {
          undo(store);
          expect(store.getState().document).toBe(document);
        }
        for (const document of passed.slice(1)) {
          redo(store);
          expect(store.getState().document).toBe(document);
        }
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it('are one step however many values a drag passes', () => {
    const store = createDesignStore(waveTable);
    for (let gap_deg = 20; gap_deg <= 40; gap_deg++) {
      previewDocument(store, changeRing(waveTable, 'base', { gap_deg }));
    }
    commitDraft(store, 'Base pair gap 40 deg');
    expect(store.temporal.getState().pastStates).toHaveLength(1);
    undo(store);
    expect(store.getState().document).toBe(waveTable);
  });

  it('take every number within its range that contradicts no other', () => {
    for (const gap_deg of [RANGES.gap_deg.min, 33.3, 119]) {
      expect(checked(changeRing(waveTable, 'base', { gap_deg })).ok).toBe(true);
    }
    expect(checked(changeLegs(waveTable, { min_mm: 199.9 })).ok).toBe(true);
    expect(checked(changeLegs(waveTable, { min_mm: 200 }))).toEqual({
      ok: false,
      fault: expect.stringMatching(/legs\.min_mm is 200; it must be below legs\.max_mm/),
    });
  });
});

describe('a ring and free points', () => {
  const ringNumbers = fc.record({
    radius_mm: fc.double({ min: 1, max: 1000, noNaN: true }),
    gap_deg: fc.double({ min: 0, max: 119, noNaN: true }),
    turn_deg: fc.double({ min: -179, max: 179, noNaN: true }),
  });

  it('change into each other without moving a joint', () => {
    fc.assert(
      fc.property(plates, ringNumbers, fc.option(fc.integer({ min: 3, max: 200 })), (plate, numbers, count) => {
        const bare = changeHoles(changeRing(waveTable, plate, numbers), plate, null);
        const ring = count === null ? bare : changeHoles(bare, plate, { count, start_deg: 7 });
        const points = freePoints(ring, plate);
        const asRing = mechanismFromDocument(ring).centres[plate];
        const asPoints = mechanismFromDocument(points).centres[plate];
        for (let n = 0; n < 18; n++) expect(Math.abs(asPoints[n] - asRing[n])).toBeLessThan(1e-9);
        if (count !== null) return;
        const back = mechanismFromDocument(ringThroughPoints(points, plate)).centres[plate];
        for (let n = 0; n < 18; n++) expect(Math.abs(back[n] - asRing[n])).toBeLessThan(1e-6);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it('give the numbers of the ring back, and say how far other points are from a ring', () => {
    const points = Array.from(
      mechanismFromDocument(changeRing(waveTable, 'platform', { gap_deg: 26, turn_deg: -14 })).centres.platform,
    );
    const fit = nearestRing(points, 'platform');
    expect(fit.ring.gap_deg).toBeCloseTo(25, 6); // the nearest holes of 72: 25 deg apart
    expect(fit.misfit_mm).toBeLessThan(1e-6);
    points[2] = 3;
    expect(nearestRing(points, 'platform').misfit_mm).toBeCloseTo(3, 6);
  });
});

describe('holes', () => {
  // 72 holes are 5 deg apart; with gap 20 the base joints stand at -10, 10, 110, 130, 230, 250 deg, that is 2 holes before
  // hole 1 (0 deg), 2 after it, and so on
  it('are numbered from the start angle, counter-clockwise', () => {
    const { base } = waveTable;
    expect('ring' in base && builtRing(base.ring, 'base')).toEqual({
      gap_deg: expect.closeTo(20, 9),
      holes: [71, 3, 23, 27, 47, 51],
      snap_deg: expect.closeTo(0, 9),
    });
  });

  it('spread a pair by two holes a step and turn the pattern by one', () => {
    const wider = spreadPairs(waveTable, 'base', 1).base;
    expect('ring' in wider && wider.ring.gap_deg).toBe(30);
    const turned = turnByHoles(waveTable, 'platform', -1).platform;
    expect('ring' in turned && turned.ring.turn_deg).toBe(-5);
    expect(spreadPairs(waveTable, 'base', 11)).toBe(waveTable);
  });
});

describe('leaning mounts', () => {
  it('follow the rule they were given, and know it again', () => {
    for (const plate of ['base', 'platform'] as const) {
      for (const rule of TOWARD_RULES) {
        const leaning = leanByRule(waveTable, plate, rule, 20);
        expect(ruleOf(leaning, plate)).toBe(rule);
        expect(ruleOf(changeToward(leaning, plate, 4, 12.5), plate)).toBeNull();
      }
    }
    // joints at -10 ... 250 deg lean outward along their own azimuths
    const { mount } = leanByRule(waveTable, 'base', 'outward', 20).joints.base;
    expect(mount).toEqual({ lean_deg: 20, toward_deg: [-10, 10, 110, 130, -130, -110] });
  });
});
