import { describe, expect, it } from 'vitest';
import { NearSolver, RESIDUAL_TOLERANCE, solveAll, solveNear, solveWith } from '../../src/kinematics/forward.ts';
import type { JointCentres } from '../../src/kinematics/layout.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { multiply3, rotationFromAngles } from '../../src/math/rotation.ts';
import { mechanismOf, ring } from './designs.ts';
import {
  DEG,
  HOME,
  lengthsByThree,
  pairedRings,
  poseGap,
  REFERENCE,
  randomAnyPose,
  randomCentres,
  worstLength,
} from './forward-layouts.ts';
import { newtonForward } from './newton-forward.ts';

const level = (yaw: number, height: number): Pose => ({
  p_BoTo_B: [0, 0, height],
  R_BP: rotationFromAngles({ roll: 0, pitch: 0, yaw: yaw * DEG }),
});

function solved(
  centres: JointCentres,
  lengths: ArrayLike<number>,
  guess: Pose,
  tool?: readonly [number, number, number],
) {
  const result = solveNear(centres, lengths, guess, tool);
  if (!result.ok) throw new Error(result.fault.text);
  return result.value;
}

describe('a pose near a guess', () => {
  it.each(Array.from({ length: 20 }, (_, i) => 500 + i))(
    'random layout and pose, guess beside it (seed %d)',
    (seed) => {
      const random = seededRandom(seed);
      const centres = randomCentres(random);
      const pose = randomAnyPose(random);
      const [x, y, z] = pose.p_BoTo_B;
      const small = () => uniform(random, -0.003, 0.003);
      const guess: Pose = {
        p_BoTo_B: [x + small(), y + small(), z + small()],
        R_BP: multiply3(rotationFromAngles({ roll: small(), pitch: small(), yaw: small() }), pose.R_BP),
      };
      const lengths = lengthsByThree(centres, pose);
      const found = solved(centres, lengths, guess);
      expect(worstLength(centres, found.pose, lengths)).toBeLessThan(1e-9);
      expect(poseGap(found.pose, pose)).toBeLessThan(1e-6);
      expect(found.assemblyChanged).toBe(false);
    },
  );

  it.each([1e-3, 1, 1e3])('the same at %d times the size', (scale) => {
    const centres: JointCentres = {
      base: REFERENCE.base.map((value) => value * scale),
      platform: REFERENCE.platform.map((value) => value * scale),
    };
    const pose: Pose = {
      p_BoTo_B: [10 * scale, -20 * scale, 140 * scale],
      R_BP: rotationFromAngles({ roll: 0.2, pitch: 0.1, yaw: -0.3 }),
    };
    const home: Pose = { ...HOME, p_BoTo_B: [0, 0, 150 * scale] };
    const found = solved(centres, lengthsByThree(centres, pose), home);
    expect(found.residual).toBeLessThan(RESIDUAL_TOLERANCE * 100 * scale);
    expect(
      poseGap({ ...found.pose, p_BoTo_B: scaled(found.pose, 1 / scale) }, { ...pose, p_BoTo_B: [10, -20, 140] }),
    ).toBeLessThan(1e-7);
    expect(found.iterations).toBeLessThan(8);
  });

  it("with a tool point, guess and result are the tool point's", () => {
    const tool = [15, 4, 70] as const;
    const pose: Pose = { p_BoTo_B: [5, 8, 210], R_BP: rotationFromAngles({ roll: 0.1, pitch: 0.15, yaw: 0.2 }) };
    const lengths = lengthsByThree(REFERENCE, pose, tool);
    const found = solved(REFERENCE, lengths, { ...HOME, p_BoTo_B: [15, 4, 220] }, tool);
    expect(poseGap(found.pose, pose)).toBeLessThan(1e-7);
  });

  it('converges fast: the error is squared from step to step', () => {
    const pose: Pose = { p_BoTo_B: [2, 1, 151], R_BP: rotationFromAngles({ roll: 0.01, pitch: 0.02, yaw: -0.01 }) };
    expect(solved(REFERENCE, lengthsByThree(REFERENCE, pose), HOME).iterations).toBeLessThanOrEqual(4);
  });
});

