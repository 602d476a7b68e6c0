import { describe, expect, it } from 'vitest';
import { jointStates, legTwists } from '../../src/kinematics/joint-limits.ts';
import {
  type DirectionBound,
  directionBounds,
  type JointShape,
  jointMargin,
  universalAngles,
} from '../../src/kinematics/joint-shapes.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { type Random, seededRandom, uniform } from '../../src/math/random.ts';
import { rotate, rotationAbout } from '../../src/math/rotation.ts';
import { cross, dot, length, unit, type Vec3 } from '../../src/math/vec3.ts';
import { DEG, randomPose, referenceLayout, withKinds } from './designs.ts';

const direction = (random: Random): Vec3 => {
  for (;;) {
    const v: Vec3 = [uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -1, 1)];
    if (length(v) > 0.1 && length(v) < 1) return unit(v);
  }
};

const squareDirection = (random: Random, axis: Vec3): Vec3 => unit(cross(axis, direction(random)));

describe('a ball in a socket', () => {
  it('agrees with the joint tilts of the legs (seed 61)', () => {
    const random = seededRandom(61);
    const mechanism = referenceLayout({
      joints: {
        base: { tiltLimit: 25 * DEG, mount: { kind: 'aimed' } },
        platform: { tiltLimit: 30 * DEG, mount: { kind: 'aimed' } },
      },
    });
    for (let n = 0; n < 50; n++) {
      const pose = randomPose(random, 150, 40, 20 * DEG);
      const legs = legStates(mechanism, pose);
      jointStates(mechanism, pose).forEach((state, leg) => {
        expect(state.baseMargin).toBeCloseTo(25 * DEG - legs[leg].baseTilt, 13);
        expect(state.platformMargin).toBeCloseTo(30 * DEG - legs[leg].platformTilt, 13);
      });
    }
  });
});

describe('a rod end', () => {
  const shape: JointShape = { kind: 'rodEnd', bolt: [0, 1, 0], limit: 13 * DEG };

  it('is free round its bolt and limited across it, unlike a cone', () => {
    for (const turn of [0, 40, 90, 170, 250]) {
      const d: Vec3 = [Math.sin(turn * DEG), 0, Math.cos(turn * DEG)];
      expect(jointMargin(shape, d)).toBeCloseTo(13 * DEG, 14);
    }
    for (const tilt of [5, 12.9, 13.1, 40])
      for (const side of [-1, 1]) {
        const d: Vec3 = [0.6 * Math.cos(tilt * DEG), side * Math.sin(tilt * DEG), 0.8 * Math.cos(tilt * DEG)];
        expect(jointMargin(shape, d)).toBeCloseTo((13 - tilt) * DEG, 13);
      }
  });

  it('with its bolt across the leg at home has no tilt there', () => {
    const rodEnd = { kind: 'rodEnd', bolt: { kind: 'acrossLeg' } } as const;
    const mechanism = withKinds(referenceLayout(), rodEnd, rodEnd);
    for (const { baseMargin, platformMargin } of jointStates(mechanism, mechanism.home)) {
      expect(baseMargin).toBeCloseTo(Math.PI, 12);
      expect(platformMargin).toBeCloseTo(Math.PI, 12);
    }
  });
});

describe('a universal joint', () => {
  it('reads back the two turns a leg was given (seed 62)', () => {
    const random = seededRandom(62);
    for (let n = 0; n < 200; n++) {
      const axis = direction(random);
      const first = squareDirection(random, axis);
      const [a, b] = [uniform(random, -3, 3), uniform(random, -1.5, 1.5)];
      // second axis: square to both at rest, and turned by the first; a positive turn about it takes the leg toward `first`
      const second = rotate(rotationAbout(first, -a), cross(axis, first));
      const turned = rotate(rotationAbout(first, -a), axis);
      const d = rotate(rotationAbout(second, b), turned);
      const angles = universalAngles(axis, first, d);
      expect(Math.abs(angles.first)).toBeCloseTo(Math.abs(a), 10);
      expect(Math.abs(angles.second)).toBeCloseTo(Math.abs(b), 10);
      const shape: JointShape = { kind: 'universal', axis, first, firstLimit: 0.8, secondLimit: 0.5 };
      expect(jointMargin(shape, d)).toBeCloseTo(Math.min(0.8 - Math.abs(a), 0.5 - Math.abs(b)), 10);
    }
  });
});

