import { Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { compiledDesign } from '../../src/document/compiled.ts';
import { DEMOS } from '../../src/document/demos.ts';
import { type Ring, ringJoints } from '../../src/kinematics/layout.ts';
import { unit, type Vec3 } from '../../src/math/vec3.ts';
import { RIM_CORNERS, squareAxes, writeConeRim } from '../../src/scene/shape/cone-rim.ts';
import { gridPlan, LINES_PER_HEAVY } from '../../src/scene/shape/floor-grid.ts';
import { holeLayout } from '../../src/scene/shape/hole-layout.ts';
import { splitAtBarrel } from '../../src/scene/shape/leg-split.ts';
import { OUTLINE_CORNERS } from '../../src/scene/shape/plate-outline.ts';
import { plateShape } from '../../src/scene/shape/plate-shape.ts';
import { type SolidMesh, unitBall, unitCylinder } from '../../src/scene/shape/unit-solids.ts';

const LEGS = { min: 120, max: 200, barrelDiameter: 22, rodDiameter: 10 };

describe('barrel and rod', () => {
  it('leave the barrel as long as it is, whatever the leg does', () => {
    for (const length of [60, 120, 200, 214.5]) expect(splitAtBarrel(LEGS, 98, length).barrelEnd).toBe(98);
  });

  it('keep the rod in its barrel up to the longest length', () => {
    for (const length of [60, 120, 199, 200]) expect(splitAtBarrel(LEGS, 98, length).rodStart).toBeLessThan(98);
  });

  it('come apart by just what a leg is too long', () => {
    const { barrelEnd, rodStart } = splitAtBarrel(LEGS, 98, 214.5);
    expect(rodStart - barrelEnd).toBeCloseTo(14.5, 12);
  });
});

describe('joint cone', () => {
  it.each([
    [[0, 0, 1], 25],
    [[0, 0, -1], 60],
    [[0.3, -0.5, 0.8], 100],
    [[1, 0, 0], 5],
  ] as const)('about %j with half angle %d deg has its rim at that angle and slant', (direction, degrees) => {
    const apex: Vec3 = [3, -4, 5];
    const axis = unit(direction);
    const rim = new Float64Array(3 * RIM_CORNERS);
    writeConeRim(apex, axis, (degrees * Math.PI) / 180, 40, rim, 0);
    for (let i = 0; i < RIM_CORNERS; i++) {
      const arm = new Vector3(rim[3 * i], rim[3 * i + 1], rim[3 * i + 2]).sub(new Vector3(...apex));
      expect(arm.length()).toBeCloseTo(40, 10);
      expect((arm.angleTo(new Vector3(...axis)) * 180) / Math.PI).toBeCloseTo(degrees, 8);
    }
  });

  it('has square axes, right-handed, for any direction', () => {
    for (const direction of [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
      [0, 0, -1],
      [1, 1, 1],
      [1e-9, 0, 1],
    ] as const) {
      const axis = new Vector3(...unit(direction));
      const [first, second] = squareAxes(unit(direction)).map((a) => new Vector3(...a));
      expect(first.length()).toBeCloseTo(1, 12);
      expect(first.dot(axis)).toBeCloseTo(0, 12);
      expect(first.clone().cross(second).distanceTo(axis)).toBeCloseTo(0, 12);
    }
  });
});

describe('holes', () => {
  const ring: Ring = { radius: 100, gap: 0.35, turn: 0, jointHeight: 12, holes: { count: 72, start: 0.02 } };

  it('hold every joint, at the place where the kinematics puts it', () => {
    for (const plate of ['base', 'platform'] as const) {
      const { holes } = holeLayout(ring, plate);
      const joints = ringJoints(ring, plate);
      expect(holes).toHaveLength(72);
      const used = holes.filter(({ leg }) => leg !== null);
      expect(used.map(({ leg }) => leg).sort()).toEqual([1, 2, 3, 4, 5, 6]);
      for (const { x, y, leg } of used) {
        const at = 3 * ((leg ?? 0) - 1);
        expect(Math.hypot(x - joints[at], y - joints[at + 1])).toBeLessThan(1e-9);
      }
    }
  });

  it('do not touch each other', () => {
    const { holes, radius } = holeLayout({ ...ring, holes: { count: 300, start: 0 } }, 'base');
    const [a, b] = holes;
    expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeGreaterThan(2 * radius);
  });

  it('are the six joints where a ring has none', () => {
    const { holes } = holeLayout({ radius: 50, gap: 0.3, turn: 0.1, jointHeight: 0 }, 'platform');
    expect(holes.map(({ leg }) => leg)).toEqual([1, 2, 3, 4, 5, 6]);
  });
});

describe('plates', () => {
  it('lie below the base joints and above the platform joints, by the joint height', () => {
    const { mechanism } = compiledDesign(DEMOS.steady);
    const base = plateShape(mechanism, 'base');
    const platform = plateShape(mechanism, 'platform');
    expect(base.innerFace).toBe(-12);
    expect(base.outerFace).toBeLessThan(-12);
    expect(platform.innerFace).toBe(12);
    expect(platform.outerFace).toBeGreaterThan(12);
    expect(base.radius).toBeGreaterThan(100);
  });

  it('are as the design states them', () => {
    const { mechanism } = compiledDesign(DEMOS.steady);
    const square = Float64Array.of(-80, -90, 80, -90, 80, 90, -80, 90);
    const stated = { outline: { kind: 'polygon', points: square }, thickness: 6, opening: 20 } as const;
    const platform = plateShape(mechanism, 'platform', stated);
    expect([platform.innerFace, platform.outerFace, platform.opening]).toEqual([12, 18, 20]);
    expect(platform.radius).toBeCloseTo(Math.hypot(80, 90), 12);
    const { corners } = platform.outline;
    expect(corners).toHaveLength(2 * OUTLINE_CORNERS);
    for (let i = 0; i < corners.length; i += 2) {
      expect([Math.abs(corners[i]), Math.abs(corners[i + 1])]).toEqual([80, 90]);
    }
    const disc = { outline: { kind: 'disc', radius: 130 }, thickness: 6, opening: 0 } as const;
    const round = plateShape(mechanism, 'base', disc);
    expect([round.innerFace, round.outerFace]).toEqual([-12, -18]);
    expect(round.radius).toBeCloseTo(130, 9);
  });

  it('lie clear of every free joint', () => {
    const points_mm = [
      [10, 0, 4],
      [0, 60, -3],
      [-50, 40, 0],
      [-50, -40, 9],
      [0, -60, 0],
      [40, -20, 2],
    ] as const;
    const { mechanism } = compiledDesign({ ...DEMOS.steady, base: { points_mm }, platform: { points_mm } });
    for (const [, , z] of points_mm) {
      expect(plateShape(mechanism, 'base').innerFace).toBeLessThan(z);
      expect(plateShape(mechanism, 'platform').innerFace).toBeGreaterThan(z);
    }
  });
});

/** Volume inside a closed surface: a sixth of the sum of a . (b x c); negative where triangles face inward. */
function volume({ positions, indices }: SolidMesh): number {
  const corner = (i: number) => new Vector3(positions[3 * i], positions[3 * i + 1], positions[3 * i + 2]);
  let sum = 0;
  for (let t = 0; t < indices.length; t += 3) {
    sum += corner(indices[t]).dot(corner(indices[t + 1]).cross(corner(indices[t + 2]))) / 6;
  }
  return sum;
}

describe('unit solids', () => {
  it('close, face outward and hold the volume of their regular polygons', () => {
    const sides = 32;
    // prism on a regular polygon of circumradius 1/2: n/2 r^2 sin(2 pi / n)
    expect(volume(unitCylinder(sides))).toBeCloseTo((sides / 8) * Math.sin((2 * Math.PI) / sides), 12);
    expect(volume(unitBall(64))).toBeCloseTo(Math.PI / 6, 2);
    expect(volume(unitBall(24))).toBeLessThan(Math.PI / 6);
  });
});

describe('floor grid', () => {
  it.each([
    [145, 10, 150],
    [60, 10, 100],
    [1450, 100, 1500],
    [9, 1, 10],
  ])('of radius %d mm has lines every %d mm out to %d mm', (radius, step, reach) => {
    const plan = gridPlan(radius);
    expect(plan.step).toBeCloseTo(step, 12);
    expect(plan.reach).toBeCloseTo(reach, 9);
    expect(plan.count % LINES_PER_HEAVY).toBe(0);
  });
});
