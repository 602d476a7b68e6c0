import { determinant, EigenvalueDecomposition, Matrix, SVD } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { assessArchitecture } from '../../src/kinematics/architecture.ts';
import { assessIndependence } from '../../src/kinematics/independence.ts';
import { jacobian, scaledJacobian } from '../../src/kinematics/jacobian.ts';
import { legLengths } from '../../src/kinematics/legs.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { seededRandom } from '../../src/math/random.ts';
import { multiply3, rotate, rotationAbout } from '../../src/math/rotation.ts';
import { add, length, scale, unit, type Vec3 } from '../../src/math/vec3.ts';
import { mechanismOf, randomGeneralLayout, randomPose, referenceLayout, ring } from './designs.ts';

const SEED = 7;
const rows = (J: Float64Array) => Array.from({ length: 6 }, (_, row) => Array.from(J.subarray(6 * row, 6 * row + 6)));

/** The pose moved by a small twist (velocity and angular velocity in base axes). */
const moved = (pose: Pose, v: Vec3, w: Vec3, step: number): Pose => ({
  p_BoTo_B: add(pose.p_BoTo_B, scale(v, step)),
  R_BP: multiply3(rotationAbout(unit(w), length(w) * step), pose.R_BP),
});

describe('jacobian', () => {
  it(`is the derivative of the leg lengths (central differences, seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    for (let n = 0; n < 50; n++) {
      const mechanism = randomGeneralLayout(random);
      const pose = randomPose(random, 1.5, 0.3, 0.8);
      const J = jacobian(mechanism, pose);
      const any = () => random() - 0.5;
      const v: Vec3 = [any(), any(), any()];
      const w: Vec3 = [any(), any(), any()];
      const h = 1e-5;
      const ahead = legLengths(mechanism, moved(pose, v, w, h));
      const behind = legLengths(mechanism, moved(pose, v, w, -h));
      rows(J).forEach((row, leg) => {
        const rate = row[0] * v[0] + row[1] * v[1] + row[2] * v[2] + row[3] * w[0] + row[4] * w[1] + row[5] * w[2];
        expect(Math.abs(rate - (ahead[leg] - behind[leg]) / (2 * h))).toBeLessThan(1e-8);
      });
    }
  });

  it(`has the singular values, condition, rank and determinant that ml-matrix finds (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    for (let n = 0; n < 50; n++) {
      const mechanism = randomGeneralLayout(random);
      const pose = randomPose(random, 1.5, 0.3, 0.8);
      const result = assessIndependence(mechanism, pose, assessArchitecture(mechanism));
      const scaled = new Matrix(rows(scaledJacobian(result.jacobian, mechanism.characteristicLength)));
      const referee = new SVD(scaled);
      referee.diagonal.forEach((value, index) => {
        expect(Math.abs(result.singularValues[index] - value)).toBeLessThan(1e-12 * referee.diagonal[0]);
      });
      const squares = new EigenvalueDecomposition(scaled.transpose().mmul(scaled)).realEigenvalues.sort(
        (a, b) => b - a,
      );
      squares.forEach((square, index) => {
        expect(Math.abs(result.singularValues[index] ** 2 - square)).toBeLessThan(1e-12 * squares[0]);
      });
      expect(result.rank).toBe(referee.rank);
      const det = determinant(new Matrix(rows(result.jacobian)));
      expect(Math.abs(result.determinant - det)).toBeLessThan(1e-12 * Math.max(1, Math.abs(det)));
    }
  });

  it('gives the worked smallest singular values of the reference layout as it yaws', () => {
    // practice figures, computed outside this program: 0.681 at 0, 0.409 at 60, 0.198 at 75, 0.013 at 89 deg
    const mechanism = referenceLayout();
    const architecture = assessArchitecture(mechanism);
    for (const [yaw_deg, expected] of [
      [0, 0.681],
      [60, 0.409],
      [75, 0.198],
      [89, 0.013],
    ] as const) {
      const pose = {
        p_BoTo_B: mechanism.home.p_BoTo_B,
        R_BP: rotationAbout([0, 0, 1], (yaw_deg * Math.PI) / 180),
      };
      expect(assessIndependence(mechanism, pose, architecture).singularValues[5]).toBeCloseTo(expected, 3);
    }
  });

  it('calls REF firm, soft at 75 deg of yaw, nearly singular at 89 and singular at 90', () => {
    const mechanism = referenceLayout();
    const architecture = assessArchitecture(mechanism);
    const word = (yaw_deg: number) => {
      const R_BP = rotationAbout([0, 0, 1], (yaw_deg * Math.PI) / 180);
      return assessIndependence(mechanism, { p_BoTo_B: [0, 0, 150], R_BP }, architecture).verdict;
    };
    expect(word(0).word).toBe('firm');
    expect(word(75).word).toBe('soft');
    expect(word(89).word).toBe('nearly singular');
    expect(word(90)).toMatchObject({
      word: 'singular at this pose',
      freeMotions: 1,
    });
  });

  it.each([1e-3, 1, 1e3])('judges a layout the same at any size (factor %d)', (factor) => {
    const mechanism = mechanismOf(ring(100 * factor, 20), ring(70 * factor, 20), 150 * factor);
    const result = assessIndependence(mechanism, mechanism.home, assessArchitecture(mechanism));
    expect(result.singularValues[5]).toBeCloseTo(0.68086, 5);
    expect(result.determinant / factor ** 3).toBeCloseTo(-874646.19, 1);
  });
});

