import { Euler, MathUtils, Matrix4, Quaternion, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { jacobian, scaledJacobian } from '../../src/kinematics/jacobian.ts';
import { type LegTwist, legTwists } from '../../src/kinematics/joint-limits.ts';
import { jointReadings } from '../../src/kinematics/joint-readings.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { loosestMotion } from '../../src/kinematics/loosest-motion.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { type PoseAngles, poseFromAngles } from '../../src/kinematics/pose.ts';
import { svd } from '../../src/math/svd.ts';
import { jointCell, jointHeading, legJoints, twistText } from '../../src/panels/legs/leg-rows.ts';
import { legsAsCsv } from '../../src/panels/legs/legs-csv.ts';
import { sixLengths } from '../../src/panels/pose/lengths-to-pose.ts';
import { poseText } from '../../src/panels/pose/pose-text.ts';
import type { ReachMeasure } from '../../src/reach/columns/reach-measure.ts';
import { outsideReason, stoppedAt, widened } from '../../src/ui/travel.ts';
import { directionWords, motionWords } from '../../src/words/firmness.ts';
import { brokenLimits, stopWords } from '../../src/words/limits.ts';
import { figure, groupedText, numberText, roundedText } from '../../src/words/numbers.ts';
import { bindingWords, cm3Text, emptyWords, islandWords, litresText } from '../../src/words/reach.ts';
import { DEG, referenceLayout, withKinds } from '../kinematics/designs.ts';

const joint = { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } } as const;
const mechanism = referenceLayout({
  legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 },
  joints: { base: joint, platform: joint },
});

const statesAt = (pose: PoseAngles) => legStates(mechanism, poseFromAngles(pose));
/** Where the joints of a mechanism stand. */
const legJointsAt = (of: Mechanism, pose: Pose, twists: readonly LegTwist[] | null) =>
  legJoints({ mechanism: of, joints: jointReadings(of, pose), twists });
const jointsAt = (pose: PoseAngles) => legJointsAt(mechanism, poseFromAngles(pose), null);
const level = (z: number): PoseAngles => ({ position: [0, 0, z], roll: 0, pitch: 0, yaw: 0 });

describe('numbers in words', () => {
  it('are rounded, grouped, and never minus zero', () => {
    expect(numberText(20, 1)).toBe('20.0');
    expect(numberText(20.37512, 1)).toBe('20.375');
    expect(numberText(-1e-9, 1)).toBe('0.0');
    expect(roundedText(29.0852, 1)).toBe('29.1');
    expect(roundedText(-0.01, 1)).toBe('0');
    expect(groupedText(1234567.8, 1)).toBe('1\u2009234\u2009567.8');
    expect(figure(1240.4)).toBe('1240');
    expect(figure(0.012345)).toBe('0.0123');
    expect(cm3Text(12_404_000)).toBe('12\u2009400 cm³');
    expect(litresText(1_240_000)).toBe('1.24 litres');
  });
});

describe('limits of a field', () => {
  it('are named with what sets them', () => {
    const legal = { min: 0, max: 120, belowMax: true, maxSays: 'the longest leg' } as const;
    expect(outsideReason(119, legal, 'mm', 0)).toBeNull();
    expect(outsideReason(120, legal, 'mm', 0)).toBe('120 mm is not below the limit of 120 mm, the longest leg.');
    expect(outsideReason(-1, legal, 'mm', 0)).toBe('−1 mm is below the limit of 0 mm.');
    expect(outsideReason(2.5, { min: 0, max: 9, whole: true }, '', 0)).toBe('2.5 is not a whole number.');
    // a limit that a field would round to nothing is named with all its digits
    expect(outsideReason(1e-320, legal, 'mm', 0)).toBe('1e−320 mm is nearer to 0 than numbers are computed with.');
    expect(outsideReason(0, { min: 1e-6, max: 1e12 }, 'N/mm', 0)).toBe('0 N/mm is below the limit of 0.000001 N/mm.');
    expect(stoppedAt(130, legal, 1)).toBeCloseTo(119.9, 9);
  });

  it('widen a slider to a round number', () => {
    const travel = { min: 10, max: 200, step: 1 };
    expect(widened(travel, 100)).toBe(travel);
    expect(widened(travel, 1200)).toEqual({ min: 10, max: 2000, step: 1 });
    expect(widened(travel, -3)).toEqual({ min: -5, max: 200, step: 1 });
  });
});

