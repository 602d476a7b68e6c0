import { describe, expect, it } from 'vitest';
import {
  idealJointAngles,
  jointAngles,
  meanJointRadius,
  nearestHole,
  ringJoints,
} from '../../src/kinematics/layout.ts';
import { DEG } from './designs.ts';

const inDegrees = (angles: Float64Array) => Array.from(angles, (angle) => angle / DEG);
const ringOf = (gap_deg: number, turn_deg = 0, holes?: { count: number; start: number }) => ({
  radius: 100,
  gap: gap_deg * DEG,
  turn: turn_deg * DEG,
  jointHeight: 0,
  ...(holes ? { holes } : {}),
});

describe('joint angles of a ring', () => {
  it('numbers legs counter-clockwise, leg 1 just clockwise of +X', () => {
    const expected = [-10, 10, 110, 130, 230, 250];
    inDegrees(idealJointAngles(ringOf(20), 'base')).forEach((angle, leg) =>
      expect(angle).toBeCloseTo(expected[leg], 12),
    );
  });

  it('sends every leg to the nearest platform joint of the neighbouring pair', () => {
    const expected = [-50, 50, 70, 170, 190, 290];
    inDegrees(idealJointAngles(ringOf(20), 'platform')).forEach((angle, leg) =>
      expect(angle).toBeCloseTo(expected[leg], 12),
    );
  });

  it('turns both plates the same way', () => {
    const turned = inDegrees(idealJointAngles(ringOf(20, 15), 'base'));
    expect(turned[0]).toBeCloseTo(5, 12);
  });

  it('puts joints into the nearest of the indexed holes', () => {
    const built = inDegrees(jointAngles(ringOf(23, 0, { count: 72, start: 0 }), 'base'));
    [-10, 10, 110, 130, 230, 250].forEach((angle, leg) => expect(built[leg]).toBeCloseTo(angle, 12));
  });

  it('keeps the three pairs alike when every joint falls half-way between two holes', () => {
    for (const gap of [5, 15, 25, 35, 55]) {
      const built = inDegrees(jointAngles(ringOf(gap, 0, { count: 72, start: 0 }), 'base'));
      const gaps = [built[1] - built[0], built[3] - built[2], built[5] - built[4]];
      expect(gaps[1]).toBeCloseTo(gaps[0], 9);
      expect(gaps[2]).toBeCloseTo(gaps[0], 9);
    }
  });

  it('honours the angle of the first hole', () => {
    expect(nearestHole(0.4 * DEG, { count: 36, start: 5 * DEG }) / DEG).toBeCloseTo(5, 12);
    expect(nearestHole(-0.4 * DEG, { count: 36, start: 5 * DEG }) / DEG).toBeCloseTo(-5, 12);
  });
});

describe('joint centres', () => {
  it('lie on the circle in the joint plane', () => {
    const joints = ringJoints(ringOf(20), 'platform');
    for (let i = 0; i < 18; i += 3) {
      expect(Math.hypot(joints[i], joints[i + 1])).toBeCloseTo(100, 10);
      expect(joints[i + 2]).toBe(0);
    }
    expect(meanJointRadius(joints)).toBeCloseTo(100, 10);
  });
});
