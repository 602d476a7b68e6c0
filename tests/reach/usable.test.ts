import { describe, expect, it } from 'vitest';
import { NO_ERRORS, sameErrors } from '../../src/kinematics/error-sources.ts';
import { defaultClearance } from '../../src/kinematics/keep-out.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { sameStiffness } from '../../src/kinematics/stiffness.ts';
import { seededRandom } from '../../src/math/random.ts';
import { type Mat3, rotationFromAngles } from '../../src/math/rotation.ts';
import { measureReach } from '../../src/reach/columns/meter.ts';
import { unusableWords, usableReach } from '../../src/reach/columns/usable.ts';
import { fieldOver } from '../../src/reach/field/field.ts';
import type { FieldSettings } from '../../src/reach/field/field-settings.ts';
import { type Floor, QUANTITIES, QUANTITY_NAMES } from '../../src/terms/quantities.ts';
import { DEG, referenceLayout, withKinds } from '../kinematics/designs.ts';
import { kindsReach } from './random-layouts.ts';

const level = rotationFromAngles({ roll: 0, pitch: 0, yaw: 0 });

const aimed = {
  legs: { min: 130, max: 195, barrelDiameter: 22, rodDiameter: 10 },
  joints: {
    base: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
    platform: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
  },
} as const;

const settingsOf = (mechanism: Mechanism): Required<FieldSettings> => ({
  errors: sameErrors({ ...NO_ERRORS, resolution: 0.02, basePlay: 0.02, platformPlay: 0.02 }),
  stiffness: sameStiffness({ leg: 800, baseJoint: 4000, platformJoint: 4000 }),
  load: payloadOnly({ mass: 3, centre: [10, 0, 30] }),
  clearance: defaultClearance(mechanism),
});

const must = <Value>(result: { ok: true; value: Value } | { ok: false; fault: { message: string } }): Value => {
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
};

/**
 * The referee: a plain count of cells whose middle keeps all limits and floors, flooded from home's cell. Only the values
 * of single positions are shared with the program.
 */
function counted(
  mechanism: Mechanism,
  R_BP: Mat3,
  settings: FieldSettings,
  floors: readonly Floor[],
  cells: number,
  low: readonly number[],
  size: number,
) {
  const step = size / cells;
  const positions = new Float64Array(3 * cells ** 3);
  for (let n = 0; n < cells ** 3; n++) {
    const at = [n % cells, Math.floor(n / cells) % cells, Math.floor(n / cells ** 2)];
    for (let axis = 0; axis < 3; axis++) positions[3 * n + axis] = low[axis] + (at[axis] + 0.5) * step;
  }
  const { quantities } = must(fieldOver(mechanism, R_BP, positions, settings, QUANTITY_NAMES));
  const limits: readonly Floor[] = (['shortMargin', 'longMargin', 'baseMargin', 'platformMargin'] as const).map(
    (quantity) => ({ quantity, value: 0 }),
  );
  const usable = new Uint8Array(cells ** 3).fill(1);
  for (const { quantity, value } of [...limits, ...floors]) {
    const sense = QUANTITIES[quantity].better === 'more' ? 1 : -1;
    quantities[quantity]?.forEach((found, n) => {
      if (!(sense * (found - value) >= 0)) usable[n] = 0;
    });
  }
  const home = mechanism.home.p_BoTo_B.map((entry, axis) => Math.floor((entry - low[axis]) / step));
  const flooded = new Uint8Array(cells ** 3);
  const stack = [home[0] + cells * (home[1] + cells * home[2])];
  let count = 0;
  for (let n = stack.pop(); n !== undefined; n = stack.pop()) {
    if (!usable[n] || flooded[n]) continue;
    flooded[n] = 1;
    count++;
    if (n % cells > 0) stack.push(n - 1);
    if (n % cells < cells - 1) stack.push(n + 1);
    if (Math.floor(n / cells) % cells > 0) stack.push(n - cells);
    if (Math.floor(n / cells) % cells < cells - 1) stack.push(n + cells);
    stack.push(n - cells ** 2, n + cells ** 2);
  }
  return count * step ** 3;
}

const across = { kind: 'rodEnd', bolt: { kind: 'acrossLeg' } } as const;

