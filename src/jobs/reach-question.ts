import type { MechanismSpec } from '../kinematics/mechanism.ts';
import type { Mat3 } from '../math/rotation.ts';

/** A layout and the orientation at which its reach is wanted. Plain data: it crosses to the worker as it is. */
export interface ReachQuestion {
  readonly spec: MechanismSpec;
  readonly R_BP: Mat3;
}

/** Orientations within `tilt` of level in any direction and within `yaw` either way [rad]. */
export interface TiltRange {
  readonly tilt: number;
  readonly yaw: number;
}
