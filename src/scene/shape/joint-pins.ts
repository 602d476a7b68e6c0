import type { JointShape } from '../../kinematics/joint-shapes.ts';
import { add, cross, length, scale, unit, type Vec3 } from '../../math/vec3.ts';

/** A round piece between two points [mm]. */
export interface Pin {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly diameter: number;
}

/** Half the length of a bolt, and of a cross's arm, in ball diameters. */
const BOLT_HALF = 1.25;
const CROSS_HALF = 0.95;

/** Thickness of a bolt's shank, of its head and of a cross's arms, in ball diameters. */
const SHANK = 0.42;
const HEAD = 0.9;
const ARM = 0.36;

/** Height of a bolt's head in ball diameters. */
const HEAD_HEIGHT = 0.3;

/**
 * What shows of a joint besides its ball, in the frame in which the joint's shape is given: a rod end's bolt with its head, or the
 * two arms of a universal joint's cross. The second arm is square to the first and to the leg.
 * @param d unit direction of the leg from the joint
 * @param ball diameter of the drawn ball [mm]
 */
export function jointPins(shape: JointShape, joint: Vec3, d: Vec3, ball: number): readonly Pin[] {
  const through = (axis: Vec3, from: number, to: number, diameter: number): Pin => ({
    from: add(joint, scale(axis, from * ball)),
    to: add(joint, scale(axis, to * ball)),
    diameter: diameter * ball,
  });
  if (shape.kind === 'ball') return [];
  if (shape.kind === 'rodEnd') {
    return [
      through(shape.bolt, -BOLT_HALF, BOLT_HALF, SHANK),
      through(shape.bolt, BOLT_HALF - HEAD_HEIGHT, BOLT_HALF, HEAD),
    ];
  }
  const second = cross(shape.first, d);
  const arms = [through(shape.first, -CROSS_HALF, CROSS_HALF, ARM)];
  // a leg along its joint's first axis leaves the second arm no direction
  if (length(second) > 0) arms.push(through(unit(second), -CROSS_HALF, CROSS_HALF, ARM));
  return arms;
}
