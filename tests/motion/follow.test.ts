import { describe, expect, it } from 'vitest';
import { driveForce, IDEAL_DRIVE, NO_DRIVE_LIMITS } from '../../src/kinematics/drive.ts';
import { MASSLESS } from '../../src/kinematics/leg-masses.ts';
import { legLengths } from '../../src/kinematics/legs.ts';
import { payloadOnly } from '../../src/kinematics/load.ts';
import { compileMechanism, type Mechanism } from '../../src/kinematics/mechanism.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { followMotion } from '../../src/motion/follow/follow.ts';
import { LEG_READINGS, type LegReading, type MovingDesign } from '../../src/motion/follow/leg-readings.ts';
import { legSpaceDeviation } from '../../src/motion/leg-space.ts';
import { pathOfCoordinates } from '../../src/motion/paths/path.ts';
import { throughPoses } from '../../src/motion/paths/through-poses.ts';
import { waves } from '../../src/motion/paths/waves.ts';
import { DEG, referenceLayout } from '../kinematics/designs.ts';

const design = (mechanism: Mechanism, more: Partial<MovingDesign> = {}): MovingDesign => ({
  mechanism,
  load: payloadOnly({ mass: 2, centre: [0, 0, 0], inertia: [4000, 4000, 6000] }),
  masses: MASSLESS,
  drive: IDEAL_DRIVE,
  limits: NO_DRIVE_LIMITS,
  ...more,
});
const evenly = (duration: number, step: number) =>
  Float64Array.from({ length: Math.round(duration / step) + 1 }, (_, n) => n * step);
const column = (reading: LegReading, leg: number) => 6 * LEG_READINGS.indexOf(reading) + leg - 1;

/** Heave of the reference layout: h = 150 + c sin(2 pi f t). */
const heave = (amplitude: number, frequency: number) =>
  pathOfCoordinates(waves([0, 0, 150, 0, 0, 0], [{ coordinate: 2, amplitude, frequency, phase: 0 }], 3 / frequency, 0));

describe('following a motion', () => {
  it('finds the extremes of a heave between coarse samples (closed form: L^2 = rho^2 + h^2)', () => {
    const report = followMotion(design(referenceLayout()), heave(20, 0.5), { times: evenly(6, 0.037 * 6) }, neverStop);
    const { min, max } = report.ranges[column('length', 3)];
    expect(min).toBeCloseTo(145.173613, 6);
    expect(max).toBeCloseTo(181.866373, 6);
  });

  it('gives each excursion its beginning and its end (closed form: h at which L is at its limit)', () => {
    const mechanism = compileMechanism({
      ...referenceLayout().spec,
      legs: { min: 150, max: 175, barrelDiameter: 22, rodDiameter: 10 },
    });
    const report = followMotion(design(mechanism), heave(20, 0.5), { times: evenly(6, 0.05) }, neverStop);
    const rho = 64.617163;
    // h = sqrt(175^2 - rho^2) on the way up
    const rise = (Math.sqrt(175 ** 2 - rho ** 2) - 150) / 20;
    const fall = (150 - Math.sqrt(150 ** 2 - rho ** 2)) / 20;
    const long = report.excursions.filter(({ limit, leg }) => limit === 'longestLeg' && leg === 1);
    const short = report.excursions.filter(({ limit, leg }) => limit === 'shortestLeg' && leg === 1);
    expect(long).toHaveLength(3);
    expect(short).toHaveLength(3);
    expect(long[0].from).toBeCloseTo(Math.asin(rise) / Math.PI, 6);
    expect(long[0].to).toBeCloseTo(1 - Math.asin(rise) / Math.PI, 6);
    expect(short[0].from).toBeCloseTo(1 + Math.asin(fall) / Math.PI, 6);
    expect(long[0].worst).toBeCloseTo(175 - 181.866373, 5);
    expect(long[0].worstAt).toBeCloseTo(0.5, 5);
  });

  it('finds a dip that begins and ends between two samples', () => {
    const mechanism = compileMechanism({
      ...referenceLayout().spec,
      legs: { min: 1, max: 181.85, barrelDiameter: 22, rodDiameter: 10 },
    });
    // samples every 0.1 s, none at the top at 0.55 s
    const path = pathOfCoordinates(
      waves([0, 0, 150, 0, 0, 0], [{ coordinate: 2, amplitude: 20, frequency: 0.5, phase: -0.05 * Math.PI }], 2, 0),
    );
    const times = evenly(2, 0.1);
    const samples = Array.from(times, (t) => Math.hypot(64.617163, 150 + 20 * Math.sin(Math.PI * (t - 0.05))));
    expect(Math.max(...samples)).toBeLessThan(181.85);
    const report = followMotion(design(mechanism), path, { times }, neverStop);
    const long = report.excursions.filter(({ limit }) => limit === 'longestLeg');
    expect(long).toHaveLength(6);
    expect(long[0].worst).toBeCloseTo(181.85 - 181.866373, 5);
    expect(long[0].worstAt).toBeCloseTo(0.55, 4);
  });

  it('notices a yaw of 90 deg passed between two good way points', () => {
    const poses = [60, 120].map((yaw, n) => ({
      time: n,
      pose: poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: yaw * DEG }),
    }));
    const report = followMotion(design(referenceLayout()), throughPoses(poses), { times: [0, 1] }, neverStop);
    expect(report.crossings).toHaveLength(1);
    expect(report.crossings[0]).toBeCloseTo(0.5, 9);
  });

  it('counts force and power of a heave as closed forms give them', () => {
    const [c, f, mass] = [10, 1, 2];
    const report = followMotion(design(referenceLayout()), heave(c, f), { times: evenly(3, 0.002) }, neverStop);
    const force = (t: number) => {
      const h = 150 + c * Math.sin(2 * Math.PI * f * t);
      const a = -c * (2 * Math.PI * f) ** 2 * Math.sin(2 * Math.PI * f * t);
      return (mass * (9.80665 + a / 1000) * Math.hypot(64.617163, h)) / (6 * h);
    };
    const grid = Array.from({ length: 3001 }, (_, n) => force(n / 1000));
    const range = report.ranges[column('force', 2)];
    expect(range.max).toBeCloseTo(Math.max(...grid), 4);
    expect(range.min).toBeCloseTo(Math.min(...grid), 4);
    const rms = Math.sqrt(grid.reduce((sum, value) => sum + value * value, 0) / grid.length);
    expect(report.forceRms[1]).toBeCloseTo(rms, 3);
    // gravity and inertia take back on the way down what they took on the way up: the motors' share is the work going up
    let up = 0;
    for (let n = 0; n < 3000; n++) {
      const h = (t: number) => Math.hypot(64.617163, 150 + c * Math.sin(2 * Math.PI * f * t));
      up += Math.max(0, force((n + 0.5) / 1000) * (h((n + 1) / 1000) - h(n / 1000)));
    }
    expect(report.energy[1]).toBeCloseTo(up / 1000, 5);
  });

  it('stops when asked and says so', () => {
    let asked = 0;
    const work = { report: () => undefined, shouldStop: () => asked++ > 0 };
    const report = followMotion(design(referenceLayout()), heave(10, 1), { times: evenly(3, 0.001) }, work);
    expect(report.complete).toBe(false);
    expect(report.samples).toBe(512);
  });
});

