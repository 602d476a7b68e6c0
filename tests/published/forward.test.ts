import { describe, expect, it } from 'vitest';
import { NearSolver, solveAll, solveNear, solveWith } from '../../src/kinematics/forward.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { rotationFromAngles } from '../../src/math/rotation.ts';
import {
  DEG,
  HOME,
  lengthsByThree,
  pairedRings,
  poseAt,
  poseGap,
  REFERENCE,
  randomAnyPose,
  randomCentres,
  rotationError,
  worstLength,
} from '../kinematics/forward-layouts.ts';
import published from './data/assembly-modes-40.json' with { type: 'json' };

/** The value of a successful solve; fails the test with the fault's text otherwise. */
function posesOf(...input: Parameters<typeof solveAll>) {
  const result = solveAll(...input);
  if (!result.ok) throw new Error(result.fault.text);
  return result.value;
}

// Source: see "source" in data/assembly-modes-40.json.
describe('a layout with 40 real poses (published geometry)', () => {
  const centres = {
    base: Float64Array.from(published.base.flat()),
    platform: Float64Array.from(published.platform.flat()),
  };
  const started = performance.now();
  const found = posesOf(centres, published.legs);
  const took = performance.now() - started;

  it('has 40 found, all of them, in well under 10 s', () => {
    expect(found.poses).toHaveLength(40);
    expect(found.paths).toEqual({ real: 40, complex: 0, diverged: 0, failed: 0 });
    expect(found.complete).toBe(true);
    expect(took).toBeLessThan(5000);
  });

  it('each is one of the published poses, each once, with its determinant', () => {
    const taken = new Set<number>();
    for (const { pose, determinant } of found.poses) {
      const index = published.poses.findIndex(({ position, quaternion_wxyz }) => {
        const [x, y, z] = position;
        const [w, i, j, k] = quaternion_wxyz;
        return poseGap(pose, poseAt([x, y, z], [w, i, j, k])) < 1e-9;
      });
      expect(index).toBeGreaterThanOrEqual(0);
      expect(taken.has(index)).toBe(false);
      taken.add(index);
      // the file gives six to seven digits
      const listed = published.poses[index].determinant;
      expect(Math.abs(determinant - listed)).toBeLessThan(1e-4 * Math.abs(listed) + 1e-9);
    }
    expect(taken.size).toBe(40);
  });

  it('twenty have a positive and twenty a negative determinant', () => {
    expect(found.poses.filter(({ determinant }) => determinant > 0)).toHaveLength(20);
    expect(found.poses.filter(({ determinant }) => determinant < 0)).toHaveLength(20);
  });

  it('each has the six lengths to 1e-10 and a true rotation', () => {
    for (const { pose, isolated, multiplicity } of found.poses) {
      expect(worstLength(centres, pose, published.legs)).toBeLessThan(1e-10);
      expect(rotationError(pose.R_BP)).toBeLessThan(1e-12);
      expect({ isolated, multiplicity }).toEqual({ isolated: true, multiplicity: 1 });
    }
  });

  it('the live solve returns each from beside it', () => {
    const solver = new NearSolver(centres);
    for (const { pose } of found.poses) {
      const near: Pose = { ...pose, p_BoTo_B: [pose.p_BoTo_B[0] + 1e-7, pose.p_BoTo_B[1], pose.p_BoTo_B[2]] };
      const again = solveWith(solver, published.legs, near);
      if (!again.ok) throw new Error(again.fault.text);
      // the tolerance of 1e-10 on the lengths leaves up to 1e-10 / 3e-5 along the softest direction
      expect(poseGap(again.value.pose, pose)).toBeLessThan(1e-5);
    }
  });
});

// Derived: with all joints of each plate in its plane z = 0, mirroring the platform's joints in the base plane keeps every
// length, and S R S with S = diag(1, 1, -1) puts the joints there by a true rotation.
describe('mirror pairs of planar plates', () => {
  const mirrored = ({ p_BoTo_B: [x, y, z], R_BP }: Pose): Pose => ({
    p_BoTo_B: [x, y, -z],
    R_BP: R_BP.map((entry, i) => ((i % 3 === 2) !== i > 5 ? -entry : entry)),
  });

  it.each([11, 12, 13, 14, 15, 16])('random planar plates, seed %d', (seed) => {
    const random = seededRandom(seed);
    const centres = randomCentres(random, true);
    const { poses, complete } = posesOf(centres, lengthsByThree(centres, randomAnyPose(random)));
    expect(complete).toBe(true);
    expect(poses.length).toBeGreaterThanOrEqual(2);
    for (const { pose } of poses) {
      const twins = poses.filter((other) => poseGap(other.pose, mirrored(pose)) < 1e-8);
      expect(twins).toHaveLength(1);
      expect(twins[0].pose).not.toBe(pose);
    }
  });
});

