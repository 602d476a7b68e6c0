import { describe, expect, it } from 'vitest';
import { assessArchitecture } from '../../src/kinematics/architecture.ts';
import { assessIndependence } from '../../src/kinematics/independence.ts';
import { jacobian } from '../../src/kinematics/jacobian.ts';
import { compileMechanism } from '../../src/kinematics/mechanism.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { DEG, mechanismOf, points, ring } from '../kinematics/designs.ts';

const SEED = 1990;

/** J^T J, row-major 6x6. */
function gram(J: Float64Array): number[] {
  return Array.from({ length: 36 }, (_, entry) => {
    const row = Math.floor(entry / 6);
    const column = entry % 6;
    let sum = 0;
    for (let leg = 0; leg < 6; leg++) sum += J[6 * leg + row] * J[6 * leg + column];
    return sum;
  });
}

describe('legs on six edges of a cube', () => {
  // Sum of u u^T = 2 I: cubic six-axis isolators, Z. J. Geng and L. S. Haynes 1994 (published). The rest derived: edge a,
  // reference at the centre, J^T J = diag(2, 2, 2, a^2/2, a^2/2, 2 a^2) with the third axis along the body diagonal left out.
  const a = 2.5;
  const cube = () => {
    // the six edges that touch neither (0,0,0) nor (1,1,1), walked as a closed ring
    const ringOfCorners = [
      [1, 0, 0],
      [1, 1, 0],
      [0, 1, 0],
      [0, 1, 1],
      [0, 0, 1],
      [1, 0, 1],
    ];
    // turn the body diagonal to Z: rows are two directions square to it, and it
    const d = 1 / Math.sqrt(3);
    const e = 1 / Math.sqrt(2);
    const f = 1 / Math.sqrt(6);
    const rows = [
      [e, -e, 0],
      [f, f, -2 * f],
      [d, d, d],
    ];
    const corners = ringOfCorners.map((corner) => {
      const fromCentre = corner.map((entry) => a * (entry - 0.5));
      return rows.map((row) => row[0] * fromCentre[0] + row[1] * fromCentre[1] + row[2] * fromCentre[2]);
    });
    // corners alternate between low and high; every leg joins a low one (base) to a high one (platform)
    const lowOf = corners.map((corner, n) => (corner[2] < 0 ? corner : corners[(n + 1) % 6]));
    const highOf = corners.map((corner, n) => (corner[2] < 0 ? corners[(n + 1) % 6] : corner));
    return mechanismOf(points(lowOf.flat()), points(highOf.flat()), a, {
      home: poseFromAngles({ position: [0, 0, 0], roll: 0, pitch: 0, yaw: 0 }),
    });
  };

  it('has J^T J = diag(2, 2, 2, a^2/2, a^2/2, 2 a^2) and |det J| = 2 a^3', () => {
    const mechanism = cube();
    const J = jacobian(mechanism, mechanism.home);
    const diagonal = [2, 2, 2, a ** 2 / 2, a ** 2 / 2, 2 * a ** 2];
    gram(J).forEach((entry, n) => expect(entry).toBeCloseTo(n % 7 === 0 ? diagonal[n / 7] : 0, 10));
    const { determinant } = assessIndependence(mechanism, mechanism.home, assessArchitecture(mechanism));
    expect(Math.abs(determinant)).toBeCloseTo(2 * a ** 3, 9);
  });

  it('has condition 2 at the best characteristic length, and no length does better', () => {
    const condition = (characteristicLength: number) => {
      const mechanism = compileMechanism({
        ...cube().spec,
        characteristicLength,
      });
      return assessIndependence(mechanism, mechanism.home, assessArchitecture(mechanism)).condition;
    };
    // rotations a^2/2 and 2 a^2 straddle 2 c^2 for any c between a/2 and a
    for (const share of [0.5, 0.6, 0.75, 0.9, 1]) expect(condition(share * a)).toBeCloseTo(2, 9);
    for (const share of [0.2, 0.4, 1.1, 2]) expect(condition(share * a)).toBeGreaterThan(2);
  });
});

