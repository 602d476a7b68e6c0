import { Vector3 } from 'three';
import { ConvexHull } from 'three/examples/jsm/math/ConvexHull.js';
import { MOST_HULL_CORNERS } from '../../document/judgement-fields.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { type WeldedCorners, weldCorners } from './weld.ts';

/** A convex body that holds all of a mesh, in the mesh's own unit. */
export interface MeshBound {
  /** The box along the axes. */
  readonly low: Vec3;
  readonly high: Vec3;
  /** Corners of a hull, flat 3 numbers each; null for a mesh so flat that only the box bounds it. */
  readonly corners: Float64Array | null;
  /** How far the bound lies outside of the mesh's own convex hull, at most. */
  readonly excess: number;
}

/** A mesh thinner than this share of its size is flat: its hull would have no inside. */
const FLAT = 1e-6;

/**
 * The convex hull of a mesh (quickhull, three.js). One with too many corners for a design file is replaced by the hull of some of
 * its corners, each chosen where the body so far leaves out most, grown about its middle until it holds them all.
 */
export function boundMesh(triangles: Float32Array, { firsts }: WeldedCorners = weldCorners(triangles)): MeshBound {
  const points = firsts.map((n) => new Vector3(triangles[3 * n], triangles[3 * n + 1], triangles[3 * n + 2]));
  const { low, high } = boxOf(points);
  const size = Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  if (isFlat(points, size)) return { low, high, corners: null, excess: 0 };
  const hull = cornersOf(points);
  if (hull.length <= MOST_HULL_CORNERS) return { low, high, corners: flattened(hull), excess: 0 };
  const { corners, excess } = fewer(hull);
  return { low, high, corners, excess };
}

function boxOf(points: readonly Vector3[]): { readonly low: Vec3; readonly high: Vec3 } {
  const low = points[0].clone();
  const high = points[0].clone();
  for (const point of points) {
    low.min(point);
    high.max(point);
  }
  return { low: [low.x, low.y, low.z], high: [high.x, high.y, high.z] };
}

/** Whether all points lie in a plane, or on a line, or in one place. */
function isFlat(points: readonly Vector3[], size: number): boolean {
  const farthest = (measure: (point: Vector3) => number) =>
    points.reduce<readonly [Vector3, number]>(
      (most, point) => {
        const value = measure(point);
        return value > most[1] ? [point, value] : most;
      },
      [points[0], 0],
    );
  const [a] = points;
  const [b, span] = farthest((point) => point.distanceToSquared(a));
  if (!(span > 0)) return true;
  const along = b.clone().sub(a).normalize();
  const [c, width] = farthest((point) => point.clone().sub(a).cross(along).length());
  if (!(width > FLAT * size)) return true;
  const normal = c.clone().sub(a).cross(along).normalize();
  return !(farthest((point) => Math.abs(point.clone().sub(a).dot(normal)))[1] > FLAT * size);
}

interface Face {
  readonly normal: Vector3;
  /** normal . x on the face. */
  readonly constant: number;
}

interface HullOf {
  readonly corners: readonly Vector3[];
  readonly faces: readonly Face[];
}

function hullOf(points: readonly Vector3[]): HullOf {
  const hull = new ConvexHull().setFromPoints([...points]);
  const corners = new Set<Vector3>();
  for (const { edge: start } of hull.faces) {
    let edge = start;
    do {
      corners.add(edge.head().point);
      edge = edge.next;
    } while (edge !== start);
  }
  return { corners: [...corners], faces: hull.faces };
}

const cornersOf = (points: readonly Vector3[]): readonly Vector3[] => hullOf(points).corners;

const flattened = (corners: readonly Vector3[]): Float64Array =>
  Float64Array.from(corners.flatMap(({ x, y, z }) => [x, y, z]));

/** The directions of a cube's faces, edges and corners: where the first corners are taken. */
const FIRST_DIRECTIONS = [-1, 0, 1].flatMap((x) =>
  [-1, 0, 1].flatMap((y) => [-1, 0, 1].flatMap((z) => (x === 0 && y === 0 && z === 0 ? [] : [new Vector3(x, y, z)]))),
);

/** Corners added between two hulls: more at a time is quicker and chooses worse. */
const AT_A_TIME = 4;

function fewer(all: readonly Vector3[]): { readonly corners: Float64Array; readonly excess: number } {
  const chosen = new Set(
    FIRST_DIRECTIONS.map((direction) =>
      all.reduce((best, point) => (point.dot(direction) > best.dot(direction) ? point : best)),
    ),
  );
  let body = hullOf([...chosen]);
  while (chosen.size < MOST_HULL_CORNERS) {
    const outside = all
      .map((point) => ({ point, out: outsideBy(body, point) }))
      .sort((a, b) => b.out - a.out)
      .slice(0, Math.min(AT_A_TIME, MOST_HULL_CORNERS - chosen.size));
    if (!(outside[0].out > 0)) break;
    for (const { point } of outside) chosen.add(point);
    body = hullOf([...chosen]);
  }
  return grown(body, all);
}

/** How far a point lies outside of a convex body: not below 0 when it does. */
const outsideBy = ({ faces }: HullOf, point: Vector3): number =>
  faces.reduce((most, { normal, constant }) => Math.max(most, normal.dot(point) - constant), Number.NEGATIVE_INFINITY);

/** Rounding of the growth itself. */
const A_LITTLE_MORE = 1 + 1e-9;

/** A middle of growth lies at least this share of the body's reach inside of every face; nearer to one it would grow without end. */
const WELL_INSIDE = 0.2;

/** The middle of the box around a body, so that growth leaves it where it is; or of its corners, where that is too near to a face. */
function middleOfGrowth({ corners, faces }: HullOf): Vector3 {
  const { low, high } = boxOf(corners);
  const middle = new Vector3(low[0] + high[0], low[1] + high[1], low[2] + high[2]).multiplyScalar(0.5);
  const inside = (from: Vector3) =>
    faces.every(({ normal, constant }) => {
      const reach = corners.reduce((most, corner) => Math.max(most, -normal.dot(corner) + constant), 0);
      return constant - normal.dot(from) > WELL_INSIDE * reach;
    });
  if (inside(middle)) return middle;
  return corners.reduce((sum, corner) => sum.add(corner), new Vector3()).divideScalar(corners.length);
}

function grown(body: HullOf, all: readonly Vector3[]) {
  const { corners, faces } = body;
  const middle = middleOfGrowth(body);
  let factor = 1;
  for (const { normal, constant } of faces) {
    const depth = constant - normal.dot(middle);
    for (const point of all) factor = Math.max(factor, (normal.dot(point) - normal.dot(middle)) / depth);
  }
  if (factor > 1) factor *= A_LITTLE_MORE;
  const moved = corners.map((corner) => corner.clone().sub(middle).multiplyScalar(factor).add(middle));
  const reach = corners.reduce((most, corner) => Math.max(most, corner.distanceTo(middle)), 0);
  return { corners: flattened(moved), excess: (factor - 1) * reach };
}
