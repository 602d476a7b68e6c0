import { all, type BigNumber, create } from 'mathjs';
import { Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import type { Solid } from '../../src/kinematics/bodies.ts';
import { type Inertia, inertiaFault, principalInertia } from '../../src/kinematics/inertia.ts';
import { jacobian } from '../../src/kinematics/jacobian.ts';
import { loadFault, type Payload, payloadOnly } from '../../src/kinematics/load.ts';
import { type Pose, poseFromAngles } from '../../src/kinematics/pose.ts';
import { assessStiffness, sameStiffness } from '../../src/kinematics/stiffness.ts';
import { uniformBody } from '../../src/kinematics/uniform-body.ts';
import { randomQuaternion, seededRandom, uniform } from '../../src/math/random.ts';
import { rotate, rotationFromQuaternion } from '../../src/math/rotation.ts';
import { add, type Vec3 } from '../../src/math/vec3.ts';
import { DEG, referenceLayout } from './designs.ts';

const legs = sameStiffness({
  leg: 800,
  baseJoint: Number.POSITIVE_INFINITY,
  platformJoint: Number.POSITIVE_INFINITY,
});

const bodyOf = (solid: Solid) => {
  const body = uniformBody(solid);
  if (!body) throw new Error('no body');
  return body;
};

/** The six numbers of R I R^T, by a general library. */
function turned(moments: Vec3, R: ArrayLike<number>): Inertia {
  const A = Matrix.from1DArray(3, 3, Array.from(R));
  const I = A.mmul(Matrix.diag([...moments])).mmul(A.transpose());
  return [I.get(0, 0), I.get(1, 1), I.get(2, 2), I.get(0, 1), I.get(0, 2), I.get(1, 2)];
}

function expectSame(found: Inertia, expected: Inertia, share = 1e-12) {
  const size = Math.max(...expected.map(Math.abs));
  found.forEach((entry, n) => expect(Math.abs(entry - expected[n])).toBeLessThan(share * size));
}

const frequenciesAt = (pose: Pose, payload: Payload, mechanism = referenceLayout()) => {
  const result = assessStiffness(mechanism, pose, legs, payloadOnly(payload));
  if (!result.ok) throw new Error(result.fault.message);
  return result.value.modes.frequencies;
};

const boxMoments = ([a, b, c]: Vec3): Vec3 => [(b * b + c * c) / 12, (a * a + c * c) / 12, (a * a + b * b) / 12];

describe('a uniform body', () => {
  it('has R I R^T as a box turned about z', () => {
    for (const angle of [0, 20, 45, 90, 137, -70].map((deg) => deg * DEG)) {
      const size: Vec3 = [400, 20, 10];
      const { inertia } = bodyOf({ kind: 'box', centre: [5, -3, 30], size, turn: angle });
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      expectSame(inertia, turned(boxMoments(size), [c, -s, 0, s, c, 0, 0, 0, 1]));
    }
  });

  it('has R I R^T as a cylinder along any axis (seed 72)', () => {
    const random = seededRandom(72);
    for (let n = 0; n < 50; n++) {
      const R = rotationFromQuaternion(randomQuaternion(random));
      const from: Vec3 = [uniform(random, -50, 50), uniform(random, -50, 50), uniform(random, -50, 50)];
      const [h, r] = [uniform(random, 1, 300), uniform(random, 1, 80)];
      const { inertia, centre } = bodyOf({ kind: 'cylinder', from, to: add(from, rotate(R, [0, 0, h])), radius: r });
      // handbook: m r^2 / 2 along the axis, m (3 r^2 + h^2) / 12 across it
      const across = (3 * r * r + h * h) / 12;
      expectSame(inertia, turned([across, across, (r * r) / 2], R));
      expectSame([...centre, 0, 0, 0], [...add(from, rotate(R, [0, 0, h / 2])), 0, 0, 0]);
    }
  });

  it('is the same as a box, a prism and the hull of its corners, turned about any axis and moved (seed 73)', () => {
    const random = seededRandom(73);
    const size: Vec3 = [60, 25, 90];
    const [x, y, z] = size.map((side) => side / 2);
    const prism = bodyOf({
      kind: 'prism',
      outline: Float64Array.of(-x, -y, x, -y, x, y, -x, y),
      bottom: 0,
      top: 2 * z,
    });
    expectSame(prism.inertia, turned(boxMoments(size), [1, 0, 0, 0, 1, 0, 0, 0, 1]));
    expect(prism.volume).toBeCloseTo(size[0] * size[1] * size[2], 6);
    for (let n = 0; n < 20; n++) {
      const R = rotationFromQuaternion(randomQuaternion(random));
      const middle: Vec3 = [uniform(random, -500, 500), uniform(random, -500, 500), uniform(random, -500, 500)];
      const corners = [-1, 1].flatMap((i) =>
        [-1, 1].flatMap((j) => [-1, 1].flatMap((k) => add(middle, rotate(R, [i * x, j * y, k * z])))),
      );
      const { inertia, centre } = bodyOf({ kind: 'hull', points: Float64Array.from(corners) });
      expectSame(inertia, turned(boxMoments(size), R), 1e-10);
      centre.forEach((entry, axis) => expect(entry).toBeCloseTo(middle[axis], 8));
    }
  });

  it('has the inertia of its two halves by the parallel axis theorem', () => {
    // an L of two boxes is no solid of ours; two halves of one box are: I = sum (I_i + m_i (d^2 1 - d d^T))
    const whole = bodyOf({ kind: 'box', centre: [0, 0, 0], size: [80, 30, 20], turn: 30 * DEG });
    const half = bodyOf({ kind: 'box', centre: [0, 0, 0], size: [40, 30, 20], turn: 30 * DEG });
    const [dx, dy] = [20 * Math.cos(30 * DEG), 20 * Math.sin(30 * DEG)];
    const moved = [dy * dy, dx * dx, dx * dx + dy * dy, -dx * dy, 0, 0];
    half.inertia.forEach((entry, n) => expect(entry + moved[n]).toBeCloseTo(whole.inertia[n], 9));
  });
});

describe('natural frequencies', () => {
  // level and three-fold: K is the same seen from any direction about z, so a turn of the payload about z changes nothing
  it('of a bar do not depend on its turn about the axis of a level platform', () => {
    const bar = (turn: number): Payload => {
      const { centre, inertia } = bodyOf({ kind: 'box', centre: [0, 0, 20], size: [400, 20, 10], turn });
      const [xx, yy, zz, xy, xz, yz] = inertia.map((entry) => 3 * entry);
      return { mass: 3, centre, inertia: [xx, yy, zz, xy, xz, yz] };
    };
    const home = referenceLayout().home;
    const straight = frequenciesAt(home, bar(0));
    expect(straight).toHaveLength(6);
    for (const angle of [10, 30, 45, 80])
      frequenciesAt(home, bar(angle * DEG)).forEach((value, n) => expect(value / straight[n]).toBeCloseTo(1, 10));
  });

  it('of a body given by six numbers are those of the same body turned with the platform (seed 74)', () => {
    const random = seededRandom(74);
    const pose = poseFromAngles({ position: [12, -8, 155], roll: 6 * DEG, pitch: -4 * DEG, yaw: 9 * DEG });
    for (let n = 0; n < 10; n++) {
      // eight equal masses at the corners of a turned box, as one inertia by sums over the points
      const R = rotationFromQuaternion(randomQuaternion(random));
      const half: Vec3 = [uniform(random, 5, 90), uniform(random, 5, 90), uniform(random, 5, 90)];
      const points = Array.from({ length: 8 }, (_, c) =>
        rotate(R, [c & 1 ? half[0] : -half[0], c & 2 ? half[1] : -half[1], c & 4 ? half[2] : -half[2]]),
      );
      const sum = (of: (p: Vec3) => number) => points.reduce((total, p) => total + of(p) / 4, 0);
      const inertia: Inertia = [
        sum(([, y, z]) => y * y + z * z),
        sum(([x, , z]) => x * x + z * z),
        sum(([x, y]) => x * x + y * y),
        sum(([x, y]) => -x * y),
        sum(([x, , z]) => -x * z),
        sum(([, y, z]) => -y * z),
      ];
      const centre: Vec3 = [4, -6, 30];
      const found = frequenciesAt(pose, { mass: 2, centre, inertia });
      const M = Matrix.zeros(6, 6);
      for (const point of points) {
        const [x, y, z] = rotate(pose.R_BP, add(centre, point));
        const speed = new Matrix([
          [1, 0, 0, 0, z, -y],
          [0, 1, 0, -z, 0, x],
          [0, 0, 1, y, -x, 0],
        ]);
        M.add(
          speed
            .transpose()
            .mmul(speed)
            .mul(1 / 4),
        );
      }
      expectCounts(found, stiffnessAt(pose), M, 1e-8);
    }
  });

  it('are six beside a singular pose too, where the condition is some 6e6', () => {
    const yaw = 90 * DEG - 1e-7;
    const pose = poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw });
    const { inertia } = bodyOf({ kind: 'box', centre: [0, 0, 0], size: [80, 60, 20], turn: 0.3 });
    const found = frequenciesAt(pose, { mass: 1, centre: [0, 0, 0], inertia });
    expect(found).toHaveLength(6);
    expect(found[5] / found[0]).toBeGreaterThan(1e6);
    const R = Matrix.from1DArray(3, 3, Array.from(pose.R_BP));
    const [xx, yy, zz, xy, xz, yz] = inertia;
    const own = new Matrix([
      [xx, xy, xz],
      [xy, yy, yz],
      [xz, yz, zz],
    ]);
    const M = Matrix.eye(6, 6).setSubMatrix(R.mmul(own).mmul(R.transpose()), 3, 3);
    expectCounts(found, stiffnessAt(pose), M, 1e-6);
  });

  it('are fewer for a body without inertia about some axis, and say so', () => {
    const pose = referenceLayout().home;
    const modes = (payload: Payload) => {
      const result = assessStiffness(referenceLayout(), pose, legs, payloadOnly(payload));
      if (!result.ok) throw new Error(result.fault.message);
      return result.value.modes;
    };
    const rod = modes({ mass: 2, centre: [0, 0, 10], inertia: [0, 9000, 9000] });
    expect(rod.frequencies).toHaveLength(5);
    expect(rod.fewer).toBe('5 frequencies only: the payload has no inertia about one axis.');
    // a rod a hundredth of a micrometre thick swings as the one without thickness in its five lowest
    const thin = modes({ mass: 2, centre: [0, 0, 10], inertia: [1e-5, 9000, 9000] });
    expect(thin.frequencies).toHaveLength(6);
    rod.frequencies.forEach((value, n) => expect(thin.frequencies[n] / value).toBeCloseTo(1, 6));
    const point = modes({ mass: 2, centre: [0, 0, 10] });
    const small = modes({ mass: 2, centre: [0, 0, 10], inertia: [1e-4, 1e-4, 1e-4] });
    expect(point.frequencies).toHaveLength(3);
    point.frequencies.forEach((value, n) => expect(small.frequencies[n] / value).toBeCloseTo(1, 5));
  });
});

