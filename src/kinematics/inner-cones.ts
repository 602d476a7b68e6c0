import { dot } from '../math/vec3.ts';
import type { JointShapes } from './joint-limits.ts';
import type { JointShape } from './joint-shapes.ts';
import { LEG_COUNT, type PlateName } from './layout.ts';
import { compileMechanism, type Mechanism } from './mechanism.ts';

/**
 * The same mechanism with each plate's tilt limit lowered to the widest cone about the mount axes that lies within the true
 * limits of all six joints. What is found reachable with these cones is reachable; the true limits allow more.
 */
export function withInnerCones(mechanism: Mechanism, shapes: JointShapes): Mechanism {
  const { spec } = mechanism;
  const joint = (plate: PlateName) => ({ ...spec.joints[plate], tiltLimit: innerCone(mechanism, shapes, plate) });
  return compileMechanism({ ...spec, joints: { base: joint('base'), platform: joint('platform') } });
}

function innerCone({ baseAxes_B, platformAxes_P }: Mechanism, shapes: JointShapes, plate: PlateName): number {
  const axes = plate === 'base' ? baseAxes_B : platformAxes_P;
  let least = Math.PI;
  for (let leg = 0; leg < LEG_COUNT; leg++) {
    const i = 3 * leg;
    least = Math.min(least, halfAngleWithin(shapes[plate][leg], [axes[i], axes[i + 1], axes[i + 2]]));
  }
  return least;
}

/** Half angle of the widest cone about `axis` within a joint's limit [rad]; 0 when the axis itself is outside. */
function halfAngleWithin(shape: JointShape, axis: readonly [number, number, number]): number {
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
