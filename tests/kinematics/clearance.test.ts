import { describe, expect, it } from 'vitest';
import { assessClearance, poseBodies, SmallestClearance } from '../../src/kinematics/clearance.ts';
import { clearanceModel } from '../../src/kinematics/clearance-pairs.ts';
import { type ClearanceSpec, defaultClearance, type PlateBody } from '../../src/kinematics/keep-out.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { type Pose, platformOrigin, poseFromAngles } from '../../src/kinematics/pose.ts';
import { seededRandom } from '../../src/math/random.ts';
import { rotateBack } from '../../src/math/rotation.ts';
import { add, length, scale, subtract, type Vec3 } from '../../src/math/vec3.ts';
import { DEG, mechanismOf, randomPose, referenceLayout, ring } from './designs.ts';

const limits = { legs: { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 } };

/** Smallest value of a convex function on [0, 1]: a bracket narrowed by thirds. */
function convexMinimum(f: (t: number) => number): number {
  let [low, high] = [0, 1];
  for (let n = 0; n < 70; n++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
    if (f(a) < f(b)) high = b;
    else low = a;
  }
  return Math.min(f(0), f(1), f((low + high) / 2));
}

const between = (a: Vec3, b: Vec3, t: number): Vec3 => add(a, scale(subtract(b, a), t));

/** Distance from a point to an upright disc or washer (inner radius 0: closed), point in the plate's frame. */
function toWasher(point: Vec3, inner: number, outer: number, bottom: number, top: number): number {
  const rho = Math.hypot(point[0], point[1]);
  const across = Math.max(rho - outer, inner - rho, 0);
  const up = Math.max(bottom - point[2], point[2] - top, 0);
  return Math.hypot(across, up);
}

interface Part {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly radius: number;
}

/** Barrel and rod of every leg, worked out from the leg states alone; `trim` shortens them next to their own plate. */
function parts(
  mechanism: Mechanism,
  pose: Pose,
  spec: ClearanceSpec,
  trim: boolean,
): readonly (readonly [Part, Part])[] {
  return legStates(mechanism, pose).map(({ baseJoint_B, platformJoint_B, u_B }) => {
    const barrelEnd = add(baseJoint_B, scale(u_B, spec.barrelLength));
    const start = trim ? add(baseJoint_B, scale(u_B, spec.jointZone.base)) : baseJoint_B;
    const end = trim ? subtract(platformJoint_B, scale(u_B, spec.jointZone.platform)) : platformJoint_B;
    return [
      { from: start, to: barrelEnd, radius: 11 },
      { from: barrelEnd, to: end, radius: 5 },
    ];
  });
}

function bruteLegToLeg(mechanism: Mechanism, pose: Pose, spec: ClearanceSpec): number {
  const legs = parts(mechanism, pose, spec, false);
  let smallest = Number.POSITIVE_INFINITY;
  legs.forEach((one, leg) => {
    for (const other of legs.slice(leg + 1))
      for (const p of one)
        for (const q of other) {
          const d = convexMinimum((s) =>
            convexMinimum((t) => length(subtract(between(p.from, p.to, s), between(q.from, q.to, t)))),
          );
          smallest = Math.min(smallest, d - p.radius - q.radius);
        }
  });
  return smallest;
}

/** Brute force over legs and the two round plates. */
function bruteLegToPlates(mechanism: Mechanism, pose: Pose, spec: ClearanceSpec, inner: number): number {
  const [full, trimmed] = [parts(mechanism, pose, spec, false), parts(mechanism, pose, spec, true)];
  const origin = platformOrigin(pose, mechanism.p_PoTo_P);
  let smallest = Number.POSITIVE_INFINITY;
  for (let leg = 0; leg < 6; leg++)
    for (const part of [0, 1]) {
      const toBase = part === 0 ? trimmed[leg][0] : full[leg][1];
      const toPlatform = part === 1 ? trimmed[leg][1] : full[leg][0];
      // a washer is not convex: try many starts instead of one bracket
      const along = (p: Part, f: (x: Vec3) => number) => {
        let least = Number.POSITIVE_INFINITY;
        for (let n = 0; n <= 400; n++) least = Math.min(least, f(between(p.from, p.to, n / 400)));
        return least - p.radius;
      };
      const base = along(toBase, (x) => toWasher(x, inner, 122, -10, 0));
      const platform = along(toPlatform, (x) => toWasher(rotateBack(pose.R_BP, subtract(x, origin)), inner, 92, 0, 7));
      smallest = Math.min(smallest, base, platform);
    }
  return smallest;
}

