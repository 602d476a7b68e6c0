import { describe, expect, it } from 'vitest';
import { footprintGap, holeWeb, leastPairGap } from '../../../src/kinematics/buildable/footprints.ts';
import { BuildJudge, type BuildRule, judgeBuildable } from '../../../src/kinematics/buildable/judge.ts';
import { assumedBuild, type BuildableSpec, type MountingSpec } from '../../../src/kinematics/buildable/spec.ts';
import type { RingSpec } from '../../../src/kinematics/dimensions.ts';
import { compileMechanism, type Mechanism } from '../../../src/kinematics/mechanism.ts';
import { type Random, seededRandom, uniform } from '../../../src/math/random.ts';
import { randomRingSpec, ringPlate, tableSpec } from '../../explore/layouts.ts';
import { DEG } from '../designs.ts';

const SEED = 13;

const thinLegs = { min: 120, max: 200, barrelDiameter: 1e-9, rodDiameter: 1e-9 };

function judged(
  more: Partial<RingSpec> = {},
  build: Partial<BuildableSpec> = {},
  mounting: Partial<MountingSpec> = {},
) {
  const mechanism = compileMechanism(tableSpec(more));
  const assumed = assumedBuild(mechanism.legs);
  const own = { ...assumed.mountings.base, ...mounting };
  const result = judgeBuildable(mechanism, { ...assumed, mountings: { base: own, platform: own }, ...build });
  const gapOf = (rule: BuildRule) => result.gaps.find((gap) => gap.rule === rule);
  return { ...result, mechanism, gapOf };
}

