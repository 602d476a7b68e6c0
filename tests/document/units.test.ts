import { describe, expect, it } from 'vitest';
import { DEMO_NAMES, DEMOS } from '../../src/document/demos.ts';
import type { DesignDocument } from '../../src/document/design.ts';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { documentFromPose, mechanismFromDocument, poseFromDocument } from '../../src/document/units.ts';
import { assessArchitecture } from '../../src/kinematics/architecture.ts';
import { assessIndependence } from '../../src/kinematics/independence.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { degrees, radians } from '../../src/terms/units.ts';

describe('mechanismFromDocument', () => {
  it('gives the joint angles and leg lengths of the reference layout', () => {
    const mechanism = mechanismFromDocument(emptyDesign());
    const angles = (flat: Float64Array): readonly number[] =>
      [0, 1, 2, 3, 4, 5].map((leg) => (degrees(Math.atan2(flat[3 * leg + 1], flat[3 * leg])) + 360) % 360);
    // leg order and angles: the program's own convention, written out by hand
    [350, 10, 110, 130, 230, 250].forEach((angle, leg) => {
      expect(angles(mechanism.centres.base)[leg]).toBeCloseTo(angle, 10);
    });
    [310, 50, 70, 170, 190, 290].forEach((angle, leg) => {
      expect(angles(mechanism.centres.platform)[leg]).toBeCloseTo(angle, 10);
    });
    // law of cosines: legs span 40 deg in plan, L^2 = 100^2 + 70^2 - 2 100 70 cos 40 deg + 150^2 (derived)
    const expected = Math.sqrt(100 ** 2 + 70 ** 2 - 2 * 100 * 70 * Math.cos((40 * Math.PI) / 180) + 150 ** 2);
    for (const leg of legStates(mechanism, mechanism.home)) expect(leg.length).toBeCloseTo(expected, 10);
    expect(expected).toBeCloseTo(163.326, 3);
  });

  it('passes every field on, in millimetres and radians', () => {
    const document: DesignDocument = {
      ...emptyDesign(),
      base: {
        ring: { radius_mm: 110, gap_deg: 30, turn_deg: 45, jointHeight_mm: 7, holes: { count: 36, start_deg: 5 } },
      },
      platform: {
        points_mm: [
          [1, 2, 3],
          [4, 5, 6],
          [7, 8, 9],
          [10, 11, 12],
          [13, 14, 15],
          [16, 17, 19],
        ],
      },
      joints: {
        base: { kind: 'ball', tilt_deg: 30, mount: { lean_deg: 60, toward_deg: [0, 90, 180, 270, -90, 360] } },
        platform: { kind: 'ball', tilt_deg: 90, mount: 'square' },
      },
      tool: { point_mm: [1, 2, 3] },
      characteristicLength_mm: 55,
    };
    const { spec, ...mechanism } = mechanismFromDocument(document);
    expect(spec.base).toEqual({
      kind: 'ring',
      ring: {
        radius: 110,
        gap: Math.PI / 6,
        turn: Math.PI / 4,
        jointHeight: 7,
        holes: { count: 36, start: (5 * Math.PI) / 180 },
      },
    });
    expect([...mechanism.centres.platform]).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 19]);
    expect(mechanism.tiltLimit).toEqual({ base: Math.PI / 6, platform: Math.PI / 2 });
    const { mount } = spec.joints.base;
    expect(mount.kind === 'leaning' && [mount.lean, mount.toward[1]]).toEqual([Math.PI / 3, Math.PI / 2]);
    expect(mechanism.legs).toEqual({ min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 });
    expect(mechanism.p_PoTo_P).toEqual([1, 2, 3]);
    expect(mechanism.characteristicLength).toBe(55);
  });

  it('takes the platform radius as characteristic length where the file leaves it out', () => {
    expect(mechanismFromDocument(emptyDesign()).characteristicLength).toBeCloseTo(70, 12);
  });
});

describe('angles at the edge', () => {
  it.each([0, 1e-9, 30, -45, 90, 123.456, 360])('turns %f deg into radians and back', (angle) => {
    expect(degrees(radians(angle))).toBeCloseTo(angle, 12);
  });

  it('writes a pose as it was read', () => {
    const pose = { position_mm: [1, -2, 150] as const, roll_deg: 12, pitch_deg: -33, yaw_deg: 170 };
    const back = documentFromPose(poseFromDocument(pose));
    expect(back.position_mm).toEqual(pose.position_mm);
    for (const key of ['roll_deg', 'pitch_deg', 'yaw_deg'] as const) expect(back[key]).toBeCloseTo(pose[key], 11);
  });
});

describe('the demo designs', () => {
  const judged = (name: (typeof DEMO_NAMES)[number]) => {
    const mechanism = mechanismFromDocument(DEMOS[name]);
    const architecture = assessArchitecture(mechanism);
    return { mechanism, architecture, ...assessIndependence(mechanism, mechanism.home, architecture) };
  };

  // pair gaps as drilled; that a sum of 120 deg is singular at every pose is elementary (both rings are similar)
  it.each([
    ['steady', 40, 'firm'],
    ['roomy', 115, 'nearly singular'],
    ['even', 120, 'singular at every pose'],
  ] as const)('%s has pair gaps of %i deg together on its holes and is %s', (name, gapSum, word) => {
    const { architecture, verdict } = judged(name);
    expect(degrees(architecture.gapSum ?? Number.NaN)).toBeCloseTo(gapSum, 8);
    expect(verdict.word).toBe(word);
  });

  it.each(DEMO_NAMES)('%s stands at home within all limits, near the middle of the stroke', (name) => {
    const { mechanism } = judged(name);
    const { min, max } = mechanism.legs;
    for (const leg of legStates(mechanism, mechanism.home)) {
      expect(leg.violations).toEqual([]);
      expect(Math.abs((leg.length - min) / (max - min) - 0.5)).toBeLessThan(0.06);
    }
  });

  it.each(DEMO_NAMES)('%s says that it is invented', (name) => {
    expect(DEMOS[name].note).toMatch(/invented/i);
  });
});