const scaled = ({ p_BoTo_B: [x, y, z] }: Pose, factor: number): [number, number, number] => [
  x * factor,
  y * factor,
  z * factor,
];

// Derived: level and yawed by psi, l^2 = R^2 + r^2 - 2 R r cos(psi -+ d) + h^2 for the two kinds of leg, so yaw 180 - psi at
// height h' with h'^2 = h^2 - 4 R r cos(psi) cos(d) has the same lengths. The two lie on the two sides of yaw 90.
describe('the two sides of the singularity at yaw 90', () => {
  const d = 40 * DEG;
  const twinHeight = (yaw: number, height: number) =>
    Math.sqrt(height ** 2 - 4 * 100 * 70 * Math.cos(yaw * DEG) * Math.cos(d));

  it.each([100, 110, 125])('from yaw 70 lengths of yaw %d are read as its twin on this side', (yaw) => {
    const height = twinHeight(yaw, 150);
    expect(lengthsByThree(REFERENCE, level(180 - yaw, height))[0]).toBeCloseTo(
      lengthsByThree(REFERENCE, level(yaw, 150))[0],
      9,
    );
    const found = solved(REFERENCE, lengthsByThree(REFERENCE, level(yaw, 150)), level(70, 160));
    expect(found.assemblyChanged).toBe(false);
    expect(poseGap(found.pose, level(180 - yaw, height))).toBeLessThan(1e-6);
  });

  it.each([100, 110, 125])('from yaw 115 the same lengths are read as yaw %d', (yaw) => {
    const found = solved(REFERENCE, lengthsByThree(REFERENCE, level(yaw, 150)), level(115, 150));
    expect(found.assemblyChanged).toBe(false);
    expect(poseGap(found.pose, level(yaw, 150))).toBeLessThan(1e-6);
  });

  it('determinants differ in sign across it', () => {
    const lengths = lengthsByThree(REFERENCE, level(110, 150));
    const here = solved(REFERENCE, lengths, level(70, 160));
    const there = solved(REFERENCE, lengths, level(112, 150));
    expect(Math.sign(here.determinant)).toBe(-Math.sign(there.determinant));
  });
});

// Lengths that change far. Level poses on one side of yaw 90 are joined by level poses, so the careful way has somewhere to go.
describe('the careful way', () => {
  it.each([
    [124.24, 68.88, 90.09, 25.21],
    [-83.67, 61.07, 164.32, 121.1],
    [-82.16, 139.3, 141.68, 19.51],
  ])('keeps to the side of the guess: lengths of yaw %d at %d mm from yaw %d at %d mm', (yaw, height, from, at) => {
    const guess = level(from, at);
    const lengths = lengthsByThree(REFERENCE, level(yaw, height));
    const found = solved(REFERENCE, lengths, guess);
    expect(worstLength(REFERENCE, found.pose, lengths)).toBeLessThan(1e-9);
    expect(found.assemblyChanged).toBe(false);
    // referee: the tests' own Newton, moved there in a thousand parts
    const mechanism = mechanismOf(ring(100, 20), ring(70, 20), 150);
    const start = lengthsByThree(REFERENCE, guess);
    let pose = guess;
    for (let part = 1; part <= 1000; part++) {
      const aim = Array.from(start, (own, leg) => own + (part / 1000) * (lengths[leg] - own));
      pose = newtonForward(mechanism, aim, pose);
    }
    expect(poseGap(found.pose, pose)).toBeLessThan(1e-6);
  });

  it.each([
    [56.55, 70.72, 143.5, 88.32],
    [67.44, 69.1, -163.1, 153.11],
  ])('says that a singularity is in the way: yaw %d at %d mm from yaw %d at %d mm', (yaw, height, from, at) => {
    // their twin beyond yaw 90 would stand at the root of a negative number
    expect(height ** 2 - 4 * 100 * 70 * Math.cos(yaw * DEG) * Math.cos(40 * DEG)).toBeLessThan(0);
    const result = solveNear(REFERENCE, lengthsByThree(REFERENCE, level(yaw, height)), level(from, at));
    expect(result).toMatchObject({ ok: false, fault: { kind: 'nearSingular' } });
  });
});

