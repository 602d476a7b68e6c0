import { Euler, Matrix4, Quaternion } from 'three';
import { describe, expect, it } from 'vitest';
import { randomQuaternion, seededRandom, uniform } from '../../src/math/random.ts';
import {
  anglesFromRotation,
  type Mat3,
  quaternionFromRotation,
  rotate,
  rotateBack,
  rotationFromAngles,
  rotationFromQuaternion,
} from '../../src/math/rotation.ts';

const SEED = 20;
const CASES = 500;

/** The 3x3 part of one of three's matrices (column-major there), row by row. */
function rowsOf(matrix: Matrix4): number[] {
  const e = matrix.elements;
  return [e[0], e[4], e[8], e[1], e[5], e[9], e[2], e[6], e[10]];
}

/** Largest difference between two lists of numbers. */
const distance = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  Math.max(...Array.from(a, (value, i) => Math.abs(value - b[i])));

/** Entries of R are sums of two products of sines and cosines: a few rounding errors of 1. */
const ROUNDING = 8 * Number.EPSILON;

function randomAngles(random: () => number) {
  const turn = () => uniform(random, -Math.PI, Math.PI);
  return { roll: turn(), pitch: uniform(random, -1.5, 1.5), yaw: turn() };
}

// Referee: three.js. Its intrinsic order 'ZYX' is Rz Ry Rx, the same as turning about the fixed x, then y, then z.
describe(`rotations against three.js (seed ${SEED})`, () => {
  it('from roll, pitch and yaw', () => {
    const random = seededRandom(SEED);
    for (let i = 0; i < CASES; i++) {
      const angles = randomAngles(random);
      const theirs = new Matrix4().makeRotationFromEuler(new Euler(angles.roll, angles.pitch, angles.yaw, 'ZYX'));
      expect(distance(rotationFromAngles(angles), rowsOf(theirs))).toBeLessThan(ROUNDING);
    }
  });

  it('from and to quaternions, which three writes x y z w', () => {
    const random = seededRandom(SEED + 1);
    for (let i = 0; i < CASES; i++) {
      const [w, x, y, z] = randomQuaternion(random);
      const theirs = new Matrix4().makeRotationFromQuaternion(new Quaternion(x, y, z, w));
      const ours = rotationFromQuaternion([w, x, y, z]);
      expect(distance(ours, rowsOf(theirs))).toBeLessThan(ROUNDING);

      const back = new Quaternion().setFromRotationMatrix(theirs);
      const sign = back.w < 0 ? -1 : 1;
      expect(distance(quaternionFromRotation(ours), [sign * back.w, sign * back.x, sign * back.y, sign * back.z]))
        // three divides by the square root of a difference: half the digits of the smallest entry at worst.
        .toBeLessThan(1e-12);
    }
  });

  it('back to roll, pitch and yaw', () => {
    const random = seededRandom(SEED + 2);
    for (let i = 0; i < CASES; i++) {
      const angles = randomAngles(random);
      const R = rotationFromAngles(angles);
      const theirs = new Euler().setFromRotationMatrix(asMatrix4(R), 'ZYX');
      const ours = anglesFromRotation(R);
      // Angles are found near pitch = 1.5 rad through a cosine of 0.07, which costs one or two digits.
      expect(distance([ours.roll, ours.pitch, ours.yaw], [theirs.x, theirs.y, theirs.z])).toBeLessThan(1e-13);
      expect(distance([ours.roll, ours.pitch, ours.yaw], [angles.roll, angles.pitch, angles.yaw])).toBeLessThan(1e-13);
    }
  });
});

describe('rotations at and beside a pitch of a quarter turn', () => {
  it.each([90, -90, 90 - 1e-6, -90 + 1e-6, 90 - 1e-10])(
    'pitch %d deg gives angles of the same rotation',
    (pitch_deg) => {
      const R = rotationFromAngles({ roll: 0.3, pitch: (pitch_deg * Math.PI) / 180, yaw: -0.8 });
      // The cosine of the pitch is lost below 1e-8 of a radian; the rotation itself may move by as much.
      expect(distance(rotationFromAngles(anglesFromRotation(R)), R)).toBeLessThan(2e-8);
    },
  );
});

describe('turning a vector', () => {
  it('forth and back is the vector again, and keeps its length', () => {
    const random = seededRandom(SEED + 3);
    for (let i = 0; i < CASES; i++) {
      const R = rotationFromAngles(randomAngles(random));
      const v = [uniform(random, -9, 9), uniform(random, -9, 9), uniform(random, -9, 9)] as const;
      const turned = rotate(R, v);
      expect(distance(rotateBack(R, turned), v)).toBeLessThan(9 * ROUNDING);
      expect(Math.abs(Math.hypot(...turned) - Math.hypot(...v))).toBeLessThan(9 * ROUNDING);
    }
  });
});

function asMatrix4(R: Mat3): Matrix4 {
  return new Matrix4().set(R[0], R[1], R[2], 0, R[3], R[4], R[5], 0, R[6], R[7], R[8], 0, 0, 0, 0, 1);
}
