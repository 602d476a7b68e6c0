import { seededRandom, uniform } from './random.ts';
import { at, cross, dot, length, subtract, type Vec3 } from './vec3.ts';

/**
 * Points are moved by this share of their size, at random, before it is asked on which side of a face they lie: no four lie in a plane
 * then, and rounding (some 1e-15) decides nothing. The triangles join the points where they are, so that a face of many
 * corners stays flat; a point less than this outside of all others may be left inside.
 */
const NUDGE = 1e-7;

/** Points that stay within this share of their size of one plane enclose nothing. */
const FLAT = 1e-6;

/** Nudges that are tried; none has been seen to need the second. */
const TRIES = 4;

/**
 * Triangles of the convex hull of up to some hundred points, outward, as places among the points; null for points in one plane. Each
 * point in turn takes away the faces that it sees and joins the rim of what is left (the incremental method, see
 * J. O'Rourke, Computational Geometry in C, chapter 4: from memory).
 * @param points flat x y z
 */
export function hullTriangles(points: ArrayLike<number>): readonly number[] | null {
  const own: Vec3[] = Array.from({ length: points.length / 3 }, (_, n) => at(points, n));
  const start = farApart(own);
  if (!start) return null;
  for (let seed = 1; seed <= TRIES; seed++) {
    const faces = facesOf(nudged(own, start.size, seed), start.corners);
    if (isClosed(faces)) return faces.flatMap(({ corners }) => corners);
  }
  return null;
}

interface Face {
  readonly corners: readonly [number, number, number];
  readonly normal: Vec3;
  /** normal . x on the face. */
  readonly constant: number;
}

/** Four points that span a volume. */
function farApart(points: readonly Vec3[]) {
  const farthest = (measure: (point: Vec3) => number) => {
    let [best, most] = [0, 0];
    for (const [n, point] of points.entries()) {
      const value = measure(point);
      if (value > most) [best, most] = [n, value];
    }
    return [best, most] as const;
  };
  if (points.length < 4) return null;
  const [first] = points;
  const [b, size] = farthest((point) => length(subtract(point, first)));
  if (!(size > 0)) return null;
  const along = subtract(points[b], first);
  const [c, area] = farthest((point) => length(cross(along, subtract(point, first))));
  if (!(area > FLAT * size * size)) return null;
  const normal = cross(along, subtract(points[c], first));
  const [d, volume] = farthest((point) => Math.abs(dot(normal, subtract(point, first))));
  return volume > FLAT * size * length(normal) ? { size, corners: [0, b, c, d] as const } : null;
}

function nudged(points: readonly Vec3[], size: number, seed: number): readonly Vec3[] {
  const random = seededRandom(seed);
  const by = () => uniform(random, -NUDGE, NUDGE) * size;
  return points.map(([x, y, z]) => [x + by(), y + by(), z + by()]);
}

function facesOf(points: readonly Vec3[], start: readonly [number, number, number, number]): readonly Face[] {
  const face = (a: number, b: number, c: number): Face => {
    const normal = cross(subtract(points[b], points[a]), subtract(points[c], points[a]));
    return { corners: [a, b, c], normal, constant: dot(normal, points[a]) };
  };
  const sees = (n: number, { normal, constant }: Face) => dot(normal, points[n]) > constant;
  const [a, b, c, d] = start;
  let faces = [
    [a, b, c, d],
    [a, b, d, c],
    [a, c, d, b],
    [b, c, d, a],
  ].map(([p, q, r, inside]) => {
    const outward = face(p, q, r);
    return sees(inside, outward) ? face(p, r, q) : outward;
  });
  for (let n = 0; n < points.length; n++) {
    if (start.includes(n)) continue;
    const seen = faces.filter((own) => sees(n, own));
    if (seen.length === 0) continue;
    const rim = new Map<string, readonly [number, number]>();
    for (const { corners } of seen)
      for (let k = 0; k < 3; k++) {
        const [from, to] = [corners[k], corners[(k + 1) % 3]];
        if (!rim.delete(`${to},${from}`)) rim.set(`${from},${to}`, [from, to]);
      }
    faces = [...faces.filter((own) => !sees(n, own)), ...Array.from(rim.values(), ([from, to]) => face(from, to, n))];
  }
  return faces;
}

/** Whether every edge is walked once each way. */
function isClosed(faces: readonly Face[]): boolean {
  const edges = new Set<string>();
  for (const { corners } of faces)
    for (let k = 0; k < 3; k++) {
      const edge = `${corners[k]},${corners[(k + 1) % 3]}`;
      if (edges.has(edge)) return false;
      edges.add(edge);
    }
  for (const edge of edges) if (!edges.has(edge.split(',').reverse().join())) return false;
  return true;
}
