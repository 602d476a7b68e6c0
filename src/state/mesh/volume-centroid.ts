import { Vector3 } from 'three';
import { ConvexHull } from 'three/examples/jsm/math/ConvexHull.js';
import type { Vec3 } from '../../math/vec3.ts';
import type { WeldedCorners } from './weld.ts';

/** A solid of uniform density: its volume and where its centre of mass is. */
export interface VolumeCentroid {
  /** Cube of the unit of length. */
  readonly volume: number;
  readonly centroid: Vec3;
}

/** A solid that fills less than this share of the cube on its size is flat; its volume would be rounding. */
const NO_VOLUME = 1e-9;

/**
 * Volume centroid of the solid inside a closed mesh, in the mesh's own unit; null for a mesh that has a gap, whose triangles do not
 * all face the same way, or that encloses nothing. Hollows inside count as empty, bodies that overlap count twice.
 * @param triangles flat 9 numbers each
 */
export function closedCentroid(triangles: Float32Array, welded: WeldedCorners): VolumeCentroid | null {
  return isClosed(welded) ? centroidOf(triangles) : null;
}

/** Volume centroid of the convex hull of points; null where they lie in one plane. */
export function hullCentroid(points: readonly Vec3[]): VolumeCentroid | null {
  const { faces } = new ConvexHull().setFromPoints(points.map(([x, y, z]) => new Vector3(x, y, z)));
  const triangles: number[] = [];
  for (const { edge: start } of faces) {
    const [a, first] = [start.head().point, start.next];
    // a fan, should a face have more than three corners
    for (let edge = first; edge.next !== start; edge = edge.next)
      triangles.push(...a, ...edge.head().point, ...edge.next.head().point);
  }
  return centroidOf(triangles);
}

/** Whether every edge is walked as often one way as the other: a surface without a rim, its triangles facing the same way. */
function isClosed({ firsts, corners }: WeldedCorners): boolean {
  const walked = new Map<number, number>();
  for (let n = 0; n < corners.length; n++) {
    const a = corners[n];
    const b = corners[n % 3 === 2 ? n - 2 : n + 1];
    if (a === b) continue;
    const edge = Math.min(a, b) * firsts.length + Math.max(a, b);
    walked.set(edge, (walked.get(edge) ?? 0) + (a < b ? 1 : -1));
  }
  for (const surplus of walked.values()) if (surplus !== 0) return false;
  return true;
}

/**
 * Sum over the tetrahedra between each triangle and one point, with their signs: V = sum a . (b x c) / 6, and V times the centroid
 * = sum V_i (a + b + c) / 4. Exact for a closed surface (divergence theorem), whatever the point; the middle of the box keeps rounding small.
 */
function centroidOf(triangles: ArrayLike<number>): VolumeCentroid | null {
  const { low, high } = boxOf(triangles);
  const [mx, my, mz] = [0, 1, 2].map((axis) => (low[axis] + high[axis]) / 2);
  let [volume, x, y, z] = [0, 0, 0, 0];
  for (let i = 0; i < triangles.length; i += 9) {
    const [ax, ay, az] = [triangles[i] - mx, triangles[i + 1] - my, triangles[i + 2] - mz];
    const [bx, by, bz] = [triangles[i + 3] - mx, triangles[i + 4] - my, triangles[i + 5] - mz];
    const [cx, cy, cz] = [triangles[i + 6] - mx, triangles[i + 7] - my, triangles[i + 8] - mz];
    const part = (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
    volume += part;
    x += (part * (ax + bx + cx)) / 4;
    y += (part * (ay + by + cy)) / 4;
    z += (part * (az + bz + cz)) / 4;
  }
  const size = Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  if (!(Math.abs(volume) > NO_VOLUME * size ** 3)) return null;
  const centroid: Vec3 = [mx + x / volume, my + y / volume, mz + z / volume];
  // parts that face inward and outward in turn can throw the sum out of the body
  if (!centroid.every((value, axis) => value >= low[axis] && value <= high[axis])) return null;
  return { volume: Math.abs(volume), centroid };
}

function boxOf(triangles: ArrayLike<number>): { readonly low: Vec3; readonly high: Vec3 } {
  const least = (axis: number) => {
    let low = Number.POSITIVE_INFINITY;
    for (let i = axis; i < triangles.length; i += 3) low = Math.min(low, triangles[i]);
    return low;
  };
  const most = (axis: number) => {
    let high = Number.NEGATIVE_INFINITY;
    for (let i = axis; i < triangles.length; i += 3) high = Math.max(high, triangles[i]);
    return high;
  };
  return { low: [least(0), least(1), least(2)], high: [most(0), most(1), most(2)] };
}
