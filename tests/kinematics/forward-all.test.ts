import { describe, expect, it } from 'vitest';
import { solveAll } from '../../src/kinematics/forward.ts';
import type { JointCentres } from '../../src/kinematics/layout.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import type { LongWork } from '../../src/math/long-work.ts';
import { seededRandom } from '../../src/math/random.ts';
import { rotate, rotationFromAngles } from '../../src/math/rotation.ts';
import { add, length } from '../../src/math/vec3.ts';
import { mechanismOf, points } from './designs.ts';
import {
  DEG,
  HOME,
  lengthsByThree,
  pairedRings,
  poseGap,
  REFERENCE,
  randomAnyPose,
  randomCentres,
  rotationError,
  worstLength,
} from './forward-layouts.ts';
import { newtonForward } from './newton-forward.ts';

function posesOf(...input: Parameters<typeof solveAll>) {
  const result = solveAll(...input);
  if (!result.ok) throw new Error(result.fault.text);
  return result.value;
}

const faultOf = (...input: Parameters<typeof solveAll>): string => {
  const result = solveAll(...input);
  return result.ok ? 'no fault' : result.fault.kind;
};

describe('all poses of random general layouts', () => {
  it.each(Array.from({ length: 25 }, (_, i) => 100 + i))('hold the pose the lengths came from (seed %d)', (seed) => {
    const random = seededRandom(seed);
    const centres = randomCentres(random);
    const pose = randomAnyPose(random);
    const lengths = lengthsByThree(centres, pose);
    const { poses, paths, complete, continuum } = posesOf(centres, lengths);
    expect({ complete, continuum }).toEqual({ complete: true, continuum: false });
    expect(poses.filter((other) => poseGap(other.pose, pose) < 1e-8)).toHaveLength(1);
    // complex ones come in conjugate pairs, so of 40 an even number is real; half of the poses on either side
    expect(poses.length % 2).toBe(0);
    expect(paths).toEqual({ real: poses.length, complex: 40 - poses.length, diverged: 0, failed: 0 });
    for (const found of poses) {
      expect(worstLength(centres, found.pose, lengths)).toBeLessThan(1e-10);
      expect(rotationError(found.pose.R_BP)).toBeLessThan(1e-12);
      expect(poses.filter((other) => poseGap(other.pose, found.pose) < 1e-7)).toHaveLength(1);
    }
  });

  it.each([201, 202, 203, 204])('none is found by Newton from random guesses that is not listed (seed %d)', (seed) => {
    const random = seededRandom(seed);
    const centres = randomCentres(random);
    const mechanism = mechanismOf(points(centres.base), points(centres.platform), 1);
    const lengths = lengthsByThree(centres, randomAnyPose(random));
    const { poses } = posesOf(centres, lengths);
    const met = new Set<number>();
    for (let start = 0; start < 300; start++) {
      let pose: Pose;
      try {
        pose = newtonForward(mechanism, lengths, randomAnyPose(random));
      } catch {
        continue;
      }
      const index = poses.findIndex((listed) => poseGap(listed.pose, pose) < 1e-6);
      expect(index, `seed ${seed}`).toBeGreaterThanOrEqual(0);
      met.add(index);
    }
    expect(met.size).toBeGreaterThanOrEqual(1);
  });

  it.each([301, 302, 303])('do not depend on the order of the legs or on which plate is the base (seed %d)', (seed) => {
    const random = seededRandom(seed);
    const centres = randomCentres(random);
    const lengths = lengthsByThree(centres, randomAnyPose(random));
    const { poses } = posesOf(centres, lengths);
    const order = [3, 0, 5, 1, 4, 2];
    const reordered = (flat: Float64Array) =>
      Float64Array.from(order.flatMap((leg) => [...flat.slice(3 * leg, 3 * leg + 3)]));
    const other: JointCentres = { base: reordered(centres.platform), platform: reordered(centres.base) };
    const swapped = posesOf(
      other,
      order.map((leg) => lengths[leg]),
    );
    expect(swapped.poses).toHaveLength(poses.length);
    for (const { pose } of poses) {
      const R_BP = pose.R_BP.map((_, i) => pose.R_BP[3 * (i % 3) + Math.floor(i / 3)]);
      const back = rotate(R_BP, pose.p_BoTo_B);
      const inverse: Pose = { p_BoTo_B: [-back[0], -back[1], -back[2]], R_BP };
      expect(swapped.poses.filter((found) => poseGap(found.pose, inverse) < 1e-8)).toHaveLength(1);
    }
  });
});

