import type { PlateBody } from '../../kinematics/keep-out.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type Pose, platformOrigin } from '../../kinematics/pose.ts';
import { rotate, rotateBack } from '../../math/rotation.ts';
import { add, at, scale, type Vec3 } from '../../math/vec3.ts';
import type { SceneView } from '../model/scene-view.ts';
import { RIM_CORNERS } from '../shape/cone-rim.ts';
import { convexHull, type Point2 } from '../shape/convex-hull.ts';
import { jointPins } from '../shape/joint-pins.ts';
import { writeLimitRim } from '../shape/limit-rim.ts';
import { OUTLINE_CORNERS } from '../shape/plate-outline.ts';
import { ballDiameter, plateShape } from '../shape/plate-shape.ts';
import { barPath, type FlatViewName, pathThrough, project } from './projection.ts';

/** Slant of a drawn joint cone as a share of the shortest leg. */
const CONE_SLANT = 0.42;

/** Puts points of a plate's own frame where the plate is at a pose. */
export function placePlate(mechanism: Mechanism, plate: PlateName, pose: Pose): (point: Vec3) => Vec3 {
  if (plate === 'base') return (point) => point;
  const origin = platformOrigin(pose, mechanism.p_PoTo_P);
  return (point) => add(origin, rotate(pose.R_BP, point));
}

/** Outline of a plate as it appears in a view; `stated` when the design says what it is like. */
export function platePath(
  mechanism: Mechanism,
  plate: PlateName,
  pose: Pose,
  view: FlatViewName,
  stated: PlateBody | null,
): string {
  const { outline, innerFace, outerFace } = plateShape(mechanism, plate, stated);
  const placed = placePlate(mechanism, plate, pose);
  const points: Point2[] = [];
  for (let i = 0; i < outline.corners.length; i += 2) {
    for (const z of [innerFace, outerFace]) {
      points.push(project(view, placed([outline.corners[i], outline.corners[i + 1], z])));
    }
  }
  return pathThrough(convexHull(points));
}

/** Rim of a plate's round opening as it appears in a view: both faces; empty without one. */
export function openingPath(
  mechanism: Mechanism,
  plate: PlateName,
  pose: Pose,
  view: FlatViewName,
  stated: PlateBody | null,
): string {
  const { outline, innerFace, outerFace, opening } = plateShape(mechanism, plate, stated);
  if (opening === 0) return '';
  const placed = placePlate(mechanism, plate, pose);
  const rim = (z: number) =>
    Array.from({ length: OUTLINE_CORNERS }, (_, i) =>
      project(view, placed([opening * outline.normals[2 * i], opening * outline.normals[2 * i + 1], z])),
    );
  return pathThrough(rim(innerFace)) + pathThrough(rim(outerFace));
}

/** Outline of one joint's limit as it appears in a view: that of a cone is a sector, or a round seen along its axis. */
export function limitPath(
  { mechanism, parts, drawnPose }: SceneView,
  plate: PlateName,
  leg: number,
  view: FlatViewName,
): string {
  const placed = placePlate(mechanism, plate, drawnPose);
  const axes = plate === 'base' ? mechanism.baseAxes_B : mechanism.platformAxes_P;
  const apex = at(mechanism.centres[plate], leg);
  const rim = new Float64Array(3 * RIM_CORNERS);
  writeLimitRim(parts.shapes[plate][leg], at(axes, leg), apex, CONE_SLANT * mechanism.legs.min, rim, 0);
  const points = Array.from({ length: RIM_CORNERS }, (_, i) => project(view, placed(at(rim, i))));
  return pathThrough(convexHull([...points, project(view, placed(apex))]));
}

/** Bolts and crosses of a plate's joints, as bars. */
export function pinsPath(scene: SceneView, plate: PlateName, view: FlatViewName): string {
  const { mechanism, parts, drawnPose, drawnLegs } = scene;
  const placed = placePlate(mechanism, plate, drawnPose);
  const ball = ballDiameter(mechanism.legs);
  return drawnLegs
    .flatMap(({ u_B }, leg) => {
      const d = plate === 'base' ? u_B : rotateBack(drawnPose.R_BP, scale(u_B, -1));
      return jointPins(parts.shapes[plate][leg], at(mechanism.centres[plate], leg), d, ball);
    })
    .map(({ from, to, diameter }) => barPath(project(view, placed(from)), project(view, placed(to)), diameter))
    .join('');
}

/** Posts between a plate's inner face and its six joints. */
export function postsPath(
  mechanism: Mechanism,
  plate: PlateName,
  pose: Pose,
  view: FlatViewName,
  stated: PlateBody | null,
): string {
  const { innerFace } = plateShape(mechanism, plate, stated);
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
