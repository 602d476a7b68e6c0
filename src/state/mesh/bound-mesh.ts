import { Vector3 } from 'three';
import { ConvexHull } from 'three/examples/jsm/math/ConvexHull.js';
import { MOST_HULL_CORNERS } from '../../document/judgement-fields.ts';
import { at, cross, dot, length, scale, subtract, unit, type Vec3 } from '../../math/vec3.ts';
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

/** With this many points or fewer outside of the body so far, the whole hull is made at once: quickhull takes some milliseconds. */
const FEW_OUTSIDE = 2000;

/**
 * The convex hull of a mesh (quickhull, three.js). One with too many corners for a design file is replaced by the hull of some of
 * its corners, each chosen where the body so far leaves out most, grown about its middle until it holds them all.
 * @param onShare is told how much of it is done, 0 to 1
 */
export function boundMesh(
  triangles: Float32Array,
  { firsts }: WeldedCorners = weldCorners(triangles),
  onShare: (share: number) => void = () => undefined,
): MeshBound {
  const points = new Float64Array(3 * firsts.length);
  for (const [n, first] of firsts.entries())
    for (let axis = 0; axis < 3; axis++) points[3 * n + axis] = triangles[3 * first + axis];
  const { low, high } = boxOf(points);
  if (isFlat(points, length(subtract(high, low)))) return { low, high, corners: null, excess: 0 };
  const { corners, excess } = boundOf(points, onShare);
  return { low, high, corners, excess };
}

/** Of a mesh with more points than this some are weighed first, evenly spread over its list; all of them come after. */
const MOST_WEIGHED = 20_000;

/** Corners that are chosen among all points at the end, so that a spike that was not among the first is found. */
const LAST_CORNERS = 24;

function boundOf(points: Float64Array, onShare: (share: number) => void) {
  const count = points.length / 3;
  const every = (step: number) => Uint32Array.from({ length: Math.ceil(count / step) }, (_, n) => step * n);
  const step = Math.ceil(count / MOST_WEIGHED);
  let chosen = firstCorners(points);
  if (step > 1) chosen = fartherCorners(points, chosen, every(step), MOST_HULL_CORNERS - LAST_CORNERS, onShare).corners;
  const { corners, all } = fartherCorners(points, chosen, every(1), MOST_HULL_CORNERS, onShare);
  return all ? { corners: flattened(corners), excess: 0 } : grown(hullOf(corners), points);
}

/** Adds corners to a body, each where it leaves out most of some points, until it has so many or leaves out none (`all`). */
function fartherCorners(
  points: Float64Array,
  start: readonly Vec3[],
  places: ArrayLike<number>,
  most: number,
  onShare: (share: number) => void,
): { readonly corners: readonly Vec3[]; readonly all: boolean } {
  const { low, high } = boxOf(points);
  const size = length(subtract(high, low));
  let body = hullOf(start);
  let outside = places;
  for (;;) {
    const found = pointsOutside(body, points, outside);
    outside = found.places;
    if (outside.length <= FEW_OUTSIDE) {
      const hull = hullOf([...body.corners, ...Array.from(outside, (n) => at(points, n))]);
      if (hull.corners.length <= most) return { corners: hull.corners, all: true };
    }
    const room = most - body.corners.length;
    if (room <= 0 || found.out <= OUTSIDE * size) return { corners: body.corners, all: false };
    body = hullOf([...body.corners, ...found.farthest.slice(0, room).map((n) => at(points, n))]);
    onShare(body.corners.length / MOST_HULL_CORNERS);
  }
}

function boxOf(points: Float64Array): { readonly low: Vec3; readonly high: Vec3 } {
  const low: [number, number, number] = [points[0], points[1], points[2]];
  const high: [number, number, number] = [points[0], points[1], points[2]];
  for (let i = 0; i < points.length; i++) {
    const axis = i % 3;
    low[axis] = Math.min(low[axis], points[i]);
    high[axis] = Math.max(high[axis], points[i]);
  }
  return { low, high };
}

/** The point of which a measure is largest, and that measure; nothing below 0 counts. */
function farthest(points: Float64Array, measure: (point: Vec3) => number): readonly [Vec3, number] {
  let [best, most] = [0, 0];
  for (let n = 0; 3 * n < points.length; n++) {
    const value = measure(at(points, n));
    if (value > most) {
      best = n;
      most = value;
    }
  }
  return [at(points, best), most];
}

/** Whether all points lie in a plane, or on a line, or in one place. */
function isFlat(points: Float64Array, size: number): boolean {
  const a = at(points, 0);
  const [b, span] = farthest(points, (point) => length(subtract(point, a)));
  if (!(span > 0)) return true;
  const along = unit(subtract(b, a));
  const [c, width] = farthest(points, (point) => length(cross(subtract(point, a), along)));
  if (!(width > FLAT * size)) return true;
  const normal = unit(cross(subtract(c, a), along));
  return !(farthest(points, (point) => Math.abs(dot(subtract(point, a), normal)))[1] > FLAT * size);
}

interface HullOf {
  readonly corners: readonly Vec3[];
  /** Outward normals and `normal . x` on the face, flat 4 numbers each. */
  readonly faces: Float64Array;
}