describe('units, frames and tool', () => {
  it.each([1e-3, 1, 1e3])('the same layout at %d times the size has the same poses', (scale) => {
    const pose: Pose = { p_BoTo_B: [10, -7, 140], R_BP: rotationFromAngles({ roll: 0.1, pitch: -0.2, yaw: 0.15 }) };
    const lengths = lengthsByThree(REFERENCE, pose);
    const plain = posesOf(REFERENCE, lengths);
    const larger: JointCentres = {
      base: REFERENCE.base.map((value) => value * scale),
      platform: REFERENCE.platform.map((value) => value * scale),
    };
    const scaled = posesOf(
      larger,
      lengths.map((value) => value * scale),
    );
    expect(scaled.poses).toHaveLength(plain.poses.length);
    expect(scaled.paths).toEqual(plain.paths);
    for (const { pose: big, determinant } of scaled.poses) {
      const [x, y, z] = big.p_BoTo_B;
      const back: Pose = { p_BoTo_B: [x / scale, y / scale, z / scale], R_BP: big.R_BP };
      const same = plain.poses.filter((found) => poseGap(found.pose, back) < 1e-7);
      expect(same).toHaveLength(1);
      expect(determinant / scale ** 3 / same[0].determinant).toBeCloseTo(1, 8);
    }
  });

  it('a tool point moves with the platform, and the determinant does not depend on it', () => {
    const lengths = lengthsByThree(REFERENCE, HOME);
    const plain = posesOf(REFERENCE, lengths);
    const tool = [12, -5, 60] as const;
    for (const { pose, determinant } of posesOf(REFERENCE, lengths, { tool }).poses) {
      expect(worstLength(REFERENCE, pose, lengths, tool)).toBeLessThan(1e-10);
      const same = plain.poses.filter((found) => {
        const p_BoTo_B = add(found.pose.p_BoTo_B, rotate(found.pose.R_BP, tool));
        return poseGap({ p_BoTo_B, R_BP: found.pose.R_BP }, pose) < 1e-7;
      });
      expect(same).toHaveLength(1);
      expect(determinant / same[0].determinant).toBeCloseTo(1, 8);
    }
  });
});

describe('lengths that no or special poses have', () => {
  it.each([
    ['one leg far too long', [163, 163, 163, 163, 163, 900]],
    ['all too short to join the plates', [10, 10, 10, 10, 10, 10]],
    ['alternating, beyond what a twist can make', [240, 100, 240, 100, 240, 100]],
  ])('%s: none, and the list is complete', (_, lengths) => {
    const { poses, complete, paths } = posesOf(REFERENCE, lengths);
    expect(poses).toHaveLength(0);
    expect(complete).toBe(true);
    expect(paths.real).toBe(0);
  });

  it('a singular pose comes out once, with the two paths that meet there', () => {
    // level and yawed by 90 deg: singular (E. F. Fichter 1986, from memory); its mirror image below as well
    const pose: Pose = { p_BoTo_B: [0, 0, 150], R_BP: rotationFromAngles({ roll: 0, pitch: 0, yaw: 90 * DEG }) };
    const { poses, complete } = posesOf(REFERENCE, lengthsByThree(REFERENCE, pose));
    expect(complete).toBe(true);
    // known to the square root of rounding along the free direction
    const same = poses.filter((found) => poseGap(found.pose, pose) < 1e-4);
    expect(same).toHaveLength(1);
    expect(same[0]).toMatchObject({ multiplicity: 2, isolated: true });
    expect(Math.abs(same[0].determinant)).toBeLessThan(100);
  });

  it('equal legs between congruent bodies leave three translations free: not complete, and said so', () => {
    // derived: with b_i = a_i and R = I every leg vector is the translation, so any |t| = 1 will do
    const { base } = randomCentres(seededRandom(41));
    const { poses, complete, continuum } = posesOf({ base, platform: base }, [1, 1, 1, 1, 1, 1]);
    expect({ complete, continuum }).toEqual({ complete: false, continuum: true });
    const moving = poses.filter(({ isolated }) => !isolated);
    expect(moving.length).toBeGreaterThan(0);
    for (const { pose } of moving) {
      expect(worstLength({ base, platform: base }, pose, [1, 1, 1, 1, 1, 1])).toBeLessThan(1e-10);
      expect(length(pose.p_BoTo_B)).toBeCloseTo(1, 6);
    }
  });

  it.each([
    [59, 60, 42],
    [59.9, 60, 43],
  ])('gaps %d / %d, nearly dependent legs, still hold their pose (seed %d)', (gap, platformGap, seed) => {
    const random = seededRandom(seed);
    const centres = pairedRings(1, gap, 0.7, platformGap);
    const pose = randomAnyPose(random);
    const { poses, complete } = posesOf(centres, lengthsByThree(centres, pose));
    expect(complete).toBe(true);
    expect(poses.filter((found) => poseGap(found.pose, pose) < 1e-6)).toHaveLength(1);
  });

  it('long legs, fifty times the ring', () => {
    const pose: Pose = { p_BoTo_B: [100, 50, 5000], R_BP: rotationFromAngles({ roll: 0.1, pitch: 0.1, yaw: 0.3 }) };
    const lengths = lengthsByThree(REFERENCE, pose);
    const { poses } = posesOf(REFERENCE, lengths);
    expect(poses.filter((found) => poseGap(found.pose, pose) < 1e-6 * 5000)).toHaveLength(1);
  });
});

