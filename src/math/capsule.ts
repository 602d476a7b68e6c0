/**
 * Below this share of |d1|^2 |d2|^2 the squared sine between two segments is mostly rounding (it is a difference of
 * products, good to some 1e-16 of them), so the ends are tried as well as the crossing.
 */
const NEARLY_PARALLEL = 1e-10;

/**
 * Exact distance between two segments P0P1 and Q0Q1, each given as six numbers (x y z x y z) at an offset of a flat array.
 *
 * The squared distance is convex in the two positions along the segments, so its minimum is either where both derivatives
 * vanish, or with one position at an end: then it is the distance of that end from the other segment. Two equal capsules
 * are as far apart as their segments less both radii.
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
  let bestS = 0;
  let bestT = 0;
  let best = Number.POSITIVE_INFINITY;
  // the crossing of the two lines' common normal
  if (determinant > 0) {
    const s = (b * f - c * e) / determinant;
    const t = (a * f - b * c) / determinant;
    if (s >= 0 && s <= 1 && t >= 0 && t <= 1) {
      best = squareAt(s, t, rx, ry, rz, d1x, d1y, d1z, d2x, d2y, d2z);
      bestS = s;
      bestT = t;
      if (determinant > NEARLY_PARALLEL * a * e) {
        if (closest) writeClosest(closest, P, p, Q, q, s, t);
        return Math.sqrt(best);
      }
    }
  }
  // each of the four ends against the other segment
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
    const square = squareAt(s, t, rx, ry, rz, d1x, d1y, d1z, d2x, d2y, d2z);
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

function squareAt(
  s: number,
  t: number,
  rx: number,
  ry: number,
  rz: number,
  d1x: number,
  d1y: number,
  d1z: number,
  d2x: number,
  d2y: number,
  d2z: number,
): number {
  const x = rx + s * d1x - t * d2x;
  const y = ry + s * d1y - t * d2y;
  const z = rz + s * d1z - t * d2z;
  return x * x + y * y + z * z;
}

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
