/**
 * Below this squared sine two segments count as parallel: the determinant is a difference of products, good to some 1e-16 of
 * them, and where the common normal crosses is no longer known. Taking an end instead costs less than 1e-10 of the length.
 */
const NEARLY_PARALLEL = 1e-10;

/**
 * Exact distance between two segments P0P1 and Q0Q1, each given as six numbers (x y z x y z) at an offset of a flat array.
 *
 * The squared distance is convex in the two positions along the segments, so its minimum is either where both derivatives
 * vanish, or with one position held at an end of its segment (C. Ericson, Real-Time Collision Detection, 5.1.9: from memory).
 * Two capsules are as far apart as their segments less both radii.
 * @param closest when given, receives the two closest points, six numbers
 */
export function segmentDistance(
  P: ArrayLike<number>,
  p: number,
  Q: ArrayLike<number>,
  q: number,
  closest?: Float64Array,
): number {
  const d1x = P[p + 3] - P[p];
  const d1y = P[p + 4] - P[p + 1];
  const d1z = P[p + 5] - P[p + 2];
  const d2x = Q[q + 3] - Q[q];
  const d2y = Q[q + 4] - Q[q + 1];
  const d2z = Q[q + 5] - Q[q + 2];
  const rx = P[p] - Q[q];
  const ry = P[p + 1] - Q[q + 1];
  const rz = P[p + 2] - Q[q + 2];
  const a = d1x * d1x + d1y * d1y + d1z * d1z;
  const e = d2x * d2x + d2y * d2y + d2z * d2z;
  const b = d1x * d2x + d1y * d2y + d1z * d2z;
  const c = d1x * rx + d1y * ry + d1z * rz;
  const f = d2x * rx + d2y * ry + d2z * rz;
  const determinant = a * e - b * b;
  if (determinant > NEARLY_PARALLEL * a * e) {
    // crossing of the common normal, with s held to its segment; then t, and s again where t had to be held
    let s = clamp01((b * f - c * e) / determinant);
    let t = (b * s + f) / e;
    if (t < 0) {
      t = 0;
      s = clamp01(-c / a);
    } else if (t > 1) {
      t = 1;
      s = clamp01((b - c) / a);
    }
    if (closest) writeClosest(closest, P, p, Q, q, s, t);
    const x = rx + s * d1x - t * d2x;
    const y = ry + s * d1y - t * d2y;
    const z = rz + s * d1z - t * d2z;
    return Math.sqrt(x * x + y * y + z * z);
  }
  // parallel as far as can be told: some closest pair has an end in it
  let bestS = 0;
  let bestT = 0;
  let best = Number.POSITIVE_INFINITY;
  for (let end = 0; end < 4; end++) {
    let s: number;
    let t: number;
    if (end < 2) {
      s = end;
      t = e > 0 ? clamp01((f + s * b) / e) : 0;
    } else {
      t = end - 2;
      s = a > 0 ? clamp01((t * b - c) / a) : 0;
    }
    const x = rx + s * d1x - t * d2x;
    const y = ry + s * d1y - t * d2y;
    const z = rz + s * d1z - t * d2z;
    const square = x * x + y * y + z * z;
    if (square < best) {
      best = square;
      bestS = s;
      bestT = t;
    }
  }
  if (closest) writeClosest(closest, P, p, Q, q, bestS, bestT);
  return Math.sqrt(best);
}

const clamp01 = (x: number): number => Math.min(Math.max(x, 0), 1);

function writeClosest(
  to: Float64Array,
  P: ArrayLike<number>,
  p: number,
  Q: ArrayLike<number>,
  q: number,
  s: number,
  t: number,
): void {
  for (let axis = 0; axis < 3; axis++) {
    to[axis] = P[p + axis] + s * (P[p + 3 + axis] - P[p + axis]);
    to[3 + axis] = Q[q + axis] + t * (Q[q + 3 + axis] - Q[q + axis]);
  }
}
