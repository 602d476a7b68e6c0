import { EdgesGeometry, Vector3 } from 'three';
import { ConvexGeometry } from 'three/examples/jsm/geometries/ConvexGeometry.js';
import type { Solid } from '../../kinematics/bodies.ts';
import { type SolidShape, solidShape } from '../shape/solid-shape.ts';

/** Faces of a hull that meet at less than this are one face: no line between them [deg]. */
const ONE_FACE_deg = 8;

/** Any solid as triangles and edges; the hull of points by three.js's quickhull. */
export function drawnSolid(solid: Solid): SolidShape {
  if (solid.kind !== 'hull') return solidShape(solid);
  const { points } = solid;
  const corners = Array.from(
    { length: points.length / 3 },
    (_, n) => new Vector3(points[3 * n], points[3 * n + 1], points[3 * n + 2]),
  );
  const hull = new ConvexGeometry(corners);
  const edges = new EdgesGeometry(hull, ONE_FACE_deg);
  const shape = {
    triangles: Float64Array.from(hull.getAttribute('position').array),
    edges: Float64Array.from(edges.getAttribute('position').array),
    points,
  };
  hull.dispose();
  edges.dispose();
  return shape;
}
