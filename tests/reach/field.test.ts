import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { assessAccuracy } from '../../src/kinematics/accuracy.ts';
import { assessArchitecture } from '../../src/kinematics/architecture.ts';
import { assessClearance } from '../../src/kinematics/clearance.ts';
import { type LegErrors, sameErrors } from '../../src/kinematics/error-sources.ts';
import { assessIndependence } from '../../src/kinematics/independence.ts';
import { jointStates } from '../../src/kinematics/joint-limits.ts';
import { defaultClearance } from '../../src/kinematics/keep-out.ts';
import { legLengths } from '../../src/kinematics/legs.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { assessForces } from '../../src/kinematics/statics.ts';
import { assessStiffness, sameStiffness } from '../../src/kinematics/stiffness.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import type { Result } from '../../src/math/result.ts';
import { rotationFromAngles } from '../../src/math/rotation.ts';
import { largestEigenvalue3 } from '../../src/math/symmetric3.ts';
import { fieldOver } from '../../src/reach/field/field.ts';
import type { FieldSettings } from '../../src/reach/field/field-settings.ts';
import { QUANTITY_NAMES } from '../../src/terms/quantities.ts';
import { DEG, mechanismOf, points, referenceLayout, withKinds } from '../kinematics/designs.ts';

const must = <Value>(result: Result<Value, { readonly message: string }>): Value => {
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
};

const errors: LegErrors = {
  resolution: 0.01,
  backlash: 0.02,
  zero: 0.01,
  basePlay: 0.02,
  platformPlay: 0.03,
  baseHole: 0.05,
  platformHole: 0.04,
  baseSeat: 0.02,
  platformSeat: 0.01,
};

const joints = {
  base: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
  platform: { tiltLimit: 28 * DEG, mount: { kind: 'aimed' } },
} as const;

/** One position judged by the single-pose functions, which have their own outside checks. */
function slowly(mechanism: Mechanism, pose: Pose, settings: Required<FieldSettings>): readonly number[] {
  const { load, stiffness, clearance, errors: own } = settings;
  if (!load || !stiffness || !clearance || !own) throw new Error('settings');
  const forces = must(assessForces(mechanism, pose, load)).forces;
  const lengths = legLengths(mechanism, pose);
  const states = jointStates(mechanism, pose);
  return [
    assessIndependence(mechanism, pose, assessArchitecture(mechanism)).condition,
    assessIndependence(mechanism, pose, assessArchitecture(mechanism)).firmness,
    must(assessAccuracy(mechanism, pose, own)).worst.translationLength,
    must(assessStiffness(mechanism, pose, stiffness, load)).weakestTranslation.stiffness,
    Math.max(...forces.map(Math.abs)),
    Math.min(...forces),
    must(assessClearance(mechanism, pose, clearance)).smallest?.distance ?? Number.POSITIVE_INFINITY,
    Math.min(...lengths) - mechanism.legs.min,
    mechanism.legs.max - Math.max(...lengths),
    Math.min(...states.map(({ baseMargin }) => baseMargin)),
    Math.min(...states.map(({ platformMargin }) => platformMargin)),
  ];
}

const across = { kind: 'acrossLeg' } as const;
const rodEnd = { kind: 'rodEnd', bolt: across } as const;
const universal = { kind: 'universal', first: across, secondLimit: 0.5 } as const;

function settingsOf(mechanism: Mechanism): Required<FieldSettings> {
  const counterweight = { kind: 'counterweight', anchor_B: [0, 0, 800], attach_P: [0, 0, 0], pull: 15 } as const;
  return {
    errors: sameErrors(errors),
    stiffness: sameStiffness({ leg: 700, baseJoint: 5000, platformJoint: 3000 }),
    load: {
      ...payloadOnly({ mass: 3, centre: [5, -4, 30] }),
      balances: mechanism.spec.joints.base.kind?.kind === 'rodEnd' ? [counterweight] : [],
    },
    clearance: {
      ...defaultClearance(mechanism),
      payload: { kind: 'cylinder', from: [0, 0, 12], to: [0, 0, 60], radius: 40 },
    },
  };
}

