import { at, dot, type Vec3 } from '../math/vec3.ts';
import type { JointShape } from './joint-shapes.ts';
import { LEG_COUNT, type PlateName } from './layout.ts';
import type { Mechanism } from './mechanism.ts';

/**
 * For engines that know cones about the mount axes alone: of each plate the widest half angle [rad] whose cones lie within
 * the limits of all six joints; that of the cones themselves where they are balls. What is found reachable with these cones is
 * reachable; other joints may allow more.
 */
export const innerCones = (mechanism: Mechanism): Readonly<Record<PlateName, number>> => ({
  base: innerCone(mechanism, 'base', mechanism.baseAxes_B),
  platform: innerCone(mechanism, 'platform', mechanism.platformAxes_P),
});

function innerCone({ crossJoints, tiltLimit }: Mechanism, plate: PlateName, axes: Float64Array): number {
  const joints = crossJoints[plate];
  if (!joints) return tiltLimit[plate];
  let least = Math.PI;
  for (let leg = 0; leg < LEG_COUNT; leg++) least = Math.min(least, halfAngleWithin(joints[leg].shape, at(axes, leg)));
  return least;
}

/** Half angle of the widest cone about `axis` within a joint's limit [rad]; 0 when the axis itself is outside. */
function halfAngleWithin(shape: JointShape, axis: Vec3): number {
  switch (shape.kind) {
    case 'ball':
      return shape.limit;
    case 'rodEnd':
      // the axis may itself stand out of the plane square to the bolt
      return Math.max(shape.limit - Math.asin(Math.min(Math.abs(dot(shape.bolt, axis)), 1)), 0);
    case 'universal':
      // cos(tilt) = cos(first) cos(second), so neither angle is larger than the tilt
      return Math.min(shape.firstLimit, shape.secondLimit);
  }
}
