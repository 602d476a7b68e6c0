import { describe, expect, it } from 'vitest';
import { figureOptions } from '../../src/document/build-inputs.ts';
import { DEMOS } from '../../src/document/demos.ts';
import type { DesignDocument } from '../../src/document/design.ts';
import { builtRing } from '../../src/document/edits/built-ring.ts';
import { changeTiltLimit, checked, freePoints } from '../../src/document/edits/edit.ts';
import { changeCrossAxis, changeJointKind, changeSecondTilt } from '../../src/document/edits/judge.ts';
import { type SweepDocument, sweepAxes, sweepOptions } from '../../src/document/sweep-file.ts';
import { sweptDesign } from '../../src/document/swept-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { threefoldChoices, withHoleChoice } from '../../src/explore/hole-choices.ts';
import { FIGURE_COUNT, LayoutFigures } from '../../src/explore/layout-figures.ts';
import { sweepRows } from '../../src/explore/sweep.ts';
import type { RingSpec } from '../../src/kinematics/dimensions.ts';
import { compileMechanism } from '../../src/kinematics/mechanism.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { drilledWords } from '../../src/state/explore/drilled-words.ts';
import { sweepIdentity } from '../../src/state/explore/explore-identity.ts';
import {
  changeLabel,
  layoutLabel,
  presentValues,
  valuesAt,
  valuesFromDimensions,
  withLayout,
  withLayoutOnHoles,
} from '../../src/state/explore/explore-layout.ts';
import { holeDesign, neighbouringChoices, withChoice } from '../../src/state/explore/hole-edits.ts';
import { figure } from '../../src/words/numbers.ts';
import { sampleDesign } from './sample-design.ts';

const sweepOf = (...variables: SweepDocument['variables']): SweepDocument => ({
  format: 'legroom-sweep',
  version: 1,
  variables,
  tilt_deg: 8,
  firmnessFloor: 0.25,
  deadLength_mm: 0,
});

const SWEEPS: readonly SweepDocument[] = [
  sweepOf(
    { name: 'baseGap_deg', from: 5, to: 100, count: 4 },
    { name: 'platformGap_deg', from: 3, to: 90, count: 3 },
    { name: 'radiusRatio', from: 0.4, to: 1.3, count: 3 },
  ),
  sweepOf(
    { name: 'turn_deg', from: -20, to: 30, count: 4 },
    { name: 'homeHeight_mm', from: 130, to: 160, count: 3 },
    { name: 'mountLean_deg', from: 0, to: 25, count: 3 },
  ),
  sweepOf(
    { name: 'baseRadius_mm', from: 80, to: 120, count: 3 },
    { name: 'platformRadius_mm', from: 50, to: 90, count: 3 },
  ),
];

const leaning: DesignDocument = {
  ...sampleDesign,
  joints: {
    ...sampleDesign.joints,
    base: { ...sampleDesign.joints.base, mount: { lean_deg: 10, toward_deg: [0, 60, 120, 180, -120, -60] } },
  },
};

function design(document: DesignDocument): RingSpec {
  const swept = sweptDesign(document);
  if (!swept.ok) throw new Error(swept.fault[0].message);
  return swept.value;
}

function figuresOf(document: DesignDocument, sweep: SweepDocument): Float64Array {
  const row = new Float64Array(FIGURE_COUNT);
  new LayoutFigures(sweepOptions(sweep)).measure(mechanismFromDocument(document), row);
  return row;
}

describe('a layout loaded from a sweep', () => {
  it.each([
    ['the sample design', sampleDesign],
    ['leaning mounts', leaning],
    ['a design with holes', DEMOS.steady],
  ])('of %s has the figures that the sweep found', (_, document) => {
    for (const sweep of SWEEPS) {
      const grid = sweepAxes(sweep);
      const indices = [0, 3, 7, 8];
      const rows = sweepRows({ design: design(document), grid, options: sweepOptions(sweep) }, indices, neverStop);
      indices.forEach((index, n) => {
        const loaded = checked(withLayout(document, valuesAt(sweep, index)));
        if (!loaded.ok) throw new Error(loaded.fault);
        figuresOf(loaded.value, sweep).forEach((value, figure) => {
          const expected = rows[n * FIGURE_COUNT + figure];
          expect(Math.abs(value - expected)).toBeLessThanOrEqual(1e-9 * Math.abs(expected));
        });
      });
    }
  });

  it('stays as typed and has a short name', () => {
    const values = valuesAt(SWEEPS[0], 35);
    expect(values).toEqual({ baseGap_deg: 100, platformGap_deg: 90, radiusRatio: 1.3 });
    expect(layoutLabel({ baseGap_deg: 31, platformGap_deg: 42, radiusRatio: 0.74 })).toBe('Layout 31/42, ratio 0.74');
    expect(layoutLabel({ turn_deg: 5, homeHeight_mm: 150.123 })).toBe('Layout turn 5, height 150.12');
    expect(presentValues(withLayout(sampleDesign, values))).toMatchObject(values);
  });

  it('comes back in degrees from an optimiser that works in radians', () => {
    expect(valuesFromDimensions({ baseGap: (31 * Math.PI) / 180, homeHeight: 150 })).toEqual({
      baseGap_deg: 31,
      homeHeight_mm: 150,
    });
  });

  it('goes to the nearest holes of a design that has some, keeps them, and tells both figures', () => {
    const steady = DEMOS.steady;
    const values = { baseGap_deg: 31, platformGap_deg: 42, radiusRatio: 0.7 };
    const loaded = withLayoutOnHoles(steady, values);
    if (!('ring' in loaded.base) || !('ring' in loaded.platform)) throw new Error('rings stay rings');
    expect([loaded.base.ring.holes?.count, loaded.platform.ring.holes?.count]).toEqual([72, 72]);
    // 72 holes, 5 deg apart from 0: joints at half of 31 and of 42 deg go to the next hole
    expect(builtRing(loaded.base.ring, 'base').gap_deg).toBeCloseTo(30, 9);
    expect(builtRing(loaded.platform.ring, 'platform').gap_deg).toBeCloseTo(40, 9);
    const words = drilledWords(withLayout(steady, values), loaded, SWEEPS[0]);
    expect(words).toMatch(
      /^Ideal and as drilled: base gap 31 and 30 deg; platform gap 42 and 40 deg; reach [\d.]+ and /,
    );
    // the same two layouts measured the other way round: by the sweep's own figures of each
    const reach = [withLayout(steady, values), loaded].map((document) => figuresOf(document, SWEEPS[0])[0] / 1000);
    expect(words).toContain(`reach ${reach.map((value) => figure(value)).join(' and ')} cm³`);
    expect(reach[0]).not.toBeCloseTo(reach[1], 1);
  });

  it('is named by what differs from the design', () => {
    expect(changeLabel({ baseGap_deg: 20, platformGap_deg: 42, radiusRatio: 0.7 }, DEMOS.steady)).toBe(
      'Layout platform gap 42',
    );
    const same = { baseGap_deg: 20, platformGap_deg: 20, radiusRatio: 0.7 };
    expect(changeLabel(same, DEMOS.steady)).toBe('Layout 20/20, ratio 0.7');
  });

  it('cannot be given to a design with free points, which stays as it is', () => {
    const free = freePoints(sampleDesign, 'base');
    expect(withLayout(free, { baseGap_deg: 30 })).toBe(free);
    const swept = sweptDesign(free);
    expect(swept.ok ? '' : swept.fault[0].message).toMatch(/not both rings.*Give both plates as rings/);
  });
});

