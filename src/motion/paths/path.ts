import type { Moment } from '../../kinematics/dynamics.ts';
import { type Angles, type Mat3, rotationFromAngles } from '../../math/rotation.ts';

/** A {@link Moment} whose numbers are written in place. */
export interface WritableMoment extends Moment {
  readonly pose: { readonly p_BoTo_B: [number, number, number]; readonly R_BP: Mat3 };
  readonly velocity: Float64Array;
  readonly acceleration: Float64Array;
  readonly turning: Float64Array;
  readonly turningAcceleration: Float64Array;
}

/** A motion of the tool over a parameter from 0 to its end: time [s], or the way along a geometry. */
export interface Path {
  /** End of the parameter. */
  readonly duration: number;
  /** Writes pose, velocity and acceleration by the parameter; outside [0, duration] those of the nearer end. */
  write(at: number, moment: WritableMoment): void;
}

/** A moment at rest in the base origin, to be written into. */
export const writableMoment = (): WritableMoment => ({
  pose: { p_BoTo_B: [0, 0, 0], R_BP: new Float64Array(9) },
  velocity: new Float64Array(3),
  acceleration: new Float64Array(3),
  turning: new Float64Array(3),
  turningAcceleration: new Float64Array(3),
});

/** Order of the six coordinates of a pose in flat arrays: tool point [mm], then fixed-axis angles [rad]. */
export const COORDINATES = ['x', 'y', 'z', 'roll', 'pitch', 'yaw'] as const;

/**
 * Writes a moment from six coordinates and their first and second derivatives. Rates of the angles become
 * `w = roll' Rz Ry x + pitch' Rz y + yaw' z` (R = Rz Ry Rx; derived by differentiating it).
 * @param q tool point [mm], roll, pitch, yaw [rad]
 */
export function writeCoordinates(q: Float64Array, dq: Float64Array, ddq: Float64Array, moment: WritableMoment): void {
  const { pose, velocity, acceleration, turning, turningAcceleration } = moment;
  for (let n = 0; n < 3; n++) {
    pose.p_BoTo_B[n] = q[n];
    velocity[n] = dq[n];
    acceleration[n] = ddq[n];
  }
  const angles: Angles = { roll: q[3], pitch: q[4], yaw: q[5] };
  pose.R_BP.set(rotationFromAngles(angles));
  const [cp, sp, cy, sy] = [Math.cos(q[4]), Math.sin(q[4]), Math.cos(q[5]), Math.sin(q[5])];
  const [r, p, y] = [dq[3], dq[4], dq[5]];
  const [rr, pp, yy] = [ddq[3], ddq[4], ddq[5]];
  turning[0] = cy * cp * r - sy * p;
  turning[1] = sy * cp * r + cy * p;
  turning[2] = y - sp * r;
  turningAcceleration[0] = cy * cp * rr - sy * pp - r * (sy * cp * y + cy * sp * p) - cy * y * p;
  turningAcceleration[1] = sy * cp * rr + cy * pp + r * (cy * cp * y - sy * sp * p) - sy * y * p;
  turningAcceleration[2] = yy - sp * rr - cp * p * r;
}

/** A path given by its six coordinates as functions of the parameter. */
export interface CoordinateMotion {
  readonly duration: number;
  /** Writes six coordinates with first and second derivatives. */
  write(at: number, q: Float64Array, dq: Float64Array, ddq: Float64Array): void;
}

/** The path of a coordinate motion. */
export function pathOfCoordinates(motion: CoordinateMotion): Path {
  const [q, dq, ddq] = [new Float64Array(6), new Float64Array(6), new Float64Array(6)];
  return {
    duration: motion.duration,
    write(at, moment) {
      motion.write(Math.min(motion.duration, Math.max(0, at)), q, dq, ddq);
      writeCoordinates(q, dq, ddq, moment);
    },
  };
}