// values worked out by hand or by an independent program for the reference layout: rings 100 and 70 mm, gaps 20/20, 150 mm high
describe('can it be built', () => {
  it('knows how far two legs of a pair are apart at home', () => {
    const { mechanism } = judged({ legs: thinLegs });
    const gaps = new BuildJudge(assumedBuild(thinLegs)).legGaps(mechanism);
    const between = (one: number, other: number) => gaps.find(({ legs }) => legs[0] === one && legs[1] === other)?.gap;
    // a mirror pair's axes: 2 min(r sin(p/2), R sin(60 deg - g/2)) on the platform, 2 min(R sin(g/2), r sin(60 deg - p/2)) on the base
    expect(2 * 70 * Math.sin(10 * DEG)).toBeCloseTo(24.3107, 4);
    expect(2 * 100 * Math.sin(10 * DEG)).toBeCloseTo(34.7296, 4);
    for (const [one, other] of [
      [2, 3],
      [4, 5],
      [1, 6],
    ]) {
      expect(between(one, other)).toBeCloseTo(24.3107, 4);
    }
    for (const [one, other] of [
      [1, 2],
      [3, 4],
      [5, 6],
    ]) {
      expect(between(one, other)).toBeCloseTo(34.7296, 4);
    }
    expect(gaps).toHaveLength(15);
  });

  it('knows the least gap of two round bodies on a ring', () => {
    expect((leastPairGap(100, 22, 2) ?? 0) / DEG).toBeCloseTo(13.784, 3);
    expect((leastPairGap(70, 22, 2) ?? 0) / DEG).toBeCloseTo(19.742, 3);
    expect(leastPairGap(10, 22, 2)).toBeNull();
    const at = (off: number) =>
      judged({ platform: ringPlate(70, 19.742 + off) }, { spacing: 2 }).gapOf('jointsApart')?.gap;
    expect(at(0.01)).toBeGreaterThan(0);
    expect(at(-0.01)).toBeLessThan(0);
  });

  it('knows the web between indexed holes, and asks for an edge at rim and opening', () => {
    expect(holeWeb(100, 72, 3.3)).toBeCloseTo(5.42, 2);
    const holes = { count: 72, start: 0 };
    const base = { kind: 'ring', ring: { ...ringPlate(100, 20).ring, holes } } as const;
    const plate = { diameter: 220, opening: 150, thickness: 6 };
    const { gapOf } = judged({ base }, {}, { hole: 3.3, plate });
    expect(gapOf('holesApart')?.gap).toBeCloseTo(5.4243 - 0.75 * 3.3, 3);
    // wood: an edge as wide as the plate is thick; metal: three quarters of the hole. 10 mm from the rim, 25 from the opening
    expect(gapOf('holeToRim')?.gap).toBeCloseTo(10 - 1.65 - 6, 9);
    expect(judged({ base }, { metal: true }, { hole: 3.3, plate }).gapOf('holeToRim')?.gap).toBeCloseTo(
      10 - 1.65 - 0.75 * 3.3,
      9,
    );
    // on the platform's ring of 70 mm the opening of 150 has eaten the holes
    expect(gapOf('holeToOpening')).toMatchObject({ plate: 'platform', gap: expect.closeTo(-5 - 1.65 - 6, 9) });
  });

  it('says what is in the way, by how many mm, tightest first', () => {
    const apart = judged();
    expect(apart.possible).toBe(true);
    const close = judged({ platform: ringPlate(70, 4) });
    expect(close.possible).toBe(false);
    expect(close.worst).toMatchObject({ rule: 'jointsApart', plate: 'platform' });
    expect(close.worst.gap).toBeCloseTo(2 * 70 * Math.sin(2 * DEG) - 22 - 1, 9);
    expect([...close.gaps].sort((a, b) => a.gap - b.gap)).toEqual(close.gaps);
  });

  it('knows where a leaning mount stands: 15 mm high at 23.3 deg the ball is 5.93 mm beside its foot along the mount', () => {
    // 15 mm along the mount are 15 cos(23.3 deg) above the plate
    const height = 15 * Math.cos(23.3 * DEG);
    const mount = {
      kind: 'leaning',
      lean: 23.3 * DEG,
      toward: Float64Array.of(90, -90, 210, 30, 330, 150).map((a) => a * DEG),
    };
    const joints = {
      base: { tiltLimit: 60 * DEG, mount } as const,
      platform: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } } as const,
    };
    // legs 1 and 2 at -10 and 10 deg lean toward each other: their feet stand apart by as much again on both sides
    const spec = tableSpec({ joints: { ...joints, base: { ...joints.base, mount: { ...mount, kind: 'leaning' } } } });
    const mechanism = compileMechanism(spec);
    const assumed = assumedBuild(mechanism.legs);
    const only = (footHeight: number) => {
      const mounting = { ...assumed.mountings.base, height: footHeight, bolts: null };
      const wide = { ...mounting, footprint: { kind: 'circle', diameter: 40 } } as const;
      const judge = judgeBuildable(mechanism, {
        ...assumed,
        mountings: { base: wide, platform: { ...mounting, height: 0, footprint: { kind: 'circle', diameter: 2 } } },
      });
      return judge.gaps.find(({ rule }) => rule === 'jointsApart');
    };
    expect(only(0)).toMatchObject({ plate: 'base', gap: expect.closeTo(34.7296 - 41, 4) });
    expect(only(height)?.gap).toBeCloseTo(34.7296 - 41 + 2 * 5.93, 1);
  });

  it('asks for reserves at home, an actuator that exists, a sheet that is large enough and brackets that print', () => {
    // legs of 163.326 mm at home, 36.674 short of the longest
    expect(judged().gapOf('homeLength')?.gap).toBeCloseTo(200 - 163.325986, 5);
    expect(judged({}, { strokeReserve: 2 }).gapOf('homeLength')?.gap).toBeCloseTo(200 - 163.325986 - 2, 5);
    // aimed mounts have all their 25 deg left; 2 kept and 1 for a printed mount leave 22 on 163.326 mm
    const kept = { tiltReserve: 2 * DEG, mountTolerance: 1 * DEG };
    expect(judged({}, kept).gapOf('homeTilt')?.gap).toBeCloseTo(22 * DEG * 163.325986, 4);
    expect(judged({}, { deadLength: 45 }).gapOf('actuator')?.gap).toBeCloseTo(2 * 120 - 200 - 45, 12);
    const plate = { diameter: 240, opening: 0, thickness: 10 };
    expect(judged({}, { sheet: [300, 200] }, { plate }).worst).toMatchObject({ rule: 'sheet', gap: -40 });
    // the legs lean by 23.3 deg; rings of 100 and 20 mm, 40 mm apart, by more than 50
    expect(judged({}, { printed: true }).gapOf('overhang')?.gap).toBeGreaterThan(0);
    const flat = { platform: ringPlate(20, 20), home: { ...tableSpec().home, p_BoTo_B: [0, 0, 40] as const } };
    expect(judged(flat, { printed: true }).gapOf('overhang')?.gap).toBeLessThan(0);
  });

  it('keeps a barrel off its own plate at the largest tilt: h + s cos(tilt) - (D/2) sin(tilt)', () => {
    const joint = { tiltLimit: 40 * DEG, mount: { kind: 'square' } } as const;
    const base = { kind: 'ring', ring: { ...ringPlate(100, 20).ring, jointHeight: 5 } } as const;
    const { gapOf } = judged({ base, joints: { base: joint, platform: joint } });
    const expected = 5 + 22 * Math.cos(40 * DEG) - 11 * Math.sin(40 * DEG) - 1;
    expect(gapOf('barrelOverPlate')?.gap).toBeCloseTo(expected, 9);
  });

  it('lets a driver reach every bolt', () => {
    const bolts = { count: 4, diameter: 30, tool: 8 };
    const { gapOf } = judged({}, {}, { bolts });
    // second way: the platform pair's joints 24.31 mm apart, bolts on a circle of 30 around each, bodies of 22
    let least = Number.POSITIVE_INFINITY;
    for (const [one, other] of [
      [50, 70],
      [70, 50],
    ]) {
      for (let bolt = 0; bolt < 4; bolt++) {
        const x = 70 * Math.cos(one * DEG) + 15 * Math.cos((one + 90 * bolt) * DEG) - 70 * Math.cos(other * DEG);
        const y = 70 * Math.sin(one * DEG) + 15 * Math.sin((one + 90 * bolt) * DEG) - 70 * Math.sin(other * DEG);
        least = Math.min(least, Math.hypot(x, y) - 4 - 11);
      }
    }
    expect(gapOf('boltReach')?.gap).toBeCloseTo(least, 9);
  });

  it(`agrees with a second implementation on random layouts and parts (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    let possible = 0;
    for (let n = 0; n < 200; n++) {
      const spec = randomRingSpec(random);
      const mechanism = compileMechanism({ ...spec, legs: randomLegs(random) });
      const build = { ...assumedBuild(mechanism.legs), spacing: uniform(random, 0, 4) };
      const { worst, gaps } = judgeBuildable(mechanism, build);
      const own = refereeGaps(mechanism, build);
      for (const [rule, gap] of Object.entries(own))
        expect(gaps.find((one) => one.rule === rule)?.gap, `${rule} of layout ${n}`).toBeCloseTo(gap, 4);
      expect(new BuildJudge(build).gap(mechanism)).toBe(worst.gap);
      if (worst.gap >= 0) possible++;
    }
    expect(possible).toBeGreaterThan(10);
    expect(possible).toBeLessThan(190);
  });
});

describe('footprints', () => {
  const shape = { kind: 'rectangle', along: 30, across: 20, turn: 0 } as const;

  it('of rectangles side by side, end to end, corner to corner and into each other', () => {
    const foot = (x: number, y: number, azimuth = 0) => ({ x, y, azimuth });
    expect(footprintGap(shape, foot(0, 0), foot(0, 25))).toBeCloseTo(5, 12);
    expect(footprintGap(shape, foot(0, 0), foot(34, 3))).toBeCloseTo(4, 12);
    expect(footprintGap(shape, foot(0, 0), foot(33, 24))).toBeCloseTo(5, 12);
    expect(footprintGap(shape, foot(0, 0), foot(28, 0))).toBeCloseTo(-2, 12);
    // turned so that its diagonal lies along x: a corner toward a side
    const diagonal = Math.atan2(10, 15);
    expect(footprintGap(shape, foot(0, 0), foot(50, 0, diagonal))).toBeCloseTo(50 - 15 - Math.hypot(15, 10), 12);
  });

  it(`of turned rectangles, against a walk around both rims (seed ${SEED})`, () => {
    const random = seededRandom(SEED);
    for (let n = 0; n < 200; n++) {
      const [a, b] = [0, 1].map(() => ({
        x: uniform(random, -30, 30),
        y: uniform(random, -30, 30),
        azimuth: uniform(random, -3, 3),
      }));
      const gap = footprintGap(shape, a, b);
      const rim = (foot: typeof a) =>
        Array.from({ length: 1600 }, (_, k) => {
          const t = (k / 1600) * 100;
          const [u, v] = t < 30 ? [t - 15, -10] : t < 50 ? [15, t - 40] : t < 80 ? [65 - t, 10] : [-15, 90 - t];
          const [c, s] = [Math.cos(foot.azimuth), Math.sin(foot.azimuth)];
          return [foot.x + c * u - s * v, foot.y + s * u + c * v];
        });
      const [one, other] = [rim(a), rim(b)];
      const inside = (points: number[][], foot: typeof a) =>
        points.some(([x, y]) => {
          const [c, s] = [Math.cos(foot.azimuth), Math.sin(foot.azimuth)];
          const u = c * (x - foot.x) + s * (y - foot.y);
          const v = -s * (x - foot.x) + c * (y - foot.y);
          return Math.abs(u) < 14.9 && Math.abs(v) < 9.9;
        });
      const meet = inside(one, b) || inside(other, a);
      if (meet) expect(gap).toBeLessThan(0);
      else if (gap > 0.2) {
        let least = Number.POSITIVE_INFINITY;
        for (let k = 0; k < 1600; k += 4)
          for (let m = 0; m < 1600; m += 4)
            least = Math.min(least, Math.hypot(one[k][0] - other[m][0], one[k][1] - other[m][1]));
        expect(Math.abs(least - gap)).toBeLessThan(0.35);
      }
    }
  });
});

function randomLegs(random: Random) {
  const min = uniform(random, 80, 130);
  return {
    min,
    max: min * uniform(random, 1.3, 1.9),
    barrelDiameter: uniform(random, 8, 26),
    rodDiameter: uniform(random, 4, 12),
  };
}

/** Second implementation: plain formulas over joints as points; legs as two segments each, their distance by a nested section search. */
function refereeGaps({ centres, home, legs, p_ToBi_P }: Mechanism, { spacing }: BuildableSpec) {
  const point = (flat: Float64Array, i: number) => [flat[3 * i], flat[3 * i + 1], flat[3 * i + 2]];
  const [tx, ty, tz] = home.p_BoTo_B;
  const A = [0, 1, 2, 3, 4, 5].map((i) => point(centres.base, i));
  // home stands level and straight
  const B = [0, 1, 2, 3, 4, 5].map((i) => {
    const [x, y, z] = point(p_ToBi_P, i);
    return [tx + x, ty + y, tz + z];
  });
  const distance = (p: number[], q: number[]) => Math.hypot(...p.map((value, axis) => value - q[axis]));
  const pairs = A.flatMap((_, i) => A.slice(i + 1).map((__, n) => [i, i + 1 + n] as const));
  const joints = pairs.map(
    ([i, j]) => Math.min(distance(A[i], A[j]), distance(B[i], B[j])) - legs.barrelDiameter - spacing,
  );
  const lengths = A.map((a, i) => distance(a, B[i]));
  const barrel = Math.max(legs.min - legs.rodDiameter, 0);
  const parts = A.map((a, i) => {
    const end = a.map((value, axis) => value + ((B[i][axis] - value) * barrel) / lengths[i]);
    return [
      { from: a, to: end, radius: legs.barrelDiameter / 2 },
      { from: end, to: B[i], radius: legs.rodDiameter / 2 },
    ];
  });
  const legGaps = pairs.flatMap(([i, j]) =>
    parts[i].flatMap((one) => parts[j].map((other) => segments(one, other) - one.radius - other.radius)),
  );
  return {
    jointsApart: Math.min(...joints),
    legsApart: Math.min(...legGaps),
    homeLength: Math.min(...lengths.map((size) => Math.min(size - legs.min, legs.max - size))),
    actuator: 2 * legs.min - legs.max,
  };
}

interface Segment {
  readonly from: readonly number[];
  readonly to: readonly number[];
}

/** Distance of two segments: convex along the first, so a section search over its points finds it, each point's own distance by its foot. */
function segments(one: Segment, other: Segment): number {
  const along = other.to.map((value, axis) => value - other.from[axis]);
  const square = along.reduce((sum, part) => sum + part * part, 0);
  const apart = (s: number) => {
    const to = one.from.map((value, axis) => value + s * (one.to[axis] - value) - other.from[axis]);
    const foot = to.reduce((sum, part, axis) => sum + part * along[axis], 0) / square;
    const t = Math.min(1, Math.max(0, foot));
    return Math.hypot(...to.map((part, axis) => part - t * along[axis]));
  };
  let [low, high] = [0, 1];
  for (let n = 0; n < 60; n++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (apart(a) < apart(b)) high = b;
    else low = a;
  }
  return apart((low + high) / 2);
}