describe('honest failures', () => {
  const home = Array.from(lengthsByThree(REFERENCE, HOME));

  it('two legs that cannot both be so long are named', () => {
    const result = solveNear(REFERENCE, [...home.slice(0, 5), 900], HOME);
    expect(result).toMatchObject({ ok: false, fault: { kind: 'impossibleLengths', legs: [1, 6] } });
  });

  it.each([
    ['too twisted', [240, 100, 240, 100, 240, 100]],
    ['too short', [30, 30, 30, 30, 30, 30]],
    ['one pair against the rest', [280, 280, 120, 120, 120, 120]],
  ])('lengths that no pose has (%s): a fault, after a bounded number of steps', (_, lengths) => {
    const all = solveAll(REFERENCE, lengths);
    expect(all.ok && all.value.complete && all.value.poses.length === 0).toBe(true);
    const solver = new NearSolver(REFERENCE);
    const result = solveWith(solver, lengths, HOME);
    // some 2 us a step
    expect(solver.iterations).toBeLessThan(500);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(['nearSingular', 'notConverged', 'impossibleLengths']).toContain(result.fault.kind);
  });

  it('every answer from a wrong guess either has the lengths or is a fault (seed 61)', () => {
    const random = seededRandom(61);
    const solver = new NearSolver(REFERENCE);
    const counts = { solved: 0, changed: 0, failed: 0 };
    for (let i = 0; i < 400; i++) {
      const lengths = lengthsByThree(REFERENCE, { ...level(uniform(random, -170, 170), uniform(random, 5, 160)) });
      const guess = level(uniform(random, -170, 170), uniform(random, 5, 160));
      const result = solveWith(solver, lengths, guess);
      if (!result.ok) {
        counts.failed++;
        continue;
      }
      counts.solved++;
      if (result.value.assemblyChanged) counts.changed++;
      expect(worstLength(REFERENCE, result.value.pose, lengths)).toBeLessThan(1e-9);
      const before = solveWith(solver, lengthsByThree(REFERENCE, guess), guess);
      if (!before.ok) throw new Error(before.fault.text);
      const sides = Math.sign(before.value.determinant) * Math.sign(result.value.determinant);
      expect(result.value.assemblyChanged).toBe(sides < 0);
    }
    // all three outcomes occur
    expect(counts.solved).toBeGreaterThan(100);
    expect(counts.changed).toBeGreaterThan(0);
    expect(counts.failed).toBeGreaterThan(0);
  });

  it('a layout with dependent legs does not pretend', () => {
    const result = solveNear(pairedRings(100, 60, 70, 60), [163, 164, 165, 163, 164, 166], HOME);
    expect(result.ok).toBe(false);
  });

  it.each([0, -5, Number.NaN])('a length of %d names its leg', (bad) => {
    const result = solveNear(REFERENCE, [home[0], bad, ...home.slice(2)], HOME);
    expect(result).toMatchObject({ ok: false, fault: { kind: 'badLength', leg: 2 } });
  });

  it('a joint that is not a number', () => {
    const platform = REFERENCE.platform.slice();
    platform[0] = Number.NaN;
    expect(solveNear({ ...REFERENCE, platform }, home, HOME)).toMatchObject({ ok: false, fault: { kind: 'badJoint' } });
  });

  it('a solver survives a failure', () => {
    const solver = new NearSolver(REFERENCE);
    expect(solveWith(solver, [240, 100, 240, 100, 240, 100], HOME).ok).toBe(false);
    const again = solveWith(solver, home, { ...HOME, p_BoTo_B: [1, 2, 153] });
    expect(again.ok && poseGap(again.value.pose, HOME) < 1e-7).toBe(true);
  });
});