describe('limits as bounds on the direction', () => {
  it('allow exactly what the margins allow, for 3000 random joints and directions (seed 63)', () => {
    const random = seededRandom(63);
    let inside = 0;
    for (let n = 0; n < 3000; n++) {
      const axis = direction(random);
      const limit = uniform(random, 0.1, 1.5);
      const first = squareDirection(random, axis);
      const shapes: readonly JointShape[] = [
        { kind: 'ball', axis, limit: 2 * limit },
        { kind: 'rodEnd', bolt: axis, limit },
        { kind: 'universal', axis, first, firstLimit: limit, secondLimit: uniform(random, 0.1, 1.5) },
        { kind: 'universal', axis, first, firstLimit: 1.6 + limit, secondLimit: uniform(random, 0.1, 1.5) },
      ];
      const d = direction(random);
      for (const shape of shapes) {
        const { all, either } = directionBounds(shape);
        const keeps = ({ w, least }: DirectionBound) => dot(w, d) >= least;
        const allowed = all.every(keeps) && (!either || either.some(keeps));
        expect(allowed).toBe(jointMargin(shape, d) >= 0);
        if (allowed) inside++;
      }
    }
    expect(inside).toBeGreaterThan(1000);
    expect(inside).toBeLessThan(11_000);
  });
});

describe('leg twist', () => {
  const universal = { kind: 'universal', first: { kind: 'tangential' }, secondLimit: 0.8 } as const;
  const mechanism = withKinds(referenceLayout(), universal, universal);

  it('is nothing at home, and a pure yaw of an upright leg turns it by the yaw', () => {
    for (const { twist } of legTwists(mechanism, mechanism.home, 8) ?? []) expect(twist).toBe(0);
    const pose = poseFromAngles({ position: [0, 0, 1e6], roll: 0, pitch: 0, yaw: 20 * DEG });
    // seen from so high up the legs are upright to 1e-4 rad
    const home = poseFromAngles({ position: [0, 0, 1e6], roll: 0, pitch: 0, yaw: 0 });
    const high = withKinds(referenceLayout({ home }), universal, universal);
    for (const { twist, lengthChange } of legTwists(high, pose, 8) ?? []) {
      expect(Math.abs(twist - 20 * DEG)).toBeLessThan(1e-3);
      expect(lengthChange).toBeCloseTo((twist / (2 * Math.PI)) * 8, 12);
    }
  });

  // Trade figure for this layout, computed beforehand: up to 19.7 deg in a box of 20 mm and 10 deg, 0.44 mm with an 8 mm
  // lead. The direction of the joints' axes is not stated there, so every plausible one is held to the size of it.
  for (const kind of ['tangential', 'radial', 'acrossLeg'] as const)
    it(`reaches some 20 deg and 0.44 mm in a box of 20 mm and 10 deg, first axis ${kind}`, () => {
      const joint = { kind: 'universal', first: { kind }, secondLimit: 0.8 } as const;
      const own = withKinds(mechanism, joint, joint);
      let twist = 0;
      let change = 0;
      for (let corner = 0; corner < 64; corner++) {
        const sign = (axis: number) => ((corner >> axis) & 1 ? 1 : -1);
        const pose = poseFromAngles({
          position: [20 * sign(0), 20 * sign(1), 150 + 20 * sign(2)],
          roll: 10 * DEG * sign(3),
          pitch: 10 * DEG * sign(4),
          yaw: 10 * DEG * sign(5),
        });
        for (const leg of legTwists(own, pose, 8) ?? []) {
          twist = Math.max(twist, Math.abs(leg.twist));
          change = Math.max(change, Math.abs(leg.lengthChange));
        }
      }
      expect(Math.abs(twist / DEG / 19.7 - 1)).toBeLessThan(0.25);
      expect(Math.abs(change / 0.44 - 1)).toBeLessThan(0.25);
    });

  it('has no meaning with a ball at either end', () => {
    const ball = { kind: 'ball' } as const;
    for (const [base, platform] of [
      [ball, universal],
      [universal, ball],
      [ball, ball],
    ] as const)
      expect(legTwists(withKinds(mechanism, base, platform), mechanism.home, 8)).toBeNull();
  });
});
