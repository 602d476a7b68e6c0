import type { Vec3 } from './vec3.ts';

/** A 3x3 matrix, row-major, 9 entries. */
export type Mat3 = Float64Array;

/** Fixed-axis angles [rad]: turn about x by roll, then about y by pitch, then about z by yaw. */
export interface Angles {
  readonly roll: number;
  readonly pitch: number;
  readonly yaw: number;
}

/** Unit quaternion in the order w, x, y, z. */
export type Quaternion = readonly [number, number, number, number];

/** The 3x3 identity. */
export const identity3 = (): Mat3 => Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);

/** R = Rz(yaw) Ry(pitch) Rx(roll). */
export function rotationFromAngles({ roll, pitch, yaw }: Angles): Mat3 {
  const cr = Math.cos(roll);
  const sr = Math.sin(roll);
  const cp = Math.cos(pitch);
  const sp = Math.sin(pitch);
  const cy = Math.cos(yaw);
  const sy = Math.sin(yaw);
  return Float64Array.of(
    cy * cp,
    cy * sp * sr - sy * cr,
    cy * sp * cr + sy * sr,
    sy * cp,
    sy * sp * sr + cy * cr,
    sy * sp * cr - cy * sr,
    -sp,
    cp * sr,
    cp * cr,
  );
}

/**
 * Within this distance of |sin pitch| = 1 roll and yaw turn about the same line; only their sum means
 * anything, so roll is set to 0. 1e-14 is some fifty rounding errors: R's entries carry a few each.
 */
export const GIMBAL_MARGIN = 1e-14;

/** Inverse of {@link rotationFromAngles}; pitch in [-pi/2, pi/2], roll and yaw in (-pi, pi]. */
export function anglesFromRotation(R: Mat3): Angles {
  const sinPitch = -R[6];
  const cosPitch = Math.hypot(R[0], R[3]);
  const pitch = Math.atan2(sinPitch, cosPitch);
  if (1 - Math.abs(sinPitch) < GIMBAL_MARGIN) {
    return { roll: 0, pitch, yaw: Math.atan2(-R[1], R[4]) };
  }
  return { roll: Math.atan2(R[7], R[8]), pitch, yaw: Math.atan2(R[3], R[0]) };
}

/** Rotation matrix of a quaternion of any non-zero length (it is normalised here). */
export function rotationFromQuaternion([w, x, y, z]: Quaternion): Mat3 {
  const s = 2 / (w * w + x * x + y * y + z * z);
  return Float64Array.of(
    1 - s * (y * y + z * z),
    s * (x * y - w * z),
    s * (x * z + w * y),
    s * (x * y + w * z),
    1 - s * (x * x + z * z),
    s * (y * z - w * x),
    s * (x * z - w * y),
    s * (y * z + w * x),
    1 - s * (x * x + y * y),
  );
}

/**
 * Unit quaternion of a rotation matrix, w >= 0.
 * Takes the largest of the four diagonal combinations as the pivot, so no division is by a small number.
 */
export function quaternionFromRotation(R: Mat3): Quaternion {
  const trace = R[0] + R[4] + R[8];
  let q: [number, number, number, number];
  if (trace >= R[0] && trace >= R[4] && trace >= R[8]) {
    q = [1 + trace, R[7] - R[5], R[2] - R[6], R[3] - R[1]];
  } else if (R[0] >= R[4] && R[0] >= R[8]) {
    q = [R[7] - R[5], 1 + R[0] - R[4] - R[8], R[1] + R[3], R[2] + R[6]];
  } else if (R[4] >= R[8]) {
    q = [R[2] - R[6], R[1] + R[3], 1 - R[0] + R[4] - R[8], R[5] + R[7]];
  } else {
    q = [R[3] - R[1], R[2] + R[6], R[5] + R[7], 1 - R[0] - R[4] + R[8]];
  }
  const size = (q[0] < 0 ? -1 : 1) * Math.hypot(q[0], q[1], q[2], q[3]);
  return [q[0] / size, q[1] / size, q[2] / size, q[3] / size];
}

/** Rotation by `angle` [rad] about the unit vector `axis` (Rodrigues). */
export function rotationAbout(axis: Vec3, angle: number): Mat3 {
  const half = angle / 2;
  const s = Math.sin(half);
  return rotationFromQuaternion([Math.cos(half), axis[0] * s, axis[1] * s, axis[2] * s]);
}

/** R v */
export const rotate = (R: Mat3, v: Vec3): Vec3 => [
  R[0] * v[0] + R[1] * v[1] + R[2] * v[2],
  R[3] * v[0] + R[4] * v[1] + R[5] * v[2],
  R[6] * v[0] + R[7] * v[1] + R[8] * v[2],
];

/** R^T v: the same arrow in the axes that R turns from. */
export const rotateBack = (R: Mat3, v: Vec3): Vec3 => [
  R[0] * v[0] + R[3] * v[1] + R[6] * v[2],
  R[1] * v[0] + R[4] * v[1] + R[7] * v[2],
  R[2] * v[0] + R[5] * v[1] + R[8] * v[2],
];

/** A B */
export function multiply3(A: Mat3, B: Mat3): Mat3 {
  const C = new Float64Array(9);
  for (let row = 0; row < 9; row += 3) {
    for (let column = 0; column < 3; column++) {
      C[row + column] = A[row] * B[column] + A[row + 1] * B[3 + column] + A[row + 2] * B[6 + column];
    }
  }
  return C;
}
