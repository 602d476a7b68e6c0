import type { ClearanceSpec } from '../kinematics/keep-out.ts';
import type { Load } from '../kinematics/load.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import { POSE_NUMBERS, poseNumbers } from '../reach/pose-box.ts';
import { NO_FREE, type Piece, posePiece, scaledPiece } from './piece.ts';

/** The poses that a requirement asks for [mm, rad]. */
export type Region =
  /** All six pose numbers within their half ranges of a pose: all together, or one at a time. */
  | {
      readonly kind: 'box';
      readonly about: PoseAngles;
      readonly half: PoseAngles;
      /** By pose number: the best value of the range is taken at each pose. */
      readonly free: readonly boolean[];
      readonly each: 'together' | 'alone';
    }
  /** Position within an ellipsoid, tilt to any side, turn about the platform's own axis. */
  | {
      readonly kind: 'round';
      readonly about: PoseAngles;
      readonly semiAxes: readonly [number, number, number];
      readonly tilt: number;
      readonly yaw: number;
    }
  | { readonly kind: 'poses'; readonly poses: readonly PoseAngles[] };

/** What a requirement must keep besides the stroke and the joints [mm, rad, N]; left out: not asked for. */
export interface TaskLimits {
  readonly condition?: number;
  readonly firmness?: number;
  readonly toolError?: number;
  readonly stiffness?: number;
  /** Of any leg, pushing or pulling. */
  readonly legForce?: number;
  readonly leastPush?: number;
  /** What a joint holds before it lets go. */
  readonly jointPull?: number;
  readonly clearance?: number;
  /** Reserves at the ends of the stroke and at the joints. */
  readonly shortMargin?: number;
  readonly longMargin?: number;
  readonly baseMargin?: number;
  readonly platformMargin?: number;
}

/** A push of given size in any direction at the tool point: force [N] and torque [N mm]. */
export interface AnyPush {
  readonly force: number;
  readonly torque: number;
}

/** One thing the platform must be able to do. */
export interface Requirement {
  readonly name: string;
  readonly must: boolean;
  readonly region: Region;
  readonly limits: TaskLimits;
  readonly load: Load;
  readonly push: AnyPush;
  readonly clearance: ClearanceSpec;
}

/** The connected parts of a region; their union is the region. */
export function piecesOf(region: Region): readonly Piece[] {
  switch (region.kind) {
    case 'poses':
      return region.poses.map(posePiece);
    case 'round': {
      const { about, semiAxes, tilt, yaw } = region;
      const half = Float64Array.of(...semiAxes, tilt, tilt, yaw);
      return [{ kind: 'round', centre: poseNumbers(about), half, free: NO_FREE }];
    }
    case 'box': {
      const centre = poseNumbers(region.about);
      const half = poseNumbers(region.half);
      const { free, each } = region;
      if (each === 'together') return [{ kind: 'box', centre, half, free }];
      // one at a time; what is chosen freely stays free beside each
      const axes = Array.from({ length: POSE_NUMBERS }, (_, n) => n).filter((n) => half[n] > 0 && !free[n]);
      const only = (axis: number): Piece => ({
        kind: 'box',
        centre,
        half: half.map((entry, n) => (n === axis || free[n] ? entry : 0)),
        free,
      });
      return axes.length > 0 ? axes.map(only) : [only(0)];
    }
  }
}

/** The parts of a region scaled about its centre; a list of poses has none and comes back null. */
export const scaledPieces = (region: Region, factor: number): readonly Piece[] | null =>
  region.kind === 'poses' ? null : piecesOf(region).map((piece) => scaledPiece(piece, factor));
