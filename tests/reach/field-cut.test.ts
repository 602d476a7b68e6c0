import { quantile } from 'd3-array';
import { describe, expect, it } from 'vitest';
import { NO_ERRORS, sameErrors } from '../../src/kinematics/error-sources.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import { assessForces } from '../../src/kinematics/statics.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import type { Result } from '../../src/math/result.ts';
import { rotationFromAngles } from '../../src/math/rotation.ts';
import { length, subtract } from '../../src/math/vec3.ts';
import { fieldOver } from '../../src/reach/field/field.ts';
import { type CutPlane, type CutQuestion, fieldCut } from '../../src/reach/field/field-cut.ts';
import { valueRange } from '../../src/reach/field/field-range.ts';
import type { FieldSettings } from '../../src/reach/field/field-settings.ts';
import { signSurface } from '../../src/reach/field/field-sign-surface.ts';
import { DEG, mechanismOf, referenceLayout, ring } from '../kinematics/designs.ts';

const must = <Value>(result: Result<Value, { readonly message: string }>): Value => {
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
};

const mechanism = referenceLayout({
  legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 },
  joints: {
    base: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
    platform: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
  },
});
const R_BP = rotationFromAngles({ roll: 0.08, pitch: -0.05, yaw: 0.1 });
// a weight and a side force of half of it: some legs push here and pull there
const load = { ...payloadOnly({ mass: 1, centre: [0, 0, 0] }), force: [6, 0, 0] as const };
const settings: FieldSettings = {
  errors: sameErrors({ ...NO_ERRORS, zero: 0.05 }),
  stiffness: null,
  load,
  clearance: null,
};
const box = Float64Array.of(-75, -75, 95, 75, 75, 195);
const plane: CutPlane = { axis: 1, at: 7, low: [95, -75], high: [195, 75] };
const ask = (more: Partial<CutQuestion>): CutQuestion => ({
  plane,
  quantity: 'toolError',
  floors: [],
  leg: null,
  resolution: 40,
  ...more,
});

/** Place of a node: z runs along the first side of a cut square to y, x along the second. */
const placeOf = (n: number, [columns, rows]: readonly [number, number]) => {
  const [i, k] = [n % columns, Math.floor(n / columns)];
  return [-75 + (150 * k) / (rows - 1), 7, 95 + (100 * i) / (columns - 1)] as const;
};

describe('a plane cut', () => {
  it('holds the values that the field has at its nodes, and the sign of the reach there', () => {
    const cut = must(fieldCut(mechanism, R_BP, settings, ask({})));
    const places = Array.from(cut.values, (_, n) => placeOf(n, cut.nodes));
    const { quantities } = must(fieldOver(mechanism, R_BP, places.flat(), settings, ['toolError']));
    expect([...cut.values]).toEqual([...(quantities.toolError ?? [])]);
    places.forEach((p_BoTo_B, n) => {
      const broken = legStates(mechanism, { p_BoTo_B, R_BP }).some(({ violations }) => violations.length > 0);
      // rounding at the limit itself aside
      if (Math.abs(cut.room[n]) > 1e-6) expect(cut.room[n] < 0).toBe(broken);
    });
    expect(Math.max(...cut.room)).toBeGreaterThan(5);
    expect(Math.min(...cut.room)).toBeLessThan(-5);
  });

  it('says where floors are kept, the hardest one deciding', () => {
    const floors = [
      { quantity: 'toolError', value: 0.16 },
      { quantity: 'longMargin', value: 10 },
    ] as const;
    const cut = must(fieldCut(mechanism, R_BP, settings, ask({ floors })));
    const places = Array.from(cut.values, (_, n) => placeOf(n, cut.nodes));
    const { quantities } = must(fieldOver(mechanism, R_BP, places.flat(), settings, ['toolError', 'longMargin']));
    let kept = 0;
    cut.slack.forEach((slack, n) => {
      const both = (quantities.toolError?.[n] ?? 1) <= 0.16 && (quantities.longMargin?.[n] ?? -1) >= 10;
      if (Math.abs(slack) > 1e-5) expect(slack > 0).toBe(both);
      if (both) kept++;
    });
    expect(kept).toBeGreaterThan(20);
    expect(kept).toBeLessThan(cut.slack.length - 20);
  });

  it.each(['any', 3] as const)('changes sign where the force of %s does', (leg) => {
    const cut = must(fieldCut(mechanism, R_BP, settings, ask({ leg })));
    cut.sign.forEach((sign, n) => {
      if (cut.room[n] < 0) return;
      const { forces } = must(assessForces(mechanism, { p_BoTo_B: placeOf(n, cut.nodes), R_BP }, load));
      // det J keeps its sign over this reach, so all signs are the same or all are turned
      const own = leg === 'any' ? forces.reduce((product, force) => product * Math.sign(force), 1) : forces[leg - 1];
      signs.add(Math.sign(own) * Math.sign(sign));
    });
    expect(signs.size).toBe(1);
    signs.clear();
  });
  const signs = new Set<number>();

  it('has no value where the pose is singular, and says what is missing', () => {
    const level = rotationFromAngles({ roll: 0, pitch: 0, yaw: 0 });
    // at height 0 all legs of the two rings lie in one plane
    const flat: CutPlane = { axis: 2, at: 0, low: [-5, -5], high: [5, 5] };
    const cut = must(fieldCut(mechanism, level, settings, ask({ plane: flat, quantity: 'legForce' })));
    expect(cut.values.every(Number.isNaN)).toBe(true);
    const missing = fieldCut(mechanism, R_BP, settings, ask({ quantity: 'stiffness' }));
    expect(!missing.ok && missing.fault.message).toContain('"stiffness"');
  });
});