function hullOf(points: readonly Vec3[]): HullOf {
  const hull = new ConvexHull().setFromPoints(points.map(([x, y, z]) => new Vector3(x, y, z)));
  const corners = new Set<Vector3>();
  for (const { edge: start } of hull.faces) {
    let edge = start;
    do {
      corners.add(edge.head().point);
      edge = edge.next;
    } while (edge !== start);
  }
  const faces = hull.faces.flatMap(({ normal, constant }) => [normal.x, normal.y, normal.z, constant]);
  return {
    corners: Array.from(corners, ({ x, y, z }): Vec3 => [x, y, z]),
    faces: Float64Array.from(faces),
  };
}

const flattened = (corners: readonly Vec3[]): Float64Array => Float64Array.from(corners.flat());

/** The directions of a cube's faces, edges and corners: where the first corners are taken. */
const FIRST_DIRECTIONS = [-1, 0, 1].flatMap((x) =>
  [-1, 0, 1].flatMap((y) => [-1, 0, 1].flatMap((z): Vec3[] => (x === 0 && y === 0 && z === 0 ? [] : [[x, y, z]]))),
);

function firstCorners(points: Float64Array): readonly Vec3[] {
  const found = new Set<number>();
  for (const [x, y, z] of FIRST_DIRECTIONS) {
    let [best, most] = [0, Number.NEGATIVE_INFINITY];
    for (let i = 0; i < points.length; i += 3) {
      const value = x * points[i] + y * points[i + 1] + z * points[i + 2];
      if (value > most) {
        best = i / 3;
        most = value;
      }
    }
    found.add(best);
  }
  return Array.from(found, (n) => at(points, n));
}

/** Points that lie outside by less than this share of the size are not added: corners of single precision are no better than 6e-8. */
const OUTSIDE = 1e-9;

/** Corners added between two hulls: more at a time is quicker and chooses worse. */
const AT_A_TIME = 4;

/** Which of some points lie outside of a convex body, and the few of them that are farthest out, farthest first. */
function pointsOutside({ faces }: HullOf, points: Float64Array, places: ArrayLike<number>) {
  const outside: number[] = [];
  let far: { readonly place: number; readonly out: number }[] = [];
  for (let k = 0; k < places.length; k++) {
    const x = points[3 * places[k]];
    const y = points[3 * places[k] + 1];
    const z = points[3 * places[k] + 2];
    let out = Number.NEGATIVE_INFINITY;
    for (let f = 0; f < faces.length; f += 4)
      out = Math.max(out, faces[f] * x + faces[f + 1] * y + faces[f + 2] * z - faces[f + 3]);
    if (!(out > 0)) continue;
    outside.push(places[k]);
    if (far.length === AT_A_TIME && out <= far[AT_A_TIME - 1].out) continue;
    far = [...far, { place: places[k], out }].sort((a, b) => b.out - a.out).slice(0, AT_A_TIME);
  }
  return { places: outside, farthest: far.map(({ place }) => place), out: far.at(0)?.out ?? 0 };
}

/** Rounding of the growth itself. */
const A_LITTLE_MORE = 1 + 1e-9;

/** A middle of growth lies at least this share of the body's reach inside of every face; nearer to one it would grow without end. */
const WELL_INSIDE = 0.2;

/** The middle of the box around a body, so that growth leaves it where it is; or of its corners, where that is too near to a face. */
function middleOfGrowth({ corners, faces }: HullOf): Vec3 {
  const { low, high } = boxOf(flattened(corners));
  const middle: Vec3 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2];
  let inside = true;
  for (let f = 0; f < faces.length; f += 4) {
    const normal: Vec3 = [faces[f], faces[f + 1], faces[f + 2]];
    const reach = corners.reduce((most, corner) => Math.max(most, faces[f + 3] - dot(normal, corner)), 0);
    inside &&= faces[f + 3] - dot(normal, middle) > WELL_INSIDE * reach;
  }
  if (inside) return middle;
  const [x, y, z] = corners.reduce<Vec3>(
    (sum, corner) => [sum[0] + corner[0], sum[1] + corner[1], sum[2] + corner[2]],
    [0, 0, 0],
  );
  return scale([x, y, z], 1 / corners.length);
}

function grown(body: HullOf, points: Float64Array) {
  const { corners, faces } = body;
  const middle = middleOfGrowth(body);
  let factor = 1;
  for (let f = 0; f < faces.length; f += 4) {
    const [x, y, z] = [faces[f], faces[f + 1], faces[f + 2]];
    const from = x * middle[0] + y * middle[1] + z * middle[2];
    let most = 0;
    for (let i = 0; i < points.length; i += 3)
      most = Math.max(most, x * points[i] + y * points[i + 1] + z * points[i + 2] - from);
    factor = Math.max(factor, most / (faces[f + 3] - from));
  }
  if (factor > 1) factor *= A_LITTLE_MORE;
  const moved = corners.map((corner) => corner.map((value, axis) => middle[axis] + factor * (value - middle[axis])));
  const reach = corners.reduce((most, corner) => Math.max(most, length(subtract(corner, middle))), 0);
  return { corners: Float64Array.from(moved.flat()), excess: (factor - 1) * reach };
}
