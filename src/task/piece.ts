import type { PoseAngles } from '../kinematics/pose.ts';
import { anglesFromRotation, type Mat3, rotationFromAngles } from '../math/rotation.ts';
import { anglesFromNumbers, POSE_NUMBERS } from '../reach/pose-box.ts';

/**
 * One connected part of a region of poses, as the image of a simple set of six shares:
 *
 * - `box`: every pose number within `half` of `centre`; shares are in [-1, 1] each.
 * - `round`: position within an ellipsoid of semi-axes `half[0..2]`; tilt by at most `half[3]` to any side of the platform's own
 *   axis at the centre; turn about that axis within `half[5]`. Position shares fill a ball, tilt shares (3 and 4) a disc.
 *   `R = R_centre Tilt(azimuth, angle) Rz(turn)` with `Tilt = Rz(azimuth) Ry(angle) Rz(-azimuth)`.
 */
export interface Piece {
  readonly kind: 'box' | 'round';
  /** Six pose numbers: x, y, z [mm], roll, pitch, yaw [rad]. */
  readonly centre: Float64Array;
  /** Half ranges in the same order; of a round piece 3 and 4 are both the cone's half angle and 5 is the turn. */
  readonly half: Float64Array;
  /** Shares that are chosen freely: the best is taken at each pose. All false where every pose counts. */
  readonly free: readonly boolean[];
}

/** A pose that is written into again and again. */
export interface MutablePose {
  readonly p_BoTo_B: [number, number, number];
  readonly R_BP: Mat3;
}

export const newPose = (): MutablePose => ({ p_BoTo_B: [0, 0, 0], R_BP: new Float64Array(9) });

/** Whether a piece has axes of which the best is taken. */
export const hasFreeAxes = ({ free }: Piece): boolean => free.some(Boolean);

/** Brings shares back into the piece's set: each within [-1, 1], of a round piece position within the ball and tilt within the disc. */
export function clampShares({ kind }: Piece, shares: Float64Array): void {
  if (kind === 'box') {
    for (let n = 0; n < POSE_NUMBERS; n++) shares[n] = Math.min(Math.max(shares[n], -1), 1);
    return;
  }
  const far = Math.sqrt(shares[0] ** 2 + shares[1] ** 2 + shares[2] ** 2);
  if (far > 1) for (let n = 0; n < 3; n++) shares[n] /= far;
  const tilt = Math.sqrt(shares[3] ** 2 + shares[4] ** 2);
  if (tilt > 1) for (let n = 3; n < 5; n++) shares[n] /= tilt;
  shares[5] = Math.min(Math.max(shares[5], -1), 1);
}

/** Poses of a piece by their shares, without allocation. */
export class PieceMap {
  readonly piece: Piece;
  private readonly centreRotation: Mat3;

  constructor(piece: Piece) {
    this.piece = piece;
    this.centreRotation = rotationFromAngles(anglesFromNumbers(piece.centre));
  }

  write(shares: Float64Array, pose: MutablePose): void {
    const { kind, centre: c, half: h } = this.piece;
    for (let axis = 0; axis < 3; axis++) pose.p_BoTo_B[axis] = c[axis] + h[axis] * shares[axis];
    if (kind === 'box') {
      writeRotation(pose.R_BP, c[3] + h[3] * shares[3], c[4] + h[4] * shares[4], c[5] + h[5] * shares[5]);
      return;
    }
    const share = Math.sqrt(shares[3] ** 2 + shares[4] ** 2);
    const azimuth = share > 0 ? Math.atan2(shares[4], shares[3]) : 0;
    writeTilted(pose.R_BP, this.centreRotation, azimuth, share * h[3], h[5] * shares[5]);
  }

  /** The pose as people write it. */
  angles(shares: Float64Array): PoseAngles {
    const { kind, centre, half } = this.piece;
    if (kind === 'box') return anglesFromNumbers(centre.map((middle, n) => middle + half[n] * shares[n]));
    const pose = newPose();
    this.write(shares, pose);
    return { position: [...pose.p_BoTo_B], ...anglesFromRotation(pose.R_BP) };
  }
}

/** R = Rz(yaw) Ry(pitch) Rx(roll), into an array that is there already. */
export function writeRotation(R: Mat3, roll: number, pitch: number, yaw: number): void {
  const cr = Math.cos(roll);
  const sr = Math.sin(roll);
  const cp = Math.cos(pitch);
  const sp = Math.sin(pitch);
  const cy = Math.cos(yaw);
  const sy = Math.sin(yaw);
  R[0] = cy * cp;
  R[1] = cy * sp * sr - sy * cr;
  R[2] = cy * sp * cr + sy * sr;
  R[3] = sy * cp;
  R[4] = sy * sp * sr + cy * cr;
  R[5] = sy * sp * cr - cy * sr;
  R[6] = -sp;
  R[7] = cp * sr;
  R[8] = cp * cr;
}

const local = new Float64Array(9);

/** R = R0 Rz(azimuth) Ry(angle) Rz(turn - azimuth). */
export function writeTilted(R: Mat3, R0: Mat3, azimuth: number, angle: number, turn: number): void {
  const ca = Math.cos(azimuth);
  const sa = Math.sin(azimuth);
  const ct = Math.cos(angle);
  const st = Math.sin(angle);
  const cb = Math.cos(turn - azimuth);
  const sb = Math.sin(turn - azimuth);
  local[0] = ca * ct * cb - sa * sb;
  local[1] = -ca * ct * sb - sa * cb;
  local[2] = ca * st;
  local[3] = sa * ct * cb + ca * sb;
  local[4] = -sa * ct * sb + ca * cb;
  local[5] = sa * st;
  local[6] = -st * cb;
  local[7] = st * sb;
  local[8] = ct;
  for (let row = 0; row < 9; row += 3)
    for (let column = 0; column < 3; column++)
      R[row + column] = R0[row] * local[column] + R0[row + 1] * local[3 + column] + R0[row + 2] * local[6 + column];
}

/** The piece scaled about its centre; what is chosen freely keeps its range, since nothing is asked of it. */
export const scaledPiece = (piece: Piece, factor: number): Piece => ({
  ...piece,
  half: piece.half.map((half, n) => (piece.free[n] ? half : factor * half)),
});

/** A piece of one pose. */
export const posePiece = (pose: PoseAngles): Piece => ({
  kind: 'box',
  centre: Float64Array.of(...pose.position, pose.roll, pose.pitch, pose.yaw),
  half: new Float64Array(POSE_NUMBERS),
  free: NO_FREE,
});

/** No axis is chosen freely. */
export const NO_FREE: readonly boolean[] = Array.from({ length: POSE_NUMBERS }, () => false);
