import { describe, expect, it } from 'vitest';
import { payloadOnly, STANDARD_GRAVITY } from '../../src/kinematics/load.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { poseFromAngles } from '../../src/kinematics/pose.ts';
import { assessStiffness, sameStiffness } from '../../src/kinematics/stiffness.ts';
import { rotate } from '../../src/math/rotation.ts';
import { add, length, subtract } from '../../src/math/vec3.ts';
import { DEG, mechanismOf, points, referenceLayout, ring } from '../kinematics/designs.ts';
import { smallTurn } from '../kinematics/newton-forward.ts';
import { restInEngine } from './closed-loop-model.ts';

const rigid = Number.POSITIVE_INFINITY;
const load = payloadOnly({ mass: 2, centre: [0, 0, 0] });

function stiffnessOf(mechanism: Mechanism, spring: number) {
  const legs = sameStiffness({ leg: spring, baseJoint: rigid, platformJoint: rigid });
  const result = assessStiffness(mechanism, mechanism.home, legs, load);
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
}

describe('stiffness', () => {
  it('of legs on six edges of a cube is k diag(2, 2, 2, a^2/2, a^2/2, 2 a^2)', () => {
    // Sum of u u^T = 2 I: cubic six-axis isolators, Z. J. Geng and L. S. Haynes 1994 (published). Rotations derived.
    const a = 80;
    const [d, e, f] = [1 / Math.sqrt(3), 1 / Math.sqrt(2), 1 / Math.sqrt(6)];
    const turned = (corner: readonly number[]) => {
      const [x, y, z] = corner.map((entry) => a * (entry - 0.5));
      return [e * (x - y), f * (x + y - 2 * z), d * (x + y + z)];
    };
    // the closed ring of edges that touch neither end of the body diagonal; low corners go to the base
    const low = [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
    const high = [
      [1, 1, 0],
      [0, 1, 1],
      [1, 0, 1],
    ];
    const base = [low[0], low[1], low[1], low[2], low[2], low[0]].map(turned);
    const platform = [high[0], high[0], high[1], high[1], high[2], high[2]].map(turned);
    const mechanism = mechanismOf(points(base.flat()), points(platform.flat()), a, {
      home: poseFromAngles({ position: [0, 0, 0], roll: 0, pitch: 0, yaw: 0 }),
    });
    const k = 300;
    const { K, weakestTranslation, stiffestTranslation } = stiffnessOf(mechanism, k);
    const diagonal = [2, 2, 2, a ** 2 / 2, a ** 2 / 2, 2 * a ** 2];
    K.forEach((entry, n) =>
      expect(Math.abs(entry - (n % 7 === 0 ? k * diagonal[n / 7] : 0))).toBeLessThan(1e-8 * k * a),
    );
    expect(weakestTranslation.stiffness).toBeCloseTo(2 * k, 8);
    expect(stiffestTranslation.stiffness).toBeCloseTo(2 * k, 8);
  });

  it('of a level pair of rings is k times the closed-form sums (derived), with the worked example', () => {
    // R 1.3, r 0.8, h 0.9, half gaps 0.15 and 0.25 rad
    const mechanism = mechanismOf(ring(1.3, 0.3 / DEG), ring(0.8, 0.5 / DEG), 0.9);
    const k = 40;
    const { K } = stiffnessOf(mechanism, k);
    const diagonal = [1.3588006474, 1.3588006474, 3.2823987051, 1.0503675856, 1.0503675856, 1.5934556569];
    diagonal.forEach((value, axis) => expect(K[7 * axis] / k).toBeCloseTo(value, 9));
    expect(K[4] / k).toBeCloseTo(0.3459059977, 9);
    expect(K[9] / k).toBeCloseTo(-0.3459059977, 9);
  });

  it('of the best conditioned rings is the same in all directions but yaw and height (derived)', () => {
    // R cos d = r, h = R sin d: d 60 deg, R 1, r 0.5, h 0.866; the couplings vanish and condition is sqrt 2
    // (Pittens and Podhorodeski 1993: from memory)
    const mechanism = mechanismOf(ring(1, 0), ring(0.5, 0), 0.8660254037844386);
    const { K } = stiffnessOf(mechanism, 1);
    const scaled = K.map((entry, n) => entry / 0.5 ** ((n % 6 > 2 ? 1 : 0) + (n > 17 ? 1 : 0)));
    // rho^2 = h^2 here, so L^2 = 2 h^2: sums 3/2, 3/2, 3, 3/2, 3/2, 3
    [1.5, 1.5, 3, 1.5, 1.5, 3].forEach((value, axis) => expect(scaled[7 * axis]).toBeCloseTo(value, 10));
    expect(Math.abs(K[4]) + Math.abs(K[9])).toBeLessThan(1e-12);
  });
});

describe('sag against a general physics engine with closed loops', () => {
  // The engine rests where its leg springs (100 N/mm) balance the load; its soft loop closures stay open by less than
  // 5e-4 mm. Ours is linear about the unloaded pose: the next order is sag over leg length, below 1 % here.
  const CLOSURE = 5e-4;
  const NEXT_ORDER = 0.01;

  for (const [name, pose] of [
    ['at home', poseFromAngles({ position: [0, 0, 150], roll: 0, pitch: 0, yaw: 0 })],
    ['tilted', poseFromAngles({ position: [10, -12, 155], roll: 8 * DEG, pitch: 5 * DEG, yaw: -15 * DEG })],
  ] as const)
    it(name, async () => {
      const mechanism = referenceLayout({ tool: [0, 0, 20] });
      const payload = { mass: 2, centre: [10, 5, 30], inertia: [2000, 2000, 2000] } as const;
      const rest = await restInEngine(mechanism, pose, {
        ...payload,
        gravity: STANDARD_GRAVITY,
        force: [0, 0, 0],
        torque: [0, 0, 0],
        stiffness: 100,
      });
      expect(rest.gap).toBeLessThan(CLOSURE);
      const legs = sameStiffness({ leg: 100, baseJoint: rigid, platformJoint: rigid });
      const result = assessStiffness(mechanism, pose, legs, payloadOnly(payload));
      if (!result.ok) throw new Error(result.fault.message);
      const { sag } = result.value;
      const tool = add(rest.platformOrigin, rotate(rest.R_BP, mechanism.p_PoTo_P));
      const shift = subtract(tool, pose.p_BoTo_B);
      const turn = smallTurn(pose.R_BP, rest.R_BP);
      expect(length(subtract(shift, sag.translation))).toBeLessThan(NEXT_ORDER * length(shift) + CLOSURE);
      expect(length(subtract(turn, sag.rotation))).toBeLessThan(NEXT_ORDER * length(turn) + CLOSURE / 70);
      expect(length(shift)).toBeGreaterThan(0.03);
    });
});
