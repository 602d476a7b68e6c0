/** A 3-vector as a tuple; the unit is the caller's. */
export type Vec3 = readonly [number, number, number];

/** a + b */
export const add = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

/** a - b */
export const subtract = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** factor * a */
export const scale = (a: Vec3, factor: number): Vec3 => [a[0] * factor, a[1] * factor, a[2] * factor];

/** a . b */
export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** a x b */
export const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Euclidean length, safe against overflow. */
export const length = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);

/** a / |a|; the zero vector comes back as it is, since it has no direction. */
export const unit = (a: Vec3): Vec3 => {
  const size = length(a);
  return size === 0 ? a : scale(a, 1 / size);
};

/**
 * Angle between two vectors of any length [rad, 0 to pi], accurate near 0 and pi where acos is not.
 * atan2(|a x b|, a . b).
 */
export const angleBetween = (a: Vec3, b: Vec3): number => Math.atan2(length(cross(a, b)), dot(a, b));

/** Reads the vector that starts at `3 * index` of a flat array. */
export const at = (flat: ArrayLike<number>, index: number): Vec3 => [
  flat[3 * index],
  flat[3 * index + 1],
  flat[3 * index + 2],
];

/** Writes a vector at `3 * index` of a flat array. */
export const put = (flat: Float64Array, index: number, a: Vec3): void => {
  flat[3 * index] = a[0];
  flat[3 * index + 1] = a[1];
  flat[3 * index + 2] = a[2];
};
