import { Matrix3, Quaternion, Vector3 } from 'three';
import type { JointCentres } from '../../src/kinematics/layout.ts';
import type { Pose } from '../../src/kinematics/pose.ts';
import { type Random, randomQuaternion, uniform } from '../../src/math/random.ts';
import { rotationFromQuaternion, type Quaternion as Wxyz } from '../../src/math/rotation.ts';

export const DEG = Math.PI / 180;

/** Six points on a circle in the plane z = 0, flat 18. */
export const onCircle = (radius: number, angles_deg: readonly number[]): Float64Array =>
  Float64Array.from(angles_deg.flatMap((angle) => [radius * Math.cos(angle * DEG), radius * Math.sin(angle * DEG), 0]));

/** Two rings of three pairs by their gaps [deg], numbered as the trade's layout is. */
export function pairedRings(radius: number, gap: number, platformRadius: number, platformGap: number): JointCentres {
  const g = gap / 2;
  const p = platformGap / 2;
  return {
    base: onCircle(radius, [-g, g, 120 - g, 120 + g, 240 - g, 240 + g]),
    platform: onCircle(platformRadius, [-60 + p, 60 - p, 60 + p, 180 - p, 180 + p, 300 - p]),
  };
}

/** Rings 100 and 70, gaps 20/20; home is 150 up. */
export const REFERENCE = pairedRings(100, 20, 70, 20);
export const HOME: Pose = { p_BoTo_B: [0, 0, 150], R_BP: rotationFromQuaternion([1, 0, 0, 0]) };

/** Random joints in a cube of half edge 1, or in its plane z = 0. */
export function randomCentres(random: Random, flat = false): JointCentres {
  const cloud = () => Float64Array.from({ length: 18 }, (_, i) => (flat && i % 3 === 2 ? 0 : uniform(random, -1, 1)));
  return { base: cloud(), platform: cloud() };
}

/** A pose anywhere about a layout of size 1, any rotation. */
export const randomAnyPose = (random: Random): Pose => ({
  p_BoTo_B: [uniform(random, -1, 1), uniform(random, -1, 1), uniform(random, -2, 2)],
  R_BP: rotationFromQuaternion(randomQuaternion(random)),
});

/** Six lengths of a pose by three's own classes: a second implementation, sharing nothing with the program's. */
export function lengthsByThree(centres: JointCentres, pose: Pose, tool: readonly number[] = [0, 0, 0]): Float64Array {
  const R = new Matrix3().fromArray(Array.from(pose.R_BP)).transpose();
  const offset = new Vector3().fromArray(tool);
  const at = new Vector3().fromArray(pose.p_BoTo_B);
  return Float64Array.from({ length: 6 }, (_, leg) => {
    const joint = new Vector3().fromArray(centres.platform, 3 * leg).sub(offset);
    return joint
      .applyMatrix3(R)
      .add(at)
      .distanceTo(new Vector3().fromArray(centres.base, 3 * leg));
  });
}

/** Largest |length - asked| / asked over the six legs. */
export function worstLength(
  centres: JointCentres,
  pose: Pose,
  asked: ArrayLike<number>,
  tool?: readonly number[],
): number {
  const lengths = lengthsByThree(centres, pose, tool);
  return Math.max(...Array.from(lengths, (length, leg) => Math.abs(length - asked[leg]) / asked[leg]));
}

/** Distance of two poses: translation plus largest difference of a rotation matrix entry. */
export function poseGap(a: Pose, b: Pose): number {
  const shift = Math.hypot(...a.p_BoTo_B.map((value, i) => value - b.p_BoTo_B[i]));
  return shift + Math.max(...Array.from(a.R_BP, (value, i) => Math.abs(value - b.R_BP[i])));
}

export const poseAt = (position: readonly [number, number, number], [w, x, y, z]: Wxyz): Pose => {
  const unit = new Quaternion(x, y, z, w).normalize();
  return { p_BoTo_B: position, R_BP: rotationFromQuaternion([unit.w, unit.x, unit.y, unit.z]) };
};

/** The largest |entry of R^T R - I|, and det R - 1. */
export function rotationError(R: Float64Array): number {
  const M = new Matrix3().fromArray(Array.from(R));
  const product = M.clone().transpose().multiply(M).elements;
  const off = product.map((value, i) => Math.abs(value - (i % 4 === 0 ? 1 : 0)));
  return Math.max(...off, Math.abs(M.determinant() - 1));
}