describe('legs in words', () => {
  it('name leg, number and limit', () => {
    const broken = brokenLimits(statesAt(level(190)), mechanism);
    // L^2 = rho^2 + h^2 with rho^2 = 100^2 + 70^2 - 2 * 100 * 70 cos 40 deg: 200.7 mm at h = 190
    expect(broken[2]).toBe('leg 3 too long (200.7 mm, limit 200)');
    expect(broken).toHaveLength(6);
    expect(stopWords(4, 'legTooLong')).toBe('leg 4 too long');
    expect(stopWords(2, 'baseJoint')).toBe('leg 2 base joint');
  });

  it('copy as seven lines of CSV', () => {
    const lines = legsAsCsv(statesAt(level(150)), mechanism, jointsAt(level(150)))
      .trimEnd()
      .split('\n');
    expect(lines).toHaveLength(7);
    expect(lines[0]).toBe('leg,length_mm,strokeUsed_percent,baseTilt_deg,platformTilt_deg,violations');
    // 163.326 mm is the worked length of this layout (practice of the trade, computed); (163.326 - 120) / 80 = 54.16 %
    expect(lines[1]).toMatch(/^1,163\.326\d,54\.15\d\d,0\.0000,0\.0000,$/);
  });
});

describe('the table of legs for other joints than balls', () => {
  const universal = { kind: 'universal', first: { kind: 'acrossLeg' }, secondLimit: 20 * DEG } as const;
  const turned: PoseAngles = { position: [10, -5, 150], roll: 0, pitch: 0, yaw: 20 * DEG };
  const pose = poseFromAngles(turned);

  it('shows the angle across a bolt with its limit', () => {
    const rodEnds = withKinds(mechanism, { kind: 'rodEnd', bolt: { kind: 'acrossLeg' } }, { kind: 'ball' });
    const { readings } = legJointsAt(rodEnds, pose, null);
    expect(jointHeading(readings[0].base, 'rodEnd')).toEqual({ angle: 'bolt tilt', limit: '≤ 25 deg' });
    // asin |u . bolt|, with the bolt level and square to the leg as it lies at home
    const [home, now] = [statesAt(level(150))[0].u_B, statesAt(turned)[0].u_B];
    const bolt = new Vector3(0, 0, 1).cross(new Vector3(...home)).normalize();
    const tilt = MathUtils.radToDeg(Math.asin(Math.abs(bolt.dot(new Vector3(...now)))));
    expect(jointCell(readings[0].base).text).toBe(tilt.toFixed(1));
    expect(jointCell(readings[0].base).share).toBeCloseTo(tilt / 25, 9);
    expect(legsAsCsv(statesAt(turned), mechanism, legJointsAt(rodEnds, pose, null)).split('\n')[0]).toBe(
      'leg,length_mm,strokeUsed_percent,baseAcrossBolt_deg,platformTilt_deg,violations',
    );
  });

  it('shows both angles of universal joints, and what the twist does to the length', () => {
    const crossed = withKinds(mechanism, universal, universal);
    const twists = legTwists(crossed, pose, 8);
    const joints = legJointsAt(crossed, pose, twists);
    expect(jointHeading(joints.readings[0].base, 'universal')).toEqual({ angle: '1/2', limit: '≤ 25/20 deg' });
    expect(jointCell(joints.readings[2].platform).text).toMatch(/^\d+\.\d\/\d+\.\d$/);
    if (!twists) throw new Error('no twist');
    const [{ twist, lengthChange }] = twists;
    // one turn advances the screw by its lead
    expect(lengthChange).toBeCloseTo((8 * twist) / (2 * Math.PI), 12);
    expect(twistText({ leg: 1, twist: -20 * DEG, lengthChange: -8 / 18 }, true)).toBe('−20.0 / −0.444');
    expect(twistText({ leg: 1, twist: 1e-9, lengthChange: 0 }, false)).toBe('0.0');
    const [header, first] = legsAsCsv(statesAt(turned), mechanism, joints).split('\n');
    expect(header).toContain(
      'baseFirst_deg,baseSecond_deg,platformFirst_deg,platformSecond_deg,twist_deg,twistLength_mm',
    );
    expect(first.split(',')).toHaveLength(header.split(',').length);
  });
});