function report(mechanism: Mechanism, pose: Pose, spec: ClearanceSpec) {
  const result = assessClearance(mechanism, pose, spec);
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
}

const noPlates = (mechanism: Mechanism): ClearanceSpec => ({
  ...defaultClearance(mechanism),
  plates: { base: null, platform: null },
});

describe('clearance', () => {
  const mechanism = referenceLayout({ ...limits, tool: [3, -2, 20] });

  it('leg to leg is what brute force finds, at 5 random poses (seed 101)', () => {
    const random = seededRandom(101);
    const spec = noPlates(mechanism);
    for (let n = 0; n < 5; n++) {
      const pose = randomPose(random, 170, 40, 35 * DEG);
      const { smallest } = report(mechanism, pose, spec);
      expect(Math.abs((smallest?.distance ?? 0) - bruteLegToLeg(mechanism, pose, spec))).toBeLessThan(1e-6);
    }
  });

  it('leg to round plates is what brute force finds, closed and open, at 20 random poses (seed 102)', () => {
    const random = seededRandom(102);
    for (const opening of [0, 40]) {
      const plate = (radius: number, thickness: number): PlateBody => ({
        outline: { kind: 'disc', radius },
        thickness,
        opening,
      });
      const spec: ClearanceSpec = {
        ...defaultClearance(mechanism),
        plates: { base: plate(122, 10), platform: plate(92, 7) },
      };
      for (let n = 0; n < 20; n++) {
        const pose = randomPose(random, 150, 50, 40 * DEG);
        const nearest = report(mechanism, pose, spec).pairs.find(({ b }) => b.endsWith('plate'));
        const brute = bruteLegToPlates(mechanism, pose, spec, opening);
        const found = nearest?.distance ?? 0;
        // never too large; 400 places along a 150 mm leg miss a slanting minimum by up to a hundredth of a millimetre, and
        // an opening's corners give away 0.1 % of its radius
        if (brute > -4.9) expect(found).toBeLessThan(brute + 1e-9);
        if (brute > -4.9) expect(brute - found).toBeLessThan(0.2);
      }
    }
  });

  it('of the quick search is that of the full list, with payload and keep-outs, at 300 poses (seed 103)', () => {
    const random = seededRandom(103);
    const spec: ClearanceSpec = {
      ...defaultClearance(mechanism),
      payload: { kind: 'box', centre: [0, 0, 40], size: [90, 60, 60], turn: 0.3 },
      keepOuts: [
        { name: 'cable', fixedTo: 'base', solid: { kind: 'cylinder', from: [0, 0, 0], to: [0, 0, 90], radius: 12 } },
        {
          name: 'beam',
          fixedTo: 'base',
          solid: { kind: 'cylinder', from: [-200, 110, 190], to: [200, 110, 190], radius: 15 },
        },
        { name: 'lamp', fixedTo: 'platform', solid: { kind: 'box', centre: [0, 0, -40], size: [20, 20, 50], turn: 0 } },
      ],
    };
    const model = clearanceModel(mechanism, spec);
    const quick = new SmallestClearance(model);
    const winners = new Set<string>();
    for (let n = 0; n < 300; n++) {
      const pose = randomPose(random, 170, 45, 30 * DEG);
      poseBodies(model, pose);
      const { smallest } = report(mechanism, pose, spec);
      winners.add(`${smallest?.a.replace(/\d/, '')} ${smallest?.b.replace(/\d/, '')}`);
      expect(Math.abs(quick.now() - (smallest?.distance ?? 0))).toBeLessThan(1e-7);
    }
    // the comparison means little if one pair always wins
    expect(winners.size).toBeGreaterThan(4);
  });

  it('names the pair and its closest points', () => {
    // two legs whose rods end at one platform pair: 24.3 mm between centre lines at home (trade figure), rods 10 mm thick
    const slim = referenceLayout({ legs: { ...limits.legs, barrelDiameter: 14 } });
    const { smallest } = report(slim, slim.home, {
      ...noPlates(mechanism),
      barrelLength: 60,
    });
    if (!smallest) throw new Error('no pair');
    expect(smallest.distance).toBeCloseTo(2 * 70 * Math.sin(10 * DEG) - 10, 9);
    expect(smallest.distance + 10).toBeCloseTo(24.3, 1);
    expect([smallest.a, smallest.b].every((name) => /^leg \d rod$/.test(name))).toBe(true);
    expect(length(subtract(smallest.onA, smallest.onB))).toBeCloseTo(smallest.distance, 9);
    expect(smallest.onA[2]).toBeCloseTo(150, 6);
  });

  it('lists every two things once, nearest first', () => {
    const { pairs } = report(mechanism, mechanism.home, defaultClearance(mechanism));
    // 15 pairs of legs, 6 legs by 2 plates, plate and plate
    expect(pairs).toHaveLength(15 + 12 + 1);
    for (let n = 1; n < pairs.length; n++) expect(pairs[n].distance).toBeGreaterThanOrEqual(pairs[n - 1].distance);
    const plates = pairs.find(({ a, b }) => a === 'base plate' && b === 'platform plate');
    expect(plates?.distance).toBeCloseTo(130, 9);
  });

  it('falls to or below zero when bodies meet', () => {
    const turned = poseFromAngles({ position: [0, 0, 140], roll: 0, pitch: 0, yaw: 60 * DEG });
    const thick = referenceLayout({ legs: { ...limits.legs, barrelDiameter: 60, rodDiameter: 50 } });
    expect(report(thick, turned, noPlates(thick)).smallest?.distance).toBeLessThan(0);
    const spec: ClearanceSpec = {
      ...noPlates(mechanism),
      keepOuts: [
        { name: 'post', fixedTo: 'base', solid: { kind: 'cylinder', from: [0, 0, 0], to: [0, 0, 400], radius: 5 } },
      ],
      plates: {
        base: null,
        platform: { outline: { kind: 'disc', radius: 80 }, thickness: 5, opening: 0 },
      },
    };
    const { pairs } = report(mechanism, mechanism.home, spec);
    expect(pairs.find(({ a, b }) => a === 'post' && b === 'platform plate')?.distance).toBe(0);
    // with an opening the post passes: 20 mm less its radius, and less what the opening's corners give away
    const open: ClearanceSpec = {
      ...spec,
      plates: { base: null, platform: { outline: { kind: 'disc', radius: 80 }, thickness: 5, opening: 20 } },
    };
    const level = poseFromAngles({ position: [3, -2, 170], roll: 0, pitch: 0, yaw: 0 });
    const free = report(mechanism, level, open).pairs.find(({ a }) => a === 'post')?.distance ?? 0;
    expect(free).toBeLessThanOrEqual(15);
    expect(free).toBeGreaterThan(15 - 0.001 * 20);
  });

  for (const size of [1e-3, 1, 1e3])
    it(`scales (x${size})`, () => {
      const of = (k: number) => {
        const own = mechanismOf(ring(100 * k, 20), ring(70 * k, 20), 150 * k, {
          legs: { min: 120 * k, max: 200 * k, barrelDiameter: 22 * k, rodDiameter: 10 * k },
        });
        const pose = poseFromAngles({ position: [9 * k, 0, 150 * k], roll: 0.2, pitch: 0.1, yaw: 0.3 });
        return report(own, pose, defaultClearance(own)).pairs;
      };
      const [one, other] = [of(1), of(size)];
      one.forEach(({ distance }, n) => expect(Math.abs(other[n].distance / size - distance)).toBeLessThan(1e-8));
    });

  it('refuses what cannot be, by name', () => {
    const message = (change: Partial<ClearanceSpec>) => {
      const result = assessClearance(mechanism, mechanism.home, { ...defaultClearance(mechanism), ...change });
      return result.ok ? '' : result.fault.message;
    };
    const polygon = (...points: number[]): PlateBody => ({
      outline: { kind: 'polygon', points: Float64Array.from(points) },
      thickness: 5,
      opening: 0,
    });
    expect(message({ barrelLength: -1 })).toBe('Barrel length: -1 mm; it must be a number of at least 0.');
    expect(message({ plates: { base: polygon(0, 0, 10, 0, 2, 2, 0, 10), platform: null } })).toContain('convex');
    expect(message({ plates: { base: null, platform: { ...polygon(0, 0, 9, 0, 0, 9), thickness: 0 } } })).toBe(
      'Platform plate, thickness: 0 mm; it must be above 0.',
    );
    expect(
      message({
        plates: { base: { outline: { kind: 'disc', radius: 30 }, thickness: 4, opening: 30 }, platform: null },
      }),
    ).toContain('must be larger than its opening');
    expect(message({ payload: { kind: 'hull', points: new Float64Array(0) } })).toContain('Payload has no points');
  });
});
