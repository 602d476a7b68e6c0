import type { ComparedColumn } from '../../jobs/compare-service.ts';
import type { ReachSurface } from '../../jobs/reach-picture.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { legStates } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { length, scale, subtract, type Vec3 } from '../../math/vec3.ts';
import { placePlate } from '../flat/flat-shapes.ts';
import { pathThrough } from '../flat/projection.ts';
import { silhouette } from '../flat/silhouette.ts';
import { outlinePoints } from '../model/outline-points.ts';
import { convexHull, type Point2 } from '../shape/convex-hull.ts';
import { plateShape } from '../shape/plate-shape.ts';
import { inViewAxes, onSheet, type ViewBasis } from './turned-view.ts';

/** One design to draw: at its home pose, with its reach where that is known. */
export interface ComparedDrawing {
  readonly letter: ComparedColumn;
  readonly title: string;
  readonly mechanism: Mechanism;
  readonly shell: ReachSurface | null;
}

/** The ball that holds all designs and their reaches, so that no turn of the view changes the scale. */
export interface Surroundings {
  readonly centre: Vec3;
  /** [mm] */
  readonly radius: number;
}

export function surroundings(drawings: readonly ComparedDrawing[]): Surroundings {
  const points = drawings.flatMap(({ mechanism, shell }) =>
    outlinePoints(mechanism, mechanism.home, shell?.positions ?? null),
  );
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const point of points) {
    point.forEach((value, axis) => {
      low[axis] = Math.min(low[axis], value);
      high[axis] = Math.max(high[axis], value);
    });
  }
  const centre = scale([low[0] + high[0], low[1] + high[1], low[2] + high[2]], 0.5);
  const radius = points.reduce((most, point) => Math.max(most, length(subtract(point, centre))), 1);
  return { centre, radius };
}

/** Cells on which a reach's shadow is collected here: the pictures are small, and four of them turn at once. */
const SHADOW_CELLS = 120;

/** The outline of a reach as the eye sees it, holes and separate parts included. */
export function reachPath({ positions, indices }: ReachSurface, basis: ViewBasis): string {
  const rings = silhouette({ positions: inViewAxes(positions, basis), indices }, 'plan', SHADOW_CELLS);
  return rings.map((ring) => pathThrough(smoothed(ring))).join('');
}

/** Passes of smoothing: enough to take the steps of the cells out of a line, each moving it by less than a cell. */
const PASSES = 3;

/** A closed line whose points are drawn toward their neighbours. */
function smoothed(ring: readonly Point2[]): readonly Point2[] {
  let points = ring;
  for (let pass = 0; pass < PASSES; pass++) {
    const now = points;
    points = now.map(([x, y], i): Point2 => {
      const [ax, ay] = now[(i + now.length - 1) % now.length];
      const [bx, by] = now[(i + 1) % now.length];
      return [(ax + 2 * x + bx) / 4, (ay + 2 * y + by) / 4];
    });
  }
  return points;
}

/** The outline of a plate at home as the eye sees it. */
export function platePath(mechanism: Mechanism, plate: PlateName, basis: ViewBasis): string {
  const { outline, innerFace, outerFace } = plateShape(mechanism, plate);
  const placed = placePlate(mechanism, plate, mechanism.home);
  const points: Point2[] = [];
  for (let i = 0; i < outline.corners.length; i += 2) {
    for (const z of [innerFace, outerFace]) {
      points.push(onSheet(basis, placed([outline.corners[i], outline.corners[i + 1], z])));
    }
  }
  return pathThrough(convexHull(points));
}

/** A leg at home: its two ends on the sheet, and where its number stands. */
export interface LegOnSheet {
  readonly leg: number;
  readonly from: Point2;
  readonly to: Point2;
  readonly label: Point2;
}

/** Where along a leg its number stands: away from where the legs of a pair come close. */
const LABEL_SHARE = 0.4;

export const legsOnSheet = (mechanism: Mechanism, basis: ViewBasis): readonly LegOnSheet[] =>
  legStates(mechanism, mechanism.home).map(({ leg, baseJoint_B, platformJoint_B }) => {
    const from = onSheet(basis, baseJoint_B);
    const to = onSheet(basis, platformJoint_B);
    const between = (axis: 0 | 1) => from[axis] + LABEL_SHARE * (to[axis] - from[axis]);
    return { leg, from, to, label: [between(0), between(1)] };
  });
