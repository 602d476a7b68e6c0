import { EigenvalueDecomposition, inverse, Matrix } from 'ml-matrix';
import { describe, expect, it } from 'vitest';
import { legLengths } from '../../src/kinematics/legs.ts';
import { type Load, payloadOnly } from '../../src/kinematics/load.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { type Pose, poseFromAngles } from '../../src/kinematics/pose.ts';
import { assessStiffness, type LegStiffness, sameStiffness, seriesStiffness } from '../../src/kinematics/stiffness.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { multiply3, rotationAbout } from '../../src/math/rotation.ts';
import { add, length, scale, unit, type Vec3 } from '../../src/math/vec3.ts';
import { DEG, mechanismOf, referenceLayout, ring } from './designs.ts';

const rigidJoints = { baseJoint: Number.POSITIVE_INFINITY, platformJoint: Number.POSITIVE_INFINITY };
const ordinary = sameStiffness({ leg: 800, baseJoint: 4000, platformJoint: 2500 });
const pose = poseFromAngles({ position: [10, -6, 160], roll: 7 * DEG, pitch: -9 * DEG, yaw: 14 * DEG });
const payload = { mass: 3, centre: [4, 6, 35], inertia: [4000, 5000, 6500] } as const;

function stiffnessOf(mechanism: Mechanism, at: Pose, legs: readonly LegStiffness[], load: Load = payloadOnly(payload)) {
  const result = assessStiffness(mechanism, at, legs, load);
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
}

/**
 * Mass matrix about the tool, point by point: eight equal masses at the corners of a box with the payload's moments. A point
 * r from the tool moves at v + w x r.
 */
function massMatrix(mechanism: Mechanism, { R_BP }: Pose): Matrix {
  const { mass, centre, inertia } = payload;
  const [Ix, Iy, Iz] = inertia;
  const half = [Iy + Iz - Ix, Ix + Iz - Iy, Ix + Iy - Iz].map((twice) => Math.sqrt(twice / 2 / mass));
  const M = Matrix.zeros(6, 6);
  for (let corner = 0; corner < 8; corner++) {
    const offset = half.map((size, axis) => ((corner >> axis) & 1 ? size : -size));
    const arm = centre.map((entry, axis) => entry + offset[axis] - mechanism.p_PoTo_P[axis]);
    const [x, y, z] = [0, 3, 6].map((row) => R_BP[row] * arm[0] + R_BP[row + 1] * arm[1] + R_BP[row + 2] * arm[2]);
    const speed = new Matrix([
      [1, 0, 0, 0, z, -y],
      [0, 1, 0, -z, 0, x],
      [0, 0, 1, y, -x, 0],
    ]);
    M.add(
      speed
        .transpose()
        .mmul(speed)
        .mul(mass / 8),
    );
  }
  return M;
}

function moved(from: Pose, twist: readonly number[]): Pose {
  const turn: Vec3 = [twist[3], twist[4], twist[5]];
  return {
    p_BoTo_B: add(from.p_BoTo_B, [twist[0], twist[1], twist[2]]),
    R_BP: multiply3(rotationAbout(unit(turn), length(turn)), from.R_BP),
  };
}