describe('drive', () => {
  it('asks more by the efficiency when it drives, less when the load does, and holds friction against the motion', () => {
    const drive = { friction: 2, efficiency: 0.5, rotorInertia: 1, lead: 2 * Math.PI };
    expect(driveForce(drive, 0, 10, 5, 0)).toBeCloseTo(24, 12);
    expect(driveForce(drive, 0, 10, -5, 0)).toBeCloseTo(4, 12);
    expect(driveForce(drive, 0, 10, 0, 0)).toBe(10);
    expect(driveForce(drive, 3, 0, 0, 1000)).toBeCloseTo(3, 12);
  });
});

describe('interpolating leg lengths only', () => {
  // trade figures for the reference layout, computed beforehand with another program
  it('bulges a 60 mm move along x by 2.75 mm, and a roll of 30 deg by 1.2 mm', () => {
    const mechanism = referenceLayout();
    const between = (from: readonly number[], to: readonly number[]) =>
      throughPoses(
        [from, to].map(([x, roll], n) => ({
          time: n,
          pose: poseFromAngles({ position: [x, 0, 150], roll: roll * DEG, pitch: 0, yaw: 0 }),
        })),
      );
    const move = legSpaceDeviation(mechanism, between([-30, 0], [30, 0]), [0, 1]);
    expect(move.distance).toBeCloseTo(2.75, 2);
    expect(move.lost).toBe(0);
    const roll = legSpaceDeviation(mechanism, between([0, -15], [0, 15]), [0, 1]);
    expect(roll.distance).toBeCloseTo(1.2, 1);
  });

  it('falls with the square of the segment', () => {
    const mechanism = referenceLayout();
    const path = throughPoses(
      [-30, 30].map((x, n) => ({
        time: n,
        pose: poseFromAngles({ position: [x, 0, 150], roll: 0, pitch: 0, yaw: 0 }),
      })),
    );
    const at = (count: number) => legSpaceDeviation(mechanism, path, evenly(1, 1 / count)).distance;
    expect(at(8) / at(16)).toBeGreaterThan(3.6);
    expect(at(8) / at(16)).toBeLessThan(4.4);
    // a home pose's legs, so that the lengths really are those of the path
    expect(legLengths(mechanism, mechanism.home)[0]).toBeCloseTo(163.325986, 5);
  });
});
