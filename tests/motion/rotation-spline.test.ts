import { describe, expect, it } from 'vitest';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { multiply3, quaternionFromRotation, rotationAbout, rotationFromAngles } from '../../src/math/rotation.ts';
import { length, scale, unit, type Vec3 } from '../../src/math/vec3.ts';
import { RotationSpline, rotationOf, rotationVector } from '../../src/motion/rotation-spline.ts';
import { DEG } from '../kinematics/designs.ts';

const rpy = (roll: number, pitch: number, yaw: number) =>
  rotationFromAngles({ roll: roll * DEG, pitch: pitch * DEG, yaw: yaw * DEG });
const knots = [rpy(0, 0, 0), rpy(10, -5, 20), rpy(15, 10, 35), rpy(-5, 0, 60)];
/** What a spline writes at a time. */
const vec = (flat: Float64Array): Vec3 => [flat[0], flat[1], flat[2]];

function stateAt(spline: RotationSpline, time: number) {
  const [R, rate, acceleration] = [new Float64Array(9), new Float64Array(3), new Float64Array(3)];
  spline.write(time, R, rate, acceleration);
  return { R, rate, acceleration };
}
const transposed = (R: Float64Array) => Float64Array.of(R[0], R[3], R[6], R[1], R[4], R[7], R[2], R[5], R[8]);
const between = (a: Float64Array, b: Float64Array) => rotationVector(multiply3(transposed(a), b));

describe('rotation spline', () => {
  // scipy 1.10, scipy.spatial.transform.RotationSpline, computed beforehand; it holds the mean rates of the first and last interval
  // at its ends, and gives rates in the turned axes.
  const spline = new RotationSpline([0, 1, 2, 3], knots, {
    first: between(knots[0], knots[1]),
    last: between(knots[2], knots[3]),
  });
  const QUATERNIONS: readonly (readonly [number, readonly number[]])[] = [
    [0.5, [0.9938704800100023, 0.04960216403324655, -0.029199894681705633, 0.09438464090350582]],
    [1.5, [0.9653514929146628, 0.11480834615093251, 0.05667667122640069, 0.2273835827851561]],
    [2.25, [0.933647649813088, 0.07183993429303868, 0.1084455689690433, 0.3337373940843425]],
  ];
  for (const [time, expected] of QUATERNIONS)
    it(`passes where the library's spline passes at ${time} s`, () => {
      const q = quaternionFromRotation(stateAt(spline, time).R);
      for (let n = 0; n < 4; n++) expect(Math.abs(q[n] - expected[n])).toBeLessThan(1e-9);
    });

  it("turns at the library's rate at 1.5 s (space frame)", () => {
    const { rate } = stateAt(spline, 1.5);
    // space-frame rate, confirmed by finite differences there
    for (const [n, expected] of [-0.05222772, 0.36571952, 0.2352002].entries())
      expect(Math.abs(rate[n] - expected)).toBeLessThan(1e-7);
  });

  it('has the rate and acceleration that its rotations show (finite difference)', () => {
    const h = 1e-4;
    for (const t of [0.2, 0.999, 1.4, 2.6]) {
      const [a, b, c] = [stateAt(spline, t - h), stateAt(spline, t), stateAt(spline, t + h)];
      const seen = scale(rotationVector(multiply3(c.R, transposed(a.R))), 1 / (2 * h));
      for (let n = 0; n < 3; n++) {
        expect(b.rate[n]).toBeCloseTo(seen[n], 7);
        expect(b.acceleration[n]).toBeCloseTo((c.rate[n] - a.rate[n]) / (2 * h), 5);
      }
    }
  });

  it('has no jump of rate or acceleration at the given rotations (invariant)', () => {
    const h = 1e-9;
    for (const t of [1, 2]) {
      const [before, after] = [stateAt(spline, t - h), stateAt(spline, t)];
      for (let n = 0; n < 3; n++) {
        expect(before.rate[n]).toBeCloseTo(after.rate[n], 7);
        expect(before.acceleration[n]).toBeCloseTo(after.acceleration[n], 6);
      }
    }
  });

  it('reproduces a steady turn about one axis (closed form)', () => {
    const axis = unit([1, 2, -0.5]);
    const times = [0, 0.4, 1.1, 1.5, 2.3];
    const steady = new RotationSpline(
      times,
      times.map((t) => rotationAbout(axis, 0.7 * t)),
    );
    for (const t of [0.1, 0.9, 2]) {
      const { R, rate, acceleration } = stateAt(steady, t);
      const expected = rotationAbout(axis, 0.7 * t);
      for (let n = 0; n < 9; n++) expect(R[n]).toBeCloseTo(expected[n], 12);
      for (let n = 0; n < 3; n++) expect(rate[n]).toBeCloseTo(0.7 * axis[n], 11);
      expect(length(vec(acceleration))).toBeLessThan(1e-10);
    }
  });
});

describe('rotation vectors', () => {
  it('come back from their rotations, up to just below half a turn (inverse pair; seed 5)', () => {
    const random = seededRandom(5);
    for (const angle of [0, 1e-12, 1e-6, 1e-3, 0.5, 1.5, 3, Math.PI - 1e-6])
      for (let n = 0; n < 20; n++) {
        const axis = unit([uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)] as Vec3);
        const back = rotationVector(rotationOf(scale(axis, angle)));
        for (let k = 0; k < 3; k++) expect(Math.abs(back[k] - angle * axis[k])).toBeLessThan(1e-9);
      }
  });
});