describe('level pose at zero yaw', () => {
  it('has the closed-form sums (derived), with the worked example', () => {
    const R = 1.3;
    const r = 0.8;
    const h = 0.9;
    // half gaps 0.15 and 0.25 rad
    const mechanism = mechanismOf(ring(R, 0.3 / DEG), ring(r, 0.5 / DEG), h);
    const G = gram(jacobian(mechanism, mechanism.home));
    const diagonal = [1.3588006474, 1.3588006474, 3.2823987051, 1.0503675856, 1.0503675856, 1.5934556569];
    diagonal.forEach((value, axis) => expect(G[7 * axis]).toBeCloseTo(value, 9));
    expect(G[0 * 6 + 4]).toBeCloseTo(0.3459059977, 9);
    expect(G[1 * 6 + 3]).toBeCloseTo(-0.3459059977, 9);
  });

  it(`has the closed-form sums for random rings (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    for (let n = 0; n < 50; n++) {
      const [R, r, h] = [uniform(random, 50, 150), uniform(random, 30, 150), uniform(random, 50, 250)];
      const [baseGap, platformGap] = [uniform(random, 0, 110), uniform(random, 0, 110)];
      const d = (60 - (baseGap + platformGap) / 2) * DEG;
      const rho2 = R * R + r * r - 2 * R * r * Math.cos(d);
      const L2 = rho2 + h * h;
      const mechanism = mechanismOf(ring(R, baseGap), ring(r, platformGap), h);
      const G = gram(jacobian(mechanism, mechanism.home));
      const expected = new Array<number>(36).fill(0);
      expected[0] = expected[7] = (3 * rho2) / L2;
      expected[14] = (6 * h * h) / L2;
      expected[21] = expected[28] = (3 * r * r * h * h) / L2;
      expected[35] = (6 * R * R * r * r * Math.sin(d) ** 2) / L2;
      const c = (3 * r * h * (R * Math.cos(d) - r)) / L2;
      expected[4] = expected[24] = c;
      expected[9] = expected[19] = -c;
      G.forEach((entry, k) => expect(Math.abs(entry - expected[k])).toBeLessThan(1e-9 * R * R));
    }
  });
});

describe('determinant of a level platform that yaws', () => {
  it(`is 54 R^3 r^3 h^3 sin^3 d |cos psi| / (l_plus^3 l_minus^3) (derived; seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    for (let n = 0; n < 50; n++) {
      const [R, r, h] = [uniform(random, 0.5, 1.5), uniform(random, 0.3, 1.5), uniform(random, 0.5, 2)];
      const [baseGap, platformGap] = [uniform(random, 0, 100), uniform(random, 0, 100)];
      const psi = uniform(random, -1.4, 1.4);
      const d = (60 - (baseGap + platformGap) / 2) * DEG;
      // odd and even legs see the yaw with opposite signs
      const l = (angle: number) => Math.sqrt(R * R + r * r - 2 * R * r * Math.cos(angle) + h * h);
      const expected =
        (54 * (R * r * h) ** 3 * Math.sin(d) ** 3 * Math.abs(Math.cos(psi))) / (l(d + psi) * l(d - psi)) ** 3;
      const mechanism = mechanismOf(ring(R, baseGap), ring(r, platformGap), h);
      const pose = poseFromAngles({
        position: [0, 0, h],
        roll: 0,
        pitch: 0,
        yaw: psi,
      });
      const { determinant } = assessIndependence(mechanism, pose, assessArchitecture(mechanism));
      expect(Math.abs(Math.abs(determinant) - Math.abs(expected))).toBeLessThan(1e-10 * (R * r) ** 1.5);
    }
  });

  it('vanishes at +-90 deg of yaw, at any height and level offset (E. F. Fichter, IJRR 5(2), 1986: from memory)', () => {
    for (const [baseGap, platformGap] of [
      [20, 20],
      [10, 50],
      [30, 15],
    ]) {
      const mechanism = mechanismOf(ring(100, baseGap), ring(70, platformGap), 150);
      const architecture = assessArchitecture(mechanism);
      for (const yaw of [90 * DEG, -90 * DEG]) {
        for (const position of [
          [0, 0, 150],
          [20, -11, 90],
          [-35, 8, 240],
        ] as const) {
          const { verdict } = assessIndependence(
            mechanism,
            poseFromAngles({ position, roll: 0, pitch: 0, yaw }),
            architecture,
          );
          expect(verdict.word).toBe('singular at this pose');
        }
        const tilted = poseFromAngles({
          position: [0, 0, 150],
          roll: 0.2,
          pitch: 0.1,
          yaw,
        });
        expect(assessIndependence(mechanism, tilted, architecture).rank).toBe(6);
      }
    }
  });
});

describe('best condition of the symmetric family', () => {
  // K. H. Pittens and R. P. Podhorodeski, J. Robotic Systems 10(8), 1993: from memory; derived from the closed-form sums.
  const conditionAt = (d_deg: number, r: number, h: number) => {
    const gaps = 120 - 2 * d_deg;
    const mechanism = mechanismOf(ring(1, gaps / 2), ring(r, gaps / 2), h, {
      characteristicLength: r,
    });
    return assessIndependence(mechanism, mechanism.home, assessArchitecture(mechanism)).condition;
  };

  it('is sqrt 2 at R cos d = r, h = R sin d, characteristic length r', () => {
    expect(conditionAt(60, 0.5, 0.8660254037844386)).toBeCloseTo(Math.SQRT2, 9);
    for (const d of [25, 40, 55]) {
      expect(conditionAt(d, Math.cos(d * DEG), Math.sin(d * DEG))).toBeCloseTo(Math.SQRT2, 9);
    }
  });

  it('is nowhere better on a grid of ring ratios and heights', () => {
    for (let r = 0.2; r <= 1.4; r += 0.1) {
      for (let h = 0.2; h <= 2; h += 0.1) expect(conditionAt(40, r, h)).toBeGreaterThan(Math.SQRT2 - 1e-9);
    }
  });
});