describe('a pose as text', () => {
  const pose: PoseAngles = { position: [1, -2, 150.5], roll: 10 * DEG, pitch: -20 * DEG, yaw: 35 * DEG };

  // three's Euler order ZYX is R = Rz Ry Rx
  it('is the pose that three builds from it', () => {
    const turn = new Euler(10 * DEG, -20 * DEG, 35 * DEG, 'ZYX');
    const q = new Quaternion().setFromEuler(turn);
    const [w, x, y, z] = numbersAfter(poseText(pose, 'quaternion'), 'quaternion_wxyz');
    expect(Math.abs(q.w * w + q.x * x + q.y * y + q.z * z)).toBeCloseTo(1, 10);
    const m = new Matrix4().compose(new Vector3(1, -2, 150.5), q, new Vector3(1, 1, 1)).transpose().elements;
    const rows = poseText(pose, 'matrix')
      .split(/[\n,]+/)
      .map(Number);
    expect(rows).toHaveLength(16);
    rows.forEach((entry, index) => expect(entry).toBeCloseTo(m[index], 9));
    const angles = numbersAfter(poseText(pose, 'angles'), 'yaw_deg');
    expect(angles).toEqual([10, -20, 35]);
    expect(MathUtils.degToRad(angles[2])).toBeCloseTo(pose.yaw, 9);
  });

  it('takes six pasted lengths', () => {
    expect(sixLengths('160, 161; 162 163 mm\t164\n165')).toEqual({ ok: true, value: [160, 161, 162, 163, 164, 165] });
    expect(sixLengths('160, 161')).toEqual({ ok: false, fault: 'Six lengths are needed; the text has 2.' });
    expect(sixLengths('a b c d e f')).toEqual({ ok: false, fault: '"a" is not a number.' });
  });
});

const numbersAfter = (text: string, word: string): number[] =>
  (text.split(word)[1].match(/-?\d+(\.\d+)?(e-?\d+)?/g) ?? []).map(Number).slice(0, word === 'yaw_deg' ? 3 : 4);

describe('verdicts in words', () => {
  it('call an axis by its letter', () => {
    expect(directionWords([0, 0, -3])).toBe('z');
    expect(directionWords([1, 1, 0])).toBe('(0.71, 0.71, 0.00)');
  });

  it('tell the loosest motion of the worked layout: a sideways shift with slight tilt', () => {
    const pose = poseFromAngles(level(150));
    const J = jacobian(mechanism, pose);
    const words = motionWords(loosestMotion(J, svd(scaledJacobian(J, 70), 6), 70, pose), 70);
    expect(words).toMatch(
      /^With 0\.1 mm of play in the most moved leg the tool can shift 0\.\d+ mm along [xy(].* and turn 0\.0\d+ deg/,
    );
  });

  const measure: ReachMeasure = {
    volume: 1_240_000,
    errorEstimate: 0.001,
    settled: true,
    home: { volume: 930_000, bounds: null, islands: 2, reason: null },
    bounds: { low: [-70, -69, 100], high: [70, 69, 190] },
    boundary: {
      area: 1,
      byLimit: { legTooShort: 0.2, legTooLong: 0.6, baseJoint: 0.2, platformJoint: 0 },
      byLeg: [1, 0, 0, 0, 0, 0],
      largest: 'legTooLong',
    },
    empty: null,
    columns: 1000,
    symmetric: false,
  };

  it('say what binds, what is an island, and why there is nothing', () => {
    expect(bindingWords(measure.boundary)).toBe('mostly stopped by a leg too long, 60 %');
    expect(islandWords(measure)).toBe('Besides, 310 cm³ lie in 2 islands that cannot be reached from home');
    expect(
      emptyWords({
        kind: 'excluded',
        shortfall: 12.34,
        limits: [
          { limit: 'legTooLong', leg: 1 },
          { limit: 'legTooLong', leg: 4 },
          { limit: 'baseJoint', leg: 2 },
        ],
      }),
    ).toBe('At the best point the limits still miss by 12.3 mm: leg too long (legs 1 and 4), base joint (leg 2).');
  });
});
