import { describe, expect, it } from 'vitest';
import { assessAccuracy } from '../../src/kinematics/accuracy.ts';
import { NO_ERRORS, sameErrors } from '../../src/kinematics/error-sources.ts';
import { compileMechanism } from '../../src/kinematics/mechanism.ts';
import { dimensionsOf } from '../../src/reach/dimensions.ts';
import type { FieldSettings } from '../../src/reach/field/field-settings.ts';
import { whatHelps } from '../../src/reach/what-helps.ts';
import { DEG, mechanismOf, points, referenceLayout, ring } from '../kinematics/designs.ts';

const settings: FieldSettings = {
  errors: sameErrors({ ...NO_ERRORS, zero: 0.05, baseHole: 0.02 }),
  stiffness: null,
  load: null,
  clearance: null,
};

const must = (result: ReturnType<typeof whatHelps>) => {
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
};

describe('what helps', () => {
  it('for equal rings of one pattern is the derivative of 2 pi/3 (max^3 - min^3) (derived)', () => {
    // the leg constraint is one shell; joints that tilt up to 90 deg from upright keep the upper half
    const base = mechanismOf(ring(80, 30), ring(80, 30), 100).centres.base;
    const joints = { tiltLimit: Math.PI / 2, mount: { kind: 'square' } } as const;
    const { spec } = mechanismOf(points(base), points(base), 150, {
      legs: { min: 120, max: 200, barrelDiameter: 20, rodDiameter: 10 },
      joints: { base: joints, platform: { tiltLimit: Math.PI, mount: { kind: 'square' } } },
    });
    const { helps, reach } = must(whatHelps(spec, () => settings, null));
    const of = (name: string) => helps.find(({ dimension }) => dimension.name === name)?.reach ?? Number.NaN;
    expect(reach / (((2 * Math.PI) / 3) * (200 ** 3 - 120 ** 3))).toBeCloseTo(1, 2);
    expect(of('legMax') / (2 * Math.PI * 200 ** 2)).toBeCloseTo(1, 1);
    expect(of('legMin') / (-2 * Math.PI * 120 ** 2)).toBeCloseTo(1, 1);
    expect(of('homeHeight')).toBeCloseTo(0, 3);
    expect(helps.map(({ dimension }) => dimension.name)).not.toContain('baseRadius');
  });

  it('has the error slopes that smaller steps find', () => {
    const joints = { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } } as const;
    const { spec } = referenceLayout({
      legs: { min: 130, max: 195, barrelDiameter: 22, rodDiameter: 10 },
      joints: { base: joints, platform: joints },
    });
    const { helps, toolError } = must(whatHelps(spec, () => settings, null));
    const errorOf = (own: typeof spec) => {
      const mechanism = compileMechanism(own);
      const accuracy = assessAccuracy(mechanism, mechanism.home, settings.errors ?? []);
      if (!accuracy.ok) throw new Error(accuracy.fault.message);
      return accuracy.value.worst.translationLength;
    };
    expect(toolError).toBe(errorOf(spec));
    for (const { dimension, toolError: slope } of helps) {
      const step = 1e-4 * (dimension.unit === 'mm' ? 100 : 1);
      const small =
        (errorOf(dimension.apply(dimension.value + step)) - errorOf(dimension.apply(dimension.value - step))) /
        (2 * step);
      // the report's steps are 2 %, so curvature shows
      expect(Math.abs((slope ?? Number.NaN) - small)).toBeLessThan(0.03 * Math.abs(small) + 1e-5);
    }
    expect(helps.map(({ dimension }) => dimension.name)).toEqual(dimensionsOf(spec).map(({ name }) => name));
    // longer legs and freer joints never reach less
    for (const name of ['legMax', 'baseTilt', 'platformTilt'])
      expect(helps.find(({ dimension }) => dimension.name === name)?.reach).toBeGreaterThanOrEqual(0);
  });

  it('tells the two sides apart where a limit binds: joints aimed alike at both ends tilt alike (derived)', () => {
    // at the home orientation a leg makes the same angle with both of its mounts, so more room at one end alone is no room
    const joints = { tiltLimit: 20 * DEG, mount: { kind: 'aimed' } } as const;
    const { spec } = referenceLayout({
      legs: { min: 130, max: 195, barrelDiameter: 22, rodDiameter: 10 },
      joints: { base: joints, platform: joints },
    });
    const { helps } = must(whatHelps(spec, () => settings, null));
    const of = (name: string) => {
      const found = helps.find(({ dimension }) => dimension.name === name);
      if (!found) throw new Error(`no ${name}`);
      return found;
    };
    for (const name of ['baseTilt', 'platformTilt']) {
      const { up, down, sideError } = of(name);
      expect(Math.abs(up.reach)).toBeLessThan(sideError.reach);
      expect(down.reach).toBeGreaterThan(5 * sideError.reach);
    }
    const { up, down, reach, sideError } = of('legMax');
    expect(Math.abs(up.reach - down.reach)).toBeLessThan(0.15 * up.reach + 2 * sideError.reach);
    expect(reach).toBeCloseTo((up.reach + down.reach) / 2, 6);
  });

  it('asks for usable volume only with floors, and keeps what was done when stopped', () => {
    const { spec } = referenceLayout({ legs: { min: 140, max: 180, barrelDiameter: 22, rodDiameter: 10 } });
    let looks = 0;
    const { helps, usable } = must(
      whatHelps(spec, () => settings, [{ quantity: 'toolError', value: 0.4 }], {
        report: () => undefined,
        shouldStop: () => ++looks > 1,
      }),
    );
    expect(usable).toBeGreaterThan(0);
    expect(helps).toHaveLength(1);
    expect(helps[0].usable).not.toBeNull();
  });
});
