import { type SolidMoments, type Symmetric3, solidMoments } from '../../math/solid-moments.ts';
import type { Vec3 } from '../../math/vec3.ts';
import type { WeldedCorners } from './weld.ts';

/** The solid of uniform density inside a closed mesh. */
export interface MeshSolid {
  /** Cube of the unit of length. */
  readonly volume: number;
  readonly centroid: Vec3;
  /** Second moments about the centroid, as {@link SolidMoments}; a mesh that an older version kept has none. */
  readonly second?: Symmetric3;
}

/**
 * The solid inside a closed mesh, in the mesh's own unit; null for a mesh that has a gap, whose triangles do not all face the same way,
 * or that encloses nothing. Hollows inside count as empty, bodies that overlap count twice.
 * @param triangles flat 9 numbers each
 */
export function closedSolid(triangles: Float32Array, welded: WeldedCorners): SolidMoments | null {
  return isClosed(welded) ? solidMoments(triangles) : null;
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