describe('usable volume', () => {
  it('without floors is the part of the reach connected to home', () => {
    const mechanism = referenceLayout(aimed);
    const usable = must(usableReach(mechanism, level, settingsOf(mechanism), [], { relativeError: 0.003 }));
    const reach = measureReach(mechanism, level, { relativeError: 0.002 });
    expect(Math.abs(usable.usable / reach.home.volume - 1)).toBeLessThan(0.006);
    expect(Math.abs(usable.reachable / reach.volume - 1)).toBeLessThan(0.006);
    expect(usable.homeSide).toBe(1);
    expect(usable.reason).toBeNull();
  });

  const floorSets: readonly { name: string; R_BP: Mat3; floors: readonly Floor[] }[] = [
    {
      name: 'clearance and stiffness',
      R_BP: level,
      floors: [
        { quantity: 'clearance', value: 3.5 },
        { quantity: 'stiffness', value: 260 },
      ],
    },
    {
      name: 'leg force and condition',
      R_BP: level,
      floors: [
        { quantity: 'legForce', value: 13 },
        { quantity: 'condition', value: 3.6 },
      ],
    },
    {
      name: 'tool error, tilted',
      R_BP: rotationFromAngles({ roll: 0.12, pitch: -0.08, yaw: 0.2 }),
      floors: [{ quantity: 'toolError', value: 0.109 }],
    },
  ];
  for (const { name, R_BP, floors } of floorSets)
    it(`is what a flooded count of cells finds, ${name}`, () => {
      const mechanism = referenceLayout(aimed);
      const settings = settingsOf(mechanism);
      const usable = must(usableReach(mechanism, R_BP, settings, floors));
      const count = counted(mechanism, R_BP, settings, floors, 56, [-70, -70, 80], 140);
      // cells of 2.5 mm: the count itself is good to a percent or two
      expect(Math.abs(usable.usable / count - 1)).toBeLessThan(0.03);
      // the floors must cut something away, or the comparison means nothing
      expect(usable.usable).toBeLessThan(0.95 * usable.reachable);
      expect(usable.usable).toBeGreaterThan(0.02 * usable.reachable);
    });

  it('tells of one floor the share that the volume above it is of the reach, however small that is', () => {
    // derived: with one floor and no singular pose in the way both are the same set
    const mechanism = referenceLayout(aimed);
    const settings = settingsOf(mechanism);
    const seen: number[] = [];
    for (const value of [5.1, 5.3, 6, 9, 12, 14]) {
      const usable = must(usableReach(mechanism, level, settings, [{ quantity: 'legForce', value }]));
      const expected = usable.usableAnywhere / usable.reachable;
      seen.push(expected);
      expect(Math.abs(usable.floors[0].share - expected), `floor ${value}`).toBeLessThan(0.01);
    }
    expect(Math.min(...seen)).toBeLessThan(0.01);
    expect(Math.max(...seen)).toBeGreaterThan(0.5);
  });

  it('stops at a singular wall: half of a reach that is its own mirror image in the base plane', () => {
    // level and planar: det J changes sign with height, and short legs reach through (derived)
    const free = { tiltLimit: Math.PI, mount: { kind: 'aimed' } } as const;
    const mechanism = referenceLayout({
      legs: { min: 40, max: 150, barrelDiameter: 22, rodDiameter: 10 },
      joints: { base: free, platform: free },
      home: { p_BoTo_B: [0, 0, 100], R_BP: level },
    });
    const usable = must(usableReach(mechanism, level, settingsOf(mechanism), []));
    expect(usable.usable / usable.reachable).toBeCloseTo(0.5, 2);
    expect(usable.homeSide).toBeGreaterThan(0.4);
    expect(usable.homeSide).toBeLessThan(0.6);
  });

  it('takes other joints than balls: a band reaches farther than the cone of the same angle', () => {
    const tight = { tiltLimit: 12 * DEG, mount: { kind: 'aimed' } } as const;
    const balls = referenceLayout({ ...aimed, joints: { base: tight, platform: tight } });
    const rodEnds = withKinds(balls, across, across);
    const band = must(usableReach(rodEnds, level, settingsOf(rodEnds), []));
    const cone = must(usableReach(balls, level, settingsOf(balls), []));
    expect(band.usable).toBeGreaterThan(1.05 * cone.usable);
    const count = counted(rodEnds, level, settingsOf(rodEnds), [], 56, [-110, -110, 0], 220);
    expect(Math.abs(band.usable / count - 1)).toBeLessThan(0.05);
  });

  it('leaves out the reach with the platform below the base, which rod ends allow but nothing leads to', () => {
    const mechanism = withKinds(referenceLayout(aimed), across, across);
    const usable = must(usableReach(mechanism, level, settingsOf(mechanism), [{ quantity: 'condition', value: 3.6 }]));
    const reach = measureReach(mechanism, level);
    // a rod end takes a leg and its opposite alike, so that level reach is its own mirror image in the base plane (derived)
    expect(reach.home.islands).toBe(1);
    expect(reach.home.volume / reach.volume).toBeCloseTo(0.5, 3);
    expect(Math.abs(usable.reachable / reach.home.volume - 1)).toBeLessThan(0.006);
    // upside down det J has the other sign; sampled home's part has but one
    expect(usable.homeSide).toBe(1);
  });

  it('is never more than the reach, whatever the joints (60 layouts, seed 121)', () => {
    const random = seededRandom(121);
    const nothing = { errors: null, stiffness: null, load: null, clearance: null } as const;
    let reached = 0;
    for (let n = 0; n < 60; n++) {
      const { mechanism, R_BP } = kindsReach(random);
      const usable = must(usableReach(mechanism, R_BP, nothing, []));
      const reach = measureReach(mechanism, R_BP);
      expect(usable.usable).toBeLessThanOrEqual(usable.reachable);
      const whole = reach.home.volume > 0 ? reach.home.volume : reach.volume;
      // two integrations of one volume, each with its own error
      expect(Math.abs(usable.reachable - whole)).toBeLessThanOrEqual((0.004 + 1.5 * reach.errorEstimate) * whole);
      if (usable.usable > 0) reached++;
    }
    expect(reached).toBeGreaterThan(25);
  });

  it('says why nothing is usable', () => {
    const mechanism = referenceLayout(aimed);
    const words = (floors: readonly Floor[], own = mechanism) => {
      const { reason } = must(usableReach(own, level, settingsOf(own), floors));
      return reason ? unusableWords(reason) : '';
    };
    expect(words([{ quantity: 'stiffness', value: 5000 }])).toMatch(
      /^Nothing in the reach has a weakest stiffness of at least 5000 N\/mm; the best found is \d+ N\/mm\.$/,
    );
    expect(words([{ quantity: 'condition', value: 1.01 }])).toContain('at most 1.01; the best found is');
    const turned = referenceLayout({
      ...aimed,
      home: { p_BoTo_B: [0, 0, 0], R_BP: level },
    });
    expect(words([], turned)).toContain('home pose is singular');
    const bad = usableReach(mechanism, level, settingsOf(mechanism), [{ quantity: 'clearance', value: Number.NaN }]);
    expect(!bad.ok && bad.fault.message).toContain('"clearance" is NaN');
  });
});
