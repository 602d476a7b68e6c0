import type { Vec3 } from './vec3.ts';

/** Six numbers of a symmetric 3x3 matrix: xx, yy, zz, xy, xz, yz. */
export type Symmetric3 = readonly [number, number, number, number, number, number];

/** A solid of density 1, in the unit of its coordinates. */
export interface SolidMoments {
  readonly volume: number;
  readonly centroid: Vec3;
  /** Integral of `(x - c) (x - c)^T` over the volume, c the centroid. */
  readonly second: Symmetric3;
}

/** A solid that fills less than this share of the cube on its size is flat; its volume would be rounding. */
const NO_VOLUME = 1e-9;

/**
 * Volume, centroid and second moments inside a closed surface of triangles that all face the same way; null where they enclose nothing.
 *
 * Sums over the tetrahedra between each triangle and one point, with their signs: V = a . (b x c) / 6, V times the centroid
 * = V (a + b + c) / 4, and with s = a + b + c the integral of x x^T = V (s s^T + a a^T + b b^T + c c^T) / 20. Exact for a closed
 * surface (divergence theorem), whatever the point; the middle of the box keeps rounding small.
 * @param triangles flat 9 numbers each
 */
export function solidMoments(triangles: ArrayLike<number>): SolidMoments | null {
  const { low, high } = boxOf(triangles);
  const [mx, my, mz] = [0, 1, 2].map((axis) => (low[axis] + high[axis]) / 2);
  let [volume, x, y, z, xx, yy, zz, xy, xz, yz] = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < triangles.length; i += 9) {
    const [ax, ay, az] = [triangles[i] - mx, triangles[i + 1] - my, triangles[i + 2] - mz];
    const [bx, by, bz] = [triangles[i + 3] - mx, triangles[i + 4] - my, triangles[i + 5] - mz];
    const [cx, cy, cz] = [triangles[i + 6] - mx, triangles[i + 7] - my, triangles[i + 8] - mz];
    const part = (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
    const [sx, sy, sz] = [ax + bx + cx, ay + by + cy, az + bz + cz];
    volume += part;
    x += (part * sx) / 4;
    y += (part * sy) / 4;
    z += (part * sz) / 4;
    const twentieth = part / 20;
    xx += twentieth * (sx * sx + ax * ax + bx * bx + cx * cx);
    yy += twentieth * (sy * sy + ay * ay + by * by + cy * cy);
    zz += twentieth * (sz * sz + az * az + bz * bz + cz * cz);
    xy += twentieth * (sx * sy + ax * ay + bx * by + cx * cy);
    xz += twentieth * (sx * sz + ax * az + bx * bz + cx * cz);
    yz += twentieth * (sy * sz + ay * az + by * bz + cy * cz);
  }
  const size = Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  if (!(Math.abs(volume) > NO_VOLUME * size ** 3)) return null;
  const [u, v, w] = [x / volume, y / volume, z / volume];
  const centroid: Vec3 = [mx + u, my + v, mz + w];
  // parts that face inward and outward in turn can throw the sum out of the body
  if (!centroid.every((value, axis) => value >= low[axis] && value <= high[axis])) return null;
  const sign = Math.sign(volume);
  const second = [xx - x * u, yy - y * v, zz - z * w, xy - x * v, xz - x * w, yz - y * w].map((sum) => sign * sum);
  return {
    volume: Math.abs(volume),
    centroid,
    second: [second[0], second[1], second[2], second[3], second[4], second[5]],
  };
}

function boxOf(triangles: ArrayLike<number>): { readonly low: Vec3; readonly high: Vec3 } {
  const low: [number, number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high: [number, number, number] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < triangles.length; i++) {
    const axis = i % 3;
    low[axis] = Math.min(low[axis], triangles[i]);
    high[axis] = Math.max(high[axis], triangles[i]);
  }
  return { low, high };
}
