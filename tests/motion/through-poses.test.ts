import { describe, expect, it } from 'vitest';
import { type Pose, poseFromAngles } from '../../src/kinematics/pose.ts';
import { CubicSpline } from '../../src/motion/paths/cubic-spline.ts';
import { writableMoment } from '../../src/motion/paths/path.ts';
import { throughPoses } from '../../src/motion/paths/through-poses.ts';

const poseAt = (t: number): Pose =>
  poseFromAngles({
    position: [20 * Math.sin(t), 15 * Math.cos(1.3 * t), 150 + 5 * Math.sin(2 * t)],
    roll: 0.2 * Math.sin(1.1 * t),
    pitch: 0.15 * Math.cos(t),
    yaw: 0.3 * Math.sin(0.7 * t),
  });
const recorded = (step: number, count: number) =>
  Array.from({ length: count }, (_, n) => ({ time: n * step, pose: poseAt(n * step) }));

describe('motion through given poses', () => {
  it('passes each of them at its time', () => {
    const path = throughPoses(recorded(0.2, 20));
    const moment = writableMoment();
    for (let n = 0; n < 20; n++) {
      path.write(n * 0.2, moment);
      const expected = poseAt(n * 0.2);
      for (let k = 0; k < 3; k++) expect(moment.pose.p_BoTo_B[k]).toBeCloseTo(expected.p_BoTo_B[k], 10);
      for (let k = 0; k < 9; k++) expect(moment.pose.R_BP[k]).toBeCloseTo(expected.R_BP[k], 12);
    }
  });

  it('nears a smooth motion with the fourth power of the step, ends included (order of a cubic spline)', () => {
    const error = (step: number): number => {
      const count = Math.round(4 / step) + 1;
      const path = throughPoses(recorded(step, count));
      const moment = writableMoment();
      let worst = 0;
      for (let n = 0; n < 400; n++) {
        path.write(n / 100, moment);
        const expected = poseAt(n / 100);
        for (let k = 0; k < 9; k++) worst = Math.max(worst, Math.abs(moment.pose.R_BP[k] - expected.R_BP[k]));
        for (let k = 0; k < 3; k++)
          worst = Math.max(worst, Math.abs(moment.pose.p_BoTo_B[k] - expected.p_BoTo_B[k]) / 100);
      }
      return worst;
    };
    expect(error(0.1)).toBeLessThan(5e-6);
    expect(error(0.2) / error(0.1)).toBeGreaterThan(12);
  });

  it('gives cubics back exactly (closed form)', () => {
    const times = Float64Array.of(0, 0.3, 1, 1.4, 2);
    const cubic = (t: number) => 1 - 2 * t + 0.5 * t * t + 0.7 * t ** 3;
    const spline = new CubicSpline(times, Float64Array.from(times, cubic), 1);
    const [v, d, dd] = [new Float64Array(1), new Float64Array(1), new Float64Array(1)];
    for (const t of [0, 0.1, 0.8, 1.2, 1.99]) {
      spline.write(t, v, d, dd);
      expect(v[0]).toBeCloseTo(cubic(t), 12);
      expect(d[0]).toBeCloseTo(-2 + t + 2.1 * t * t, 11);
      expect(dd[0]).toBeCloseTo(1 + 4.2 * t, 10);
    }
  });

  it('of two poses is the straight way at an even pace', () => {
    const path = throughPoses([
      { time: 0, pose: poseAt(0) },
      { time: 2, pose: poseAt(1) },
    ]);
    const moment = writableMoment();
    path.write(1, moment);
    const [a, b] = [poseAt(0).p_BoTo_B, poseAt(1).p_BoTo_B];
    for (let k = 0; k < 3; k++) {
      expect(moment.pose.p_BoTo_B[k]).toBeCloseTo((a[k] + b[k]) / 2, 12);
      expect(moment.acceleration[k]).toBeCloseTo(0, 9);
      expect(moment.turningAcceleration[k]).toBeCloseTo(0, 9);
    }
  });
});