describe('what a sweep belongs to', () => {
  const identity = (document: DesignDocument, sweep: SweepDocument) =>
    sweepIdentity(design(document), sweepAxes(sweep), sweep, figureOptions(document, sweep).build);

  it('does not change with what the sweep varies, holes or names', () => {
    for (const sweep of SWEEPS.filter(({ variables }) => variables.every(({ name }) => name !== 'mountLean_deg'))) {
      const loaded = withLayout(sampleDesign, valuesAt(sweep, 5));
      expect(identity(loaded, sweep)).toEqual(identity(sampleDesign, sweep));
    }
    const sweep = SWEEPS[0];
    expect(identity({ ...sampleDesign, name: 'other' }, sweep)).toEqual(identity(sampleDesign, sweep));
    // what can be built is a figure too
    const thick = { ...sampleDesign, legs: { ...sampleDesign.legs, barrelDiameter_mm: 30 } };
    expect(identity(thick, sweep)).not.toEqual(identity(sampleDesign, sweep));
  });

  it('changes with everything else', () => {
    const sweep = SWEEPS[0];
    const joined = (['rodEnd', 'universal'] as const).map((kind) => changeJointKind(sampleDesign, 'base', kind));
    const others: readonly DesignDocument[] = [
      { ...sampleDesign, legs: { ...sampleDesign.legs, max_mm: 201 } },
      { ...sampleDesign, tool: { point_mm: [0, 0, 10] } },
      { ...sampleDesign, characteristicLength_mm: 71 },
      { ...sampleDesign, home: { ...sampleDesign.home, yaw_deg: 1 } },
      leaning,
      ...joined.flatMap((base) => [base, changeCrossAxis(base, 'base', 'radial'), changeTiltLimit(base, 'base', 20)]),
      changeSecondTilt(joined[1], 'base', 19),
    ];
    const keys = [sampleDesign, ...others].map((document) => identity(document, sweep).key);
    expect(new Set(keys).size).toBe(keys.length);
    expect(identity(sampleDesign, { ...sweep, firmnessFloor: 0.3 }).key).not.toBe(keys[0]);
  });
});

describe('holes', () => {
  it('of a loaded choice are those that were measured', () => {
    const holes = holeDesign(DEMOS.steady);
    if (!holes) throw new Error('the demo has hole circles');
    const choices = threefoldChoices(holes.circles.base, holes.circles.platform);
    for (let n = 0; n < choices.length; n += 701) {
      const measured = compileMechanism(withHoleChoice(holes.design, choices[n])).centres;
      const loaded = mechanismFromDocument(withChoice(DEMOS.steady, choices[n])).centres;
      for (const plate of ['base', 'platform'] as const) {
        loaded[plate].forEach((place, k) => {
          expect(place).toBeCloseTo(measured[plate][k], 9);
        });
      }
    }
  });

  it('have eight next steps, each one hole away', () => {
    const steps = neighbouringChoices(DEMOS.steady);
    expect(steps).toHaveLength(8);
    const before = mechanismFromDocument(DEMOS.steady).centres;
    for (const { document } of steps) {
      if (!document) throw new Error('the demo has room on all sides');
      const after = mechanismFromDocument(document).centres;
      for (const plate of ['base', 'platform'] as const) {
        for (let leg = 0; leg < 6; leg++) {
          const angle = (points: Float64Array) => Math.atan2(points[3 * leg + 1], points[3 * leg]);
          const turned = Math.abs(Math.sin((angle(after[plate]) - angle(before[plate])) / 2));
          const pitch = Math.sin(Math.PI / 72);
          expect(Math.min(turned, Math.abs(turned - pitch))).toBeLessThan(1e-9);
        }
      }
    }
  });
});
