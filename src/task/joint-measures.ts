import { jointShapes } from '../kinematics/joint-limits.ts';
import type { MeasuredAbout } from '../kinematics/joint-readings.ts';
import type { JointShape } from '../kinematics/joint-shapes.ts';
import { LEG_COUNT, type PlateName } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { cross, put, type Vec3 } from '../math/vec3.ts';

/** One limited angle of the six joints of a plate, ready to be measured at many poses. */
export interface JointMeasure {
  readonly plate: PlateName;
  readonly about: MeasuredAbout;
  /** [rad] */
  readonly limit: number;
  /** Unit vectors in the plate's frame, flat 18: mount axis, bolt or axis that the angle is measured from. */
  readonly axes: Float64Array;
  /** Of an angle about a universal joint's first axis: the direction square to mount and first axis; else empty. */
  readonly across: Float64Array;
}

/** The limited angles of all joints: one a plate, two of universal joints. */
export const jointMeasures = (mechanism: Mechanism): readonly JointMeasure[] => {
  const shapes = jointShapes(mechanism);
  return (['base', 'platform'] as const).flatMap((plate) => plateMeasures(plate, shapes[plate]));
};

function plateMeasures(plate: PlateName, shapes: readonly JointShape[]): readonly JointMeasure[] {
  const [first] = shapes;
  const flat = (of: (shape: JointShape) => Vec3): Float64Array => {
    const all = new Float64Array(3 * LEG_COUNT);
    shapes.forEach((shape, leg) => {
      put(all, leg, of(shape));
    });
    return all;
  };
  const NONE = new Float64Array(0);
  switch (first.kind) {
    case 'ball':
      return [{ plate, about: 'mount', limit: first.limit, axes: flat(mountOf), across: NONE }];
    case 'rodEnd':
      return [{ plate, about: 'bolt', limit: first.limit, axes: flat(boltOf), across: NONE }];
    case 'universal':
      return [
        { plate, about: 'first', limit: first.firstLimit, axes: flat(mountOf), across: flat(acrossOf) },
        { plate, about: 'second', limit: first.secondLimit, axes: flat(firstOf), across: NONE },
      ];
  }
}

const UP: Vec3 = [0, 0, 1];
const mountOf = (shape: JointShape): Vec3 => (shape.kind === 'rodEnd' ? UP : shape.axis);
const boltOf = (shape: JointShape): Vec3 => (shape.kind === 'rodEnd' ? shape.bolt : UP);
const firstOf = (shape: JointShape): Vec3 => (shape.kind === 'universal' ? shape.first : UP);
const acrossOf = (shape: JointShape): Vec3 => (shape.kind === 'universal' ? cross(shape.axis, shape.first) : UP);

/** The angle of one joint [rad, at least 0] whose leg lies along (x, y, z), of any length, plate axes. */
export function measuredAngle(
  { about, axes, across }: JointMeasure,
  leg: number,
  x: number,
  y: number,
  z: number,
): number {
  const i = 3 * leg;
  const along = axes[i] * x + axes[i + 1] * y + axes[i + 2] * z;
  if (about === 'first') return Math.abs(Math.atan2(across[i] * x + across[i + 1] * y + across[i + 2] * z, along));
  const cx = y * axes[i + 2] - z * axes[i + 1];
  const cy = z * axes[i] - x * axes[i + 2];
  const cz = x * axes[i + 1] - y * axes[i];
  const square = Math.sqrt(cx * cx + cy * cy + cz * cz);
  return about === 'mount' ? Math.atan2(square, along) : Math.atan2(Math.abs(along), square);
}

/** {@link measuredAngle} of a leg whose vector from base to platform joint is (x, y, z) in base axes, at rotation R_BP. */
export function legAngle(measure: JointMeasure, leg: number, R: Float64Array, x: number, y: number, z: number): number {
  if (measure.plate === 'base') return measuredAngle(measure, leg, x, y, z);
  return measuredAngle(
    measure,
    leg,
    -(R[0] * x + R[3] * y + R[6] * z),
    -(R[1] * x + R[4] * y + R[7] * z),
    -(R[2] * x + R[5] * y + R[8] * z),
  );
}