describe('stiffness at the tool', () => {
  const mechanism = referenceLayout({ tool: [3, -5, 25] });
  const legs = sameStiffness({ leg: 800, baseJoint: 4000, platformJoint: 2500 }).map((own, leg) => ({
    ...own,
    leg: own.leg + 50 * leg,
  }));
  const springs = seriesStiffness(legs);
  if (!springs.ok) throw new Error(springs.fault.message);

  it('is the second difference of the energy stored in the legs, in 20 random directions (seed 55)', () => {
    const random = seededRandom(55);
    const lengths = legLengths(mechanism, pose);
    const energy = (twist: readonly number[]) =>
      legLengths(mechanism, moved(pose, twist)).reduce(
        (sum, value, leg) => sum + 0.5 * springs.value[leg] * (value - lengths[leg]) ** 2,
        0,
      );
    const { K } = stiffnessOf(mechanism, pose, legs);
    for (let n = 0; n < 20; n++) {
      const twist = Array.from({ length: 6 }, (_, axis) => uniform(random, -1, 1) * (axis < 3 ? 1e-3 : 1e-5));
      let predicted = 0;
      for (let row = 0; row < 6; row++)
        for (let column = 0; column < 6; column++) predicted += 0.5 * twist[row] * K[6 * row + column] * twist[column];
      const stored = (energy(twist) + energy(twist.map((entry) => -entry))) / 2;
      // the step is 1e-5 of the leg, so the next order is some 1e-10; rounding of lengths leaves 1e-8
      expect(Math.abs(stored / predicted - 1)).toBeLessThan(1e-6);
    }
  });

  it('has the inverse and the extreme directions that a general library finds', () => {
    const report = stiffnessOf(mechanism, pose, legs);
    const C = inverse(Matrix.from1DArray(6, 6, Array.from(report.K)));
    C.to1DArray().forEach((entry, n) => expect(report.compliance[n]).toBeCloseTo(entry, 10));
    const block = C.subMatrix(0, 2, 0, 2);
    const { realEigenvalues } = new EigenvalueDecomposition(block, { assumeSymmetric: true });
    expect(report.weakestTranslation.stiffness * Math.max(...realEigenvalues)).toBeCloseTo(1, 10);
    expect(report.stiffestTranslation.stiffness * Math.min(...realEigenvalues)).toBeCloseTo(1, 10);
    // a unit force along the weakest direction moves the tool along it by 1/stiffness
    const { direction, stiffness } = report.weakestTranslation;
    const image = block.mmul(Matrix.columnVector([...direction])).to1DArray();
    image.forEach((entry, axis) => expect(entry * stiffness).toBeCloseTo(direction[axis], 10));
    const turns = new EigenvalueDecomposition(C.subMatrix(3, 5, 3, 5), { assumeSymmetric: true }).realEigenvalues;
    expect(report.weakestRotation.stiffness * Math.max(...turns)).toBeCloseTo(1, 10);
  });

  it('moves most under a side force in the direction it names, among 3600 tried', () => {
    const { compliance: C, sideForce } = stiffnessOf(mechanism, pose, legs);
    let largest = 0;
    for (let n = 0; n < 3600; n++) {
      const angle = (n * Math.PI) / 1800;
      const shift = [0, 1, 2].map((row) => C[6 * row] * Math.cos(angle) + C[6 * row + 1] * Math.sin(angle));
      largest = Math.max(largest, Math.hypot(...shift));
    }
    const found = length(sideForce.shift.translation);
    expect(found).toBeGreaterThanOrEqual(largest * (1 - 1e-12));
    expect(found).toBeLessThan(largest * (1 + 1e-5));
    expect(sideForce.direction[2]).toBe(0);
  });

  it('swings at the frequencies of the general eigenproblem solved by a library', () => {
    const { K, modes } = stiffnessOf(mechanism, pose, legs);
    // K in N/mm, M in kg: 1 N/mm/kg = 1000 /s^2
    const M = massMatrix(mechanism, pose);
    const A = inverse(M).mmul(Matrix.from1DArray(6, 6, Array.from(K)));
    const expected = new EigenvalueDecomposition(A).realEigenvalues
      .map((square) => Math.sqrt(1000 * square) / (2 * Math.PI))
      .sort((a, b) => a - b);
    expect(modes.frequencies).toHaveLength(6);
    expect(modes.fewer).toBeNull();
    modes.frequencies.forEach((frequency, n) => expect(frequency / expected[n]).toBeCloseTo(1, 8));
  });

  it('gives a point mass on the axis its three frequencies, the vertical one in closed form', () => {
    const level = referenceLayout();
    const load = payloadOnly({ mass: 2, centre: [0, 0, 0] });
    const { modes, sag } = stiffnessOf(level, level.home, sameStiffness({ leg: 500, ...rigidJoints }), load);
    expect(modes.frequencies).toHaveLength(3);
    expect(modes.fewer).toContain('a point mass has no inertia');
    // level and symmetric: vertical stiffness k 6 h^2/L^2, uncoupled
    const L2 = legLengths(level, level.home)[0] ** 2;
    const vertical = (500 * 6 * 150 ** 2) / L2;
    const frequency = Math.sqrt((1000 * vertical) / 2) / (2 * Math.PI);
    expect(modes.frequencies.some((own) => Math.abs(own / frequency - 1) < 1e-10)).toBe(true);
    expect(sag.translation[2]).toBeCloseTo((-2 * 9.80665) / vertical, 12);
    const weightless = stiffnessOf(level, level.home, ordinary, payloadOnly({ mass: 0, centre: [0, 0, 0] }));
    expect(weightless.modes.frequencies).toHaveLength(0);
    expect(weightless.modes.fewer).toContain('without mass');
  });

  it('puts springs in series', () => {
    const result = seriesStiffness(sameStiffness({ leg: 100, baseJoint: 200, platformJoint: 50 }));
    if (!result.ok) throw new Error(result.fault.message);
    expect(result.value[3]).toBeCloseTo(1 / (1 / 100 + 1 / 200 + 1 / 50), 12);
  });

  it('refuses zero, negative and all-rigid stiffness, and a singular pose', () => {
    const message = (own: LegStiffness) => {
      const result = assessStiffness(mechanism, pose, sameStiffness(own), payloadOnly(payload));
      return result.ok ? '' : result.fault.message;
    };
    expect(message({ leg: 0, ...rigidJoints })).toBe('Leg 1, stiffness of the leg: 0 N/mm; it must be above 0.');
    expect(message({ leg: 10, baseJoint: -1, platformJoint: 1 })).toContain('base joint: -1 N/mm');
    expect(message({ leg: Number.POSITIVE_INFINITY, ...rigidJoints })).toContain('no part that gives');
    const wall = poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 90 * DEG });
    const singular = assessStiffness(referenceLayout(), wall, ordinary, payloadOnly(payload));
    expect(!singular.ok && singular.fault.kind).toBe('singular');
  });

  for (const size of [1e-3, 1, 1e3])
    it(`keeps its translation stiffness when the layout grows (x${size})`, () => {
      const of = (k: number) =>
        stiffnessOf(
          mechanismOf(ring(100 * k, 20), ring(70 * k, 20), 150 * k),
          poseFromAngles({ position: [0, 9 * k, 150 * k], roll: 0.1, pitch: 0, yaw: 0.2 }),
          ordinary,
          payloadOnly({ mass: 2, centre: [0, 0, 10 * k], inertia: scale([900, 800, 700], k * k) }),
        );
      const [one, other] = [of(1), of(size)];
      expect(other.weakestTranslation.stiffness / one.weakestTranslation.stiffness).toBeCloseTo(1, 10);
      expect(other.weakestRotation.stiffness / one.weakestRotation.stiffness / size ** 2).toBeCloseTo(1, 10);
      other.modes.frequencies.forEach((frequency, n) => expect(frequency / one.modes.frequencies[n]).toBeCloseTo(1, 9));
    });
});