describe('loosest motion', () => {
  it(`is the unit twist that changes the legs least (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    for (let n = 0; n < 20; n++) {
      const mechanism = randomGeneralLayout(random);
      const pose = randomPose(random, 1.5, 0.3, 0.8);
      const lc = mechanism.characteristicLength;
      const {
        loosestMotion,
        jacobian: J,
        singularValues,
      } = assessIndependence(mechanism, pose, assessArchitecture(mechanism));
      const { translation, rotation, legChanges } = loosestMotion;
      expect(Math.hypot(length(translation), lc * length(rotation))).toBeCloseTo(1, 10);
      expect(Math.hypot(...legChanges)).toBeCloseTo(singularValues[5], 10);
      // no random unit twist does better
      for (let m = 0; m < 200; m++) {
        const raw = Array.from({ length: 6 }, () => random() - 0.5);
        const size = Math.hypot(raw[0], raw[1], raw[2], lc * raw[3], lc * raw[4], lc * raw[5]);
        const response = rows(J).map((row) => row.reduce((sum, entry, k) => sum + (entry * raw[k]) / size, 0));
        expect(Math.hypot(...response)).toBeGreaterThanOrEqual(singularValues[5] * (1 - 1e-9));
      }
    }
  });

  it('turns about a line whose points only slide along it', () => {
    const mechanism = referenceLayout();
    const pose = {
      p_BoTo_B: [10, -5, 150] as Vec3,
      R_BP: rotationAbout([0, 0, 1], 1.2),
    };
    const { loosestMotion } = assessIndependence(mechanism, pose, assessArchitecture(mechanism));
    const { axis, rotation, translation } = loosestMotion;
    if (!axis) throw new Error('expected a turning motion');
    const arm: Vec3 = [axis.point[0] - 10, axis.point[1] + 5, axis.point[2] - 150];
    const [wx, wy, wz] = rotation;
    const slide = add(translation, [wy * arm[2] - wz * arm[1], wz * arm[0] - wx * arm[2], wx * arm[1] - wy * arm[0]]);
    const expected = scale(rotation, axis.pitch);
    slide.forEach((entry, k) => expect(entry).toBeCloseTo(expected[k], 10));
    expect(rotate(rotationAbout(axis.direction, 0.3), axis.direction)[0]).toBeCloseTo(axis.direction[0], 12);
  });
});
