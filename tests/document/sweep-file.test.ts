import { describe, expect, it } from 'vitest';
import {
  readSweep,
  STANDARD_SWEEP,
  sweepAxes,
  sweepOptions,
  sweepSize,
  sweepValues,
  validateSweep,
} from '../../src/document/sweep-file.ts';

const variables = STANDARD_SWEEP.variables;
const messages = (value: unknown): readonly string[] => {
  const read = validateSweep(value);
  return read.ok ? [] : read.fault.map(({ message }) => message);
};

describe('sweep file', () => {
  it('reads back the standard sweep of 60 x 60 x 60 layouts', () => {
    expect(readSweep(JSON.stringify(STANDARD_SWEEP))).toEqual({ ok: true, value: STANDARD_SWEEP });
    expect(sweepSize(STANDARD_SWEEP)).toBe(216_000);
  });

  it('fills in what may be left out', () => {
    const read = validateSweep({ format: 'legroom-sweep', version: 1, variables: [variables[0]] });
    expect(read).toMatchObject({ ok: true, value: { tilt_deg: 10, firmnessFloor: 0.25, deadLength_mm: 0 } });
  });

  it('spaces values evenly with both ends, and turns degrees into radians once', () => {
    expect(sweepValues({ name: 'turn_deg', from: -30, to: 30, count: 5 })).toEqual([-30, -15, 0, 15, 30]);
    expect(sweepValues({ name: 'turn_deg', from: 4, to: 9, count: 1 })).toEqual([4]);
    const [axis] = sweepAxes({ ...STANDARD_SWEEP, variables: [{ name: 'turn_deg', from: 0, to: 45, count: 2 }] });
    expect(axis.name).toBe('turn');
    expect(axis.values[1]).toBeCloseTo(Math.PI / 4, 15);
    expect(sweepOptions(STANDARD_SWEEP).tilt).toBeCloseTo(Math.PI / 18, 15);
  });

  it.each([
    [{ variables: [] }, 'variables is a list of 0; it must be a list of 1 or more. Replace it.'],
    [
      { variables: [{ name: 'baseGap_deg', from: 30, to: 10, count: 5 }] },
      'variables[0].to is 10; it must be 30 (from) or more. Exchange from and to.',
    ],
    [
      { variables: [{ name: 'baseGap_deg', from: 30, to: 30, count: 5 }] },
      'variables[0] is empty (from 30 to 30); it must be a range. Widen the range, or set count to 1.',
    ],
    [
      { variables: [{ name: 'baseGap_deg', from: -1, to: 130, count: 5 }] },
      'variables[0].from is -1; it must be from 0 to 120. Raise it to 0 or more.',
    ],
    [
      { variables: [variables[0], variables[0]] },
      'variables[1].name is "baseGap_deg" again; it must be named once. Remove one.',
    ],
    [
      { variables: [variables[2], { name: 'platformRadius_mm', from: 10, to: 20, count: 2 }] },
      'variables is setting the platform radius twice; it must be one of radiusRatio and platformRadius_mm. Remove one of them.',
    ],
    [
      { tilt: 5 },
      'tilt is an unknown key; it must be one of format, version, variables, tilt_deg, firmnessFloor, deadLength_mm. Rename it to tilt_deg, or remove it.',
    ],
    [{ version: 2 }, 'version is 2; it must be 1. Replace it.'],
    [
      { variables: [{ name: 'homeHeight_mm', from: 1e-310, to: 130, count: 5 }] },
      'variables[0].from is 1e-310; it must be 0, or at least 1e-100 away from it. Write 0, or a larger number.',
    ],
    [{ tilt_deg: 5e-324 }, 'tilt_deg is 5e-324; it must be 0, or at least 1e-100. Replace it.'],
    [{ tilt_deg: 90 }, 'tilt_deg is 90; it must be 60 or less. Replace it.'],
  ])('refuses %j with a clear line', (change, message) => {
    expect(messages({ ...STANDARD_SWEEP, ...change })).toContain(message);
  });

  it('never throws on nonsense', () => {
    for (const text of ['', '{', '[]', 'null', '{"format":"legroom-design"}', '{"__proto__":1}', '1e999']) {
      expect(readSweep(text).ok).toBe(false);
    }
  });
});