describe('field', () => {
  const more = { joints, tool: [3, 2, 25], legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 } } as const;
  const freePoints = mechanismOf(
    points(referenceLayout().centres.base.map((entry, n) => entry + (n % 3 === 2 ? (n % 5) - 2 : (n % 4) - 1.5))),
    points(referenceLayout().centres.platform.map((entry, n) => entry + ((n % 7) - 3))),
    150,
    more,
  );
  for (const [name, mechanism] of [
    ['rings with ball joints', referenceLayout(more)],
    ['rings with rod ends and a counterweight', withKinds(referenceLayout(more), rodEnd, rodEnd)],
    ['free points with universal joints', withKinds(freePoints, universal, universal)],
  ] as const)
    it(`equals the single-pose judgements, ${name} (seed 111)`, () => {
      const random = seededRandom(111);
      const settings = settingsOf(mechanism);
      const R_BP = rotationFromAngles({ roll: 0.15, pitch: -0.1, yaw: 0.25 });
      const count = 60;
      const positions = Float64Array.from({ length: 3 * count }, (_, n) =>
        n % 3 === 2 ? uniform(random, 140, 200) : uniform(random, -40, 40),
      );
      const { quantities } = must(fieldOver(mechanism, R_BP, positions, settings, QUANTITY_NAMES));
      for (let n = 0; n < count; n++) {
        const pose: Pose = { p_BoTo_B: [positions[3 * n], positions[3 * n + 1], positions[3 * n + 2]], R_BP };
        const expected = slowly(mechanism, pose, settings);
        QUANTITY_NAMES.forEach((quantity, k) => {
          const found = quantities[quantity]?.[n] ?? Number.NaN;
          // single precision: 6e-8 of the value; angles near zero tilt to 1e-7
          expect(Math.abs(found - expected[k])).toBeLessThan(2e-7 * Math.abs(expected[k]) + 2e-7);
        });
      }
    });

  it('has no tool error where the legs’ errors move the tool further than the first order holds, near yaw 90 deg', () => {
    const mechanism = referenceLayout();
    const settings = settingsOf(mechanism);
    const seen = new Set<boolean>();
    for (const yaw of [40, 70, 80, 85, 87, 89, 89.9, 89.999]) {
      const R_BP = rotationFromAngles({ roll: 0, pitch: 0, yaw: yaw * DEG });
      const pose: Pose = { p_BoTo_B: [0, 0, 110], R_BP };
      const { worst } = must(assessAccuracy(mechanism, pose, settings.errors ?? []));
      // referee: a tenth of the platform's joint radius of 70 mm, and a tenth of a radian
      const holds = worst.translationLength <= 7 && worst.rotationLength <= 0.1;
      seen.add(holds);
      const { quantities } = must(fieldOver(mechanism, R_BP, pose.p_BoTo_B, settings, ['toolError']));
      const expected = holds ? Math.fround(worst.translationLength) : Number.POSITIVE_INFINITY;
      expect(quantities.toolError?.[0], `yaw ${yaw}`).toBe(expected);
    }
    expect(seen.size).toBe(2);
  });

  it('calls a singular pose endless and weak, never NaN', () => {
    const mechanism = referenceLayout();
    const settings = settingsOf(mechanism);
    // parallel rings at the same height: all legs in one plane, det J is exactly 0 there
    const R_BP = rotationFromAngles({ roll: 0, pitch: 0, yaw: 0 });
    const { quantities } = must(fieldOver(mechanism, R_BP, [0, 0, 0], settings, QUANTITY_NAMES));
    expect(quantities.condition?.[0]).toBeGreaterThan(1e9);
    expect(quantities.toolError?.[0]).toBe(Number.POSITIVE_INFINITY);
    expect(quantities.stiffness?.[0]).toBe(0);
    expect(quantities.legForce?.[0]).toBe(Number.POSITIVE_INFINITY);
    for (const quantity of QUANTITY_NAMES) expect(Number.isNaN(quantities[quantity]?.[0])).toBe(false);
  });

  it('keeps what was done when it is stopped', () => {
    const mechanism = referenceLayout();
    let looks = 0;
    const { count, quantities } = must(
      fieldOver(
        mechanism,
        rotationFromAngles({ roll: 0, pitch: 0, yaw: 0 }),
        new Float64Array(9000).fill(150),
        settingsOf(mechanism),
        ['condition'],
        { report: () => undefined, shouldStop: () => ++looks > 2 },
      ),
    );
    expect(count).toBe(2048);
    expect(quantities.condition?.[2047]).toBeGreaterThan(1);
    expect(quantities.condition?.[2048]).toBe(0);
  });

  it('says what is missing', () => {
    const mechanism = referenceLayout();
    const bare: FieldSettings = { errors: null, stiffness: null, load: null, clearance: null };
    const R_BP = rotationFromAngles({ roll: 0, pitch: 0, yaw: 0 });
    const result = fieldOver(mechanism, R_BP, [0, 0, 150], bare, ['condition', 'clearance']);
    expect(!result.ok && result.fault.message).toContain('"clearance"');
    const bad = fieldOver(mechanism, R_BP, [0, 0], bare, ['condition']);
    expect(!bad.ok && bad.fault.message).toContain('2 coordinates');
  });
});

describe('largest eigenvalue of a symmetric 3x3', () => {
  it('is that of a general library, degenerate ones included (seed 112)', () => {
    const random = seededRandom(112);
    for (let n = 0; n < 300; n++) {
      const F = Array.from({ length: 9 }, () => uniform(random, -1, 1) * (n % 3 === 0 ? 1 : 100));
      const rank = 1 + (n % 3);
      const M = Matrix.zeros(3, 3);
      for (let k = 0; k < rank; k++) {
        const f = Matrix.columnVector(F.slice(3 * k, 3 * k + 3));
        M.add(f.mmul(f.transpose()));
      }
      const largest = Math.max(...new EigenvalueDecomposition(M, { assumeSymmetric: true }).realEigenvalues);
      const found = largestEigenvalue3(M.get(0, 0), M.get(1, 1), M.get(2, 2), M.get(0, 1), M.get(0, 2), M.get(1, 2));
      expect(found / largest).toBeCloseTo(1, 12);
    }
    expect(largestEigenvalue3(2, 2, 2, 0, 0, 0)).toBe(2);
    expect(largestEigenvalue3(0, 0, 0, 0, 0, 0)).toBe(0);
  });
});
