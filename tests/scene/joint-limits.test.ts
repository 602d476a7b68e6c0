import { describe, expect, it } from 'vitest';
import { type JointShape, jointMargin } from '../../src/kinematics/joint-shapes.ts';
import { add, at, cross, dot, length, scale, subtract, unit, type Vec3 } from '../../src/math/vec3.ts';
import { RIM_CORNERS } from '../../src/scene/shape/cone-rim.ts';
import { jointPins } from '../../src/scene/shape/joint-pins.ts';
import { RIM_MARKS, writeLimitRim } from '../../src/scene/shape/limit-rim.ts';

const deg = (angle: number) => (angle * Math.PI) / 180;
const APEX: Vec3 = [3, -4, 5];
const SLANT = 40;
const MOUNT = unit([0.2, -0.1, 1]);
const FIRST = unit(cross(MOUNT, [0.3, 1, 0]));

const SHAPES: Readonly<Record<JointShape['kind'], JointShape>> = {
  ball: { kind: 'ball', axis: MOUNT, limit: deg(25) },
  rodEnd: { kind: 'rodEnd', bolt: unit([1, 0.4, 0.1]), limit: deg(13) },
  universal: { kind: 'universal', axis: MOUNT, first: FIRST, firstLimit: deg(45), secondLimit: deg(20) },
};

function rimOf(shape: JointShape): readonly Vec3[] {
  const rim = new Float64Array(3 * RIM_CORNERS);
  writeLimitRim(shape, MOUNT, APEX, SLANT, rim, 0);
  return Array.from({ length: RIM_CORNERS }, (_, i) => subtract(at(rim, i), APEX));
}

describe.each(Object.values(SHAPES))('the drawn limit of a joint of kind $kind', (shape) => {
  it('lies where the kinematics has no room left', () => {
    const rim = rimOf(shape);
    for (const { first, count } of RIM_MARKS[shape.kind].lines) {
      for (let i = first; i < first + count; i++) {
        expect(length(rim[i])).toBeCloseTo(SLANT, 9);
        expect(jointMargin(shape, unit(rim[i]))).toBeCloseTo(0, 9);
      }
    }
  });

  it('encloses directions that the joint allows', () => {
    const rim = rimOf(shape);
    const inward = unit(
      rim.reduce<Vec3>((sum, corner) => [sum[0] + corner[0], sum[1] + corner[1], sum[2] + corner[2]], [0, 0, 0]),
    );
    expect(jointMargin(shape, inward)).toBeGreaterThan(deg(10));
    for (const corner of rim) {
      const between = unit(add(scale(unit(corner), 0.97), scale(inward, 0.03)));
      expect(jointMargin(shape, between)).toBeGreaterThan(-1e-12);
    }
  });
});

describe('a band round a bolt', () => {
  it('faces the other plate and is as wide as twice its limit', () => {
    const { rodEnd } = SHAPES;
    if (rodEnd.kind !== 'rodEnd') throw new Error('no rod end');
    const rim = rimOf(rodEnd);
    const half = RIM_CORNERS / 2;
    for (let i = 0; i < half; i++) {
      // the two edges run opposite ways
      const facing = rim[RIM_CORNERS - 1 - i];
      expect(dot(unit(rim[i]), rodEnd.bolt)).toBeCloseTo(Math.sin(deg(13)), 12);
      expect(dot(unit(facing), rodEnd.bolt)).toBeCloseTo(-Math.sin(deg(13)), 12);
      expect(dot(rim[i], MOUNT) + dot(facing, MOUNT)).toBeGreaterThanOrEqual(-1e-9);
    }
  });
});

describe('what shows of a joint', () => {
  const d = unit([0.1, 0.2, 1]);

  it('is a bolt along its direction, longer than the ball', () => {
    const [bolt, head] = jointPins(SHAPES.rodEnd, APEX, d, 10);
    const { rodEnd } = SHAPES;
    if (rodEnd.kind !== 'rodEnd') throw new Error('no rod end');
    const span = subtract(bolt.to, bolt.from);
    expect(length(cross(span, rodEnd.bolt))).toBeCloseTo(0, 9);
    expect(length(span)).toBeGreaterThan(20);
    expect(head.diameter).toBeGreaterThan(bolt.diameter);
  });

  it('is a cross of two square arms of which the second is square to the leg', () => {
    const arms = jointPins(SHAPES.universal, APEX, d, 10).map(({ from, to }) => unit(subtract(to, from)));
    expect(arms).toHaveLength(2);
    expect(dot(arms[0], arms[1])).toBeCloseTo(0, 12);
    expect(dot(arms[1], d)).toBeCloseTo(0, 12);
    expect(length(subtract(scale(arms[0], dot(arms[0], FIRST)), FIRST))).toBeCloseTo(0, 9);
  });

  it('is nothing but the ball of a ball joint', () => {
    expect(jointPins(SHAPES.ball, APEX, d, 10)).toEqual([]);
  });
});
