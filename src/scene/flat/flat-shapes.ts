import type { PlateName } from '../../kinematics/layout.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type Pose, platformOrigin } from '../../kinematics/pose.ts';
import { rotate } from '../../math/rotation.ts';
import { add, at, type Vec3 } from '../../math/vec3.ts';
import { RIM_CORNERS, writeConeRim } from '../shape/cone-rim.ts';
import { convexHull, type Point2 } from '../shape/convex-hull.ts';
import { plateShape } from '../shape/plate-shape.ts';
import { barPath, type FlatViewName, pathThrough, project } from './projection.ts';

/** Slant of a drawn joint cone as a share of the shortest leg. */
const CONE_SLANT = 0.42;

/** Puts points of a plate's own frame where the plate is at a pose. */
export function placePlate(mechanism: Mechanism, plate: PlateName, pose: Pose): (point: Vec3) => Vec3 {
  if (plate === 'base') return (point) => point;
  const origin = platformOrigin(pose, mechanism.p_PoTo_P);
  return (point) => add(origin, rotate(pose.R_BP, point));
}

/** Outline of a plate as it appears in a view. */
export function platePath(mechanism: Mechanism, plate: PlateName, pose: Pose, view: FlatViewName): string {
  const { outline, innerFace, outerFace } = plateShape(mechanism, plate);
  const placed = placePlate(mechanism, plate, pose);
  const points: Point2[] = [];
  for (let i = 0; i < outline.corners.length; i += 2) {
    for (const z of [innerFace, outerFace]) {
      points.push(project(view, placed([outline.corners[i], outline.corners[i + 1], z])));
    }
  }
  return pathThrough(convexHull(points));
}

/** Outline of one joint's cone as it appears in a view: a sector, or a round where it is seen along its axis. */
export function conePath(mechanism: Mechanism, plate: PlateName, leg: number, pose: Pose, view: FlatViewName): string {
  const placed = placePlate(mechanism, plate, pose);
  const axes = plate === 'base' ? mechanism.baseAxes_B : mechanism.platformAxes_P;
  const apex = at(mechanism.centres[plate], leg);
  const rim = new Float64Array(3 * RIM_CORNERS);
  writeConeRim(apex, at(axes, leg), mechanism.tiltLimit[plate], CONE_SLANT * mechanism.legs.min, rim, 0);
  const points = Array.from({ length: RIM_CORNERS }, (_, i) => project(view, placed(at(rim, i))));
  return pathThrough(convexHull([...points, project(view, placed(apex))]));
}

/** Posts between a plate's inner face and its six joints. */
export function postsPath(mechanism: Mechanism, plate: PlateName, pose: Pose, view: FlatViewName): string {
  const { innerFace } = plateShape(mechanism, plate);
  const placed = placePlate(mechanism, plate, pose);
  const posts = Array.from({ length: LEG_COUNT }, (_, leg) => {
    const [x, y, z] = at(mechanism.centres[plate], leg);
    return barPath(
      project(view, placed([x, y, innerFace])),
      project(view, placed([x, y, z])),
      mechanism.legs.rodDiameter,
    );
  });
  return posts.join('');
}