describe('the surfaces of zero force', () => {
  const surface = must(signSurface(mechanism, R_BP, settings, box));

  it('lie where the single-pose judgement finds next to no force in that leg', () => {
    const { positions, room, legs } = surface;
    let seen = 0;
    legs.forEach((leg, n) => {
      if (room[n] < 0) return;
      seen++;
      const p_BoTo_B = [positions[3 * n], positions[3 * n + 1], positions[3 * n + 2]] as const;
      const { forces } = must(assessForces(mechanism, { p_BoTo_B, R_BP }, load));
      // forces are up to some 10 N; single precision of the place and two secant steps leave this
      expect(Math.abs(forces[leg - 1])).toBeLessThan(5e-3);
    });
    expect(seen).toBeGreaterThan(100);
  });

  it('belong to just the legs that push at some and pull at other of 4000 random places (seed 121)', () => {
    const random = seededRandom(121);
    const pushes = new Set<number>();
    const pulls = new Set<number>();
    for (let n = 0; n < 4000; n++) {
      const p_BoTo_B = [uniform(random, -75, 75), uniform(random, -75, 75), uniform(random, 95, 195)] as const;
      if (legStates(mechanism, { p_BoTo_B, R_BP }).some(({ violations }) => violations.length > 0)) continue;
      must(assessForces(mechanism, { p_BoTo_B, R_BP }, load)).forces.forEach((force, leg) => {
        (force > 0 ? pushes : pulls).add(leg + 1);
      });
    }
    const both = [1, 2, 3, 4, 5, 6].filter((leg) => pushes.has(leg) && pulls.has(leg));
    expect(both.length).toBeGreaterThan(0);
    expect(surface.changing).toEqual(both);
  });

  it('are closed up to their rim: an edge inside of the reach has two triangles', () => {
    const { indices, room, legs } = surface;
    const edges = new Map<string, number>();
    for (let t = 0; t < indices.length; t += 3)
      for (const [a, b] of [
        [0, 1],
        [1, 2],
        [2, 0],
      ]) {
        const [from, to] = [indices[t + a], indices[t + b]];
        expect(legs[from]).toBe(legs[to]);
        const key = `${Math.min(from, to)} ${Math.max(from, to)}`;
        edges.set(key, (edges.get(key) ?? 0) + 1);
      }
    for (const [key, count] of edges) {
      const [from, to] = key.split(' ').map(Number);
      if (room[from] > 0 && room[to] > 0) expect(count).toBe(2);
    }
  });

  it('do not exist without a load, nor where all legs push', () => {
    const none = payloadOnly({ mass: 0, centre: [0, 0, 0] });
    expect(must(signSurface(mechanism, R_BP, { ...settings, load: none }, box)).indices).toHaveLength(0);
    const level = rotationFromAngles({ roll: 0, pitch: 0, yaw: 0 });
    const near = Float64Array.of(-3, -3, 148, 3, 3, 152);
    const weight = payloadOnly({ mass: 1, centre: [0, 0, 0] });
    expect(must(signSurface(mechanism, level, { ...settings, load: weight }, near)).changing).toEqual([]);
  });

  it('are not drawn where every pose is singular: evenly spaced joints', () => {
    const even = mechanismOf(ring(100, 60), ring(100, 60), 160, { legs: mechanism.spec.legs });
    const level = rotationFromAngles({ roll: 0, pitch: 0, yaw: 0 });
    const found = must(signSurface(even, level, settings, box));
    expect([found.singular, found.indices.length, found.changing.length]).toEqual([true, 0, 0]);
    expect(surface.singular).toBe(false);
    const cut = must(fieldCut(even, level, settings, ask({ leg: 'any' })));
    expect(cut.sign.every((sign) => sign === 1)).toBe(true);
  });

  it('have normals of length one', () => {
    const { normals } = surface;
    for (let n = 0; n < normals.length; n += 3)
      expect(length(subtract([normals[n], normals[n + 1], normals[n + 2]], [0, 0, 0]))).toBeCloseTo(1, 5);
  });
});

describe('the spread of values', () => {
  it('leaves out what is not finite, and two of a hundred at either end', () => {
    const random = seededRandom(122);
    const values = Float32Array.from({ length: 2001 }, () => uniform(random, -4, 9));
    const sorted = [...values].sort((a, b) => a - b);
    const spoilt = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    const range = valueRange(Float32Array.from([...values.subarray(0, 700), ...spoilt]), values.subarray(700));
    expect(range?.count).toBe(2001);
    expect(range?.min).toBe(sorted[0]);
    expect(range?.max).toBe(sorted[2000]);
    expect(range?.low).toBeCloseTo(quantile(sorted, 0.02) ?? Number.NaN, 5);
    expect(range?.high).toBeCloseTo(quantile(sorted, 0.98) ?? Number.NaN, 5);
    expect(valueRange(Float32Array.from(spoilt))).toBeNull();
  });
});