describe('input that fixes no pose', () => {
  const lengths = Array.from(lengthsByThree(REFERENCE, HOME));

  it.each([
    [60, 60],
    [40, 80],
    [120, 0],
  ])('gaps %d / %d: dependent legs are a clear fault at once', (gap, platformGap) => {
    const started = performance.now();
    expect(faultOf(pairedRings(100, gap, 70, platformGap), lengths)).toBe('singularEverywhere');
    expect(performance.now() - started).toBeLessThan(500);
  });

  it('all joints in one point', () => {
    expect(faultOf({ base: new Float64Array(18), platform: new Float64Array(18) }, lengths)).toBe('singularEverywhere');
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('a length of %d names its leg', (bad) => {
    const result = solveAll(REFERENCE, [...lengths.slice(0, 3), bad, ...lengths.slice(4)]);
    expect(result).toMatchObject({ ok: false, fault: { kind: 'badLength', leg: 4 } });
  });

  it('a joint that is not a number', () => {
    const base = REFERENCE.base.slice();
    base[4] = Number.NaN;
    expect(faultOf({ base, platform: REFERENCE.platform }, lengths)).toBe('badJoint');
  });
});

describe('long work', () => {
  const lengths = lengthsByThree(REFERENCE, HOME);

  it('reports its way to the end', () => {
    const seen: number[] = [];
    const work: LongWork = { report: (done, total) => seen.push(done / total), shouldStop: () => false };
    posesOf(REFERENCE, lengths, { work });
    expect(seen).toEqual(Array.from({ length: 40 }, (_, i) => (i + 1) / 40));
  });

  it('stops in a later round too', () => {
    // lengths of a singular pose need a second round; the first has 40 paths
    const yawed: Pose = { p_BoTo_B: [0, 0, 150], R_BP: rotationFromAngles({ roll: 0, pitch: 0, yaw: 90 * DEG }) };
    let furthest = 0;
    const work: LongWork = {
      report: (done, total) => {
        furthest = Math.max(furthest, done);
        expect(done).toBeLessThanOrEqual(total);
      },
      shouldStop: () => furthest >= 45,
    };
    const { complete, stopped, poses } = posesOf(REFERENCE, lengthsByThree(REFERENCE, yawed), { work });
    expect({ complete, stopped, furthest }).toEqual({ complete: false, stopped: true, furthest: 45 });
    expect(poses).toHaveLength(2);
  });

  it('stops when told, keeps what it has, and does not call it complete', () => {
    let asked = 0;
    const work: LongWork = { report: () => undefined, shouldStop: () => ++asked > 20 };
    const { poses, paths, complete, stopped } = posesOf(REFERENCE, lengths, { work });
    expect({ complete, stopped }).toEqual({ complete: false, stopped: true });
    expect(paths.failed).toBe(20);
    expect(paths.real + paths.complex + paths.diverged + paths.failed).toBe(40);
    expect(poses.length).toBeGreaterThan(0);
    expect(poses.length).toBeLessThan(16);
    for (const { pose } of poses) expect(worstLength(REFERENCE, pose, lengths)).toBeLessThan(1e-10);
  });
});