const big = create(all, { number: 'BigNumber', precision: 64 });

/** J^T J with 800 N/mm a leg, in 64 digits. */
function stiffnessAt(pose: Pose): readonly (readonly BigNumber[])[] {
  const J = jacobian(referenceLayout(), pose);
  const entry = (row: number, column: number) =>
    Array.from({ length: 6 }, (_, leg) =>
      big.bignumber(J[6 * leg + row]).times(big.bignumber(J[6 * leg + column])),
    ).reduce((sum, part) => sum.plus(part));
  return Array.from({ length: 6 }, (_, row) =>
    Array.from({ length: 6 }, (__, column) => entry(row, column).times(800)),
  );
}

/**
 * Sylvester's law of inertia: K - w^2 M has as many negative pivots as there are frequencies below w. Just under and just over each
 * frequency found, in 64 digits.
 */
function expectCounts(frequencies: readonly number[], K: readonly (readonly BigNumber[])[], M: Matrix, share: number) {
  const below = (frequency: number) => {
    const square = big.bignumber((2 * Math.PI * frequency) ** 2 / 1000);
    const A = K.map((row, i) => row.map((entry, j) => entry.minus(square.times(big.bignumber(M.get(i, j))))));
    let negative = 0;
    for (let k = 0; k < 6; k++) {
      if (A[k][k].isNegative()) negative++;
      for (let i = k + 1; i < 6; i++) {
        const factor = A[i][k].div(A[k][k]);
        for (let j = k; j < 6; j++) A[i][j] = A[i][j].minus(factor.times(A[k][j]));
      }
    }
    return negative;
  };
  frequencies.forEach((frequency, n) => {
    expect(below(frequency * (1 - share))).toBeLessThanOrEqual(n);
    expect(below(frequency * (1 + share))).toBeGreaterThanOrEqual(n + 1);
  });
}