describe('six equal legs of the reference layout at home', () => {
  // "At least 16 real solutions, 8 with the platform above the base": computed for the project's notes by other means.
  const found = posesOf(REFERENCE, lengthsByThree(REFERENCE, HOME));

  it('have 16 poses, 8 above the base, all isolated', () => {
    expect(found.poses).toHaveLength(16);
    expect(found.poses.filter(({ pose }) => pose.p_BoTo_B[2] > 0)).toHaveLength(8);
    expect(found.poses.every(({ isolated }) => isolated)).toBe(true);
    expect(found).toMatchObject({ complete: true, continuum: false });
  });

  it('home is among them', () => {
    expect(found.poses.filter(({ pose }) => poseGap(pose, HOME) < 1e-9)).toHaveLength(1);
  });
});

describe('legs that meet in pairs on one plate', () => {
  // A triangle of pairs leads to an equation of degree 16: P. Nanua, K. Waldron, V. Murthy, IEEE Trans. Robotics and
  // Automation 6, 1990 (from memory).
  it.each([
    [0, 20, 21],
    [0, 33, 22],
    [14, 0, 23],
    [0, 0, 24],
  ])('gaps %d / %d have 16 solutions, real and complex (seed %d)', (gap, platformGap, seed) => {
    const random = seededRandom(seed);
    const centres = pairedRings(1, gap, 0.7, platformGap);
    const { paths, complete } = posesOf(centres, lengthsByThree(centres, randomAnyPose(random)));
    expect(complete).toBe(true);
    expect(paths.real + paths.complex).toBe(16);
    expect(paths.diverged).toBe(24);
  });
});

// Derived: pose -> lengths -> pose is the identity on the side of the singularities where home is.
describe('round trip from the home guess', () => {
  it.each([
    [10, 30, 31],
    [30, 60, 32],
    [45, 80, 33],
  ])('over the reachable set, tilts to %d deg, yaw to %d deg (seed %d)', (tilt, yaw, seed) => {
    const random = seededRandom(seed);
    const angle = (half: number) => uniform(random, -half, half) * DEG;
    const solver = new NearSolver(REFERENCE);
    const home = solveNear(REFERENCE, lengthsByThree(REFERENCE, HOME), HOME);
    if (!home.ok) throw new Error(home.fault.text);
    const homeDeterminant = home.value.determinant;
    let compared = 0;
    while (compared < 2000) {
      const pose: Pose = {
        p_BoTo_B: [uniform(random, -150, 150), uniform(random, -150, 150), uniform(random, 20, 220)],
        R_BP: rotationFromAngles({ roll: angle(tilt), pitch: angle(tilt), yaw: angle(yaw) }),
      };
      const lengths = lengthsByThree(REFERENCE, pose);
      if (!lengths.every((length) => length >= 120 && length <= 200)) continue;
      const own = solveWith(solver, lengths, pose);
      if (!own.ok) throw new Error(own.fault.text);
      if (own.value.determinant * homeDeterminant <= 0) continue;
      const back = solveWith(solver, lengths, HOME);
      if (!back.ok) throw new Error(`${back.fault.text} seed ${seed}, ${pose.p_BoTo_B}`);
      expect(back.value.assemblyChanged).toBe(false);
      expect(back.value.residual).toBeLessThan(1e-10 * 100);
      expect(worstLength(REFERENCE, back.value.pose, lengths)).toBeLessThan(1e-10);
      // two poses of the same lengths meet at a singularity; this near to one either may be returned
      if (Math.abs(own.value.determinant) < 0.01 * Math.abs(homeDeterminant)) continue;
      expect(poseGap(back.value.pose, pose)).toBeLessThan(1e-5);
      compared++;
    }
  });
});