describe('numbers of an inertia matrix', () => {
  it('that belong to no body are refused', () => {
    expect(inertiaFault([100, 100, 100, 0, 0, 0])).toBeNull();
    expect(inertiaFault([100, 100, 100, 120, 0, 0])).toContain('below 0');
    // a thin rod turned by 35 deg in its plane, to six digits
    const rod = turned(
      [0, 12_345.6, 12_345.6],
      [0.8191520443, -0.5735764364, 0, 0.5735764364, 0.8191520443, 0, 0, 0, 1],
    );
    const [xx, yy, zz, xy] = rod.map((entry) => Number(entry.toPrecision(6)));
    expect(inertiaFault([xx - 0.01, yy, zz, xy, 0, 0])).toBeNull();
    expect(inertiaFault([-1, 2, 3])).toContain('at least 0');
    expect(inertiaFault([1, 2, Number.NaN])).toContain('must be a number');
    const load = payloadOnly({ mass: 1, centre: [0, 0, 0], inertia: [1, 1, 1, 2, 0, 0] });
    expect(loadFault(load)?.message).toContain(
      'Payload inertia: 1, 1, 1, 2, 0, 0 kg mm^2; xy, xz and yz are too large',
    );
  });

  it('have principal moments in the order of their size, with axes that turn them back (seed 75)', () => {
    const random = seededRandom(75);
    for (let n = 0; n < 50; n++) {
      const R = rotationFromQuaternion(randomQuaternion(random));
      const moments: Vec3 = [uniform(random, 60, 90), uniform(random, 30, 60), uniform(random, 0, 30)];
      const found = principalInertia(turned(moments, R));
      found.moments.forEach((moment, k) => expect(moment).toBeCloseTo(moments[k], 10));
      expectSame(turned(found.moments, found.axes), turned(moments, R));
    }
  });
});
