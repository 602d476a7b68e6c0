import { type DriveLimits, type DriveSpec, driveForce, rotorMass } from '../../kinematics/drive.ts';
import { InverseDynamics, type Moment } from '../../kinematics/dynamics.ts';
import { type JointShapes, jointShapes } from '../../kinematics/joint-limits.ts';
import { jointMargin } from '../../kinematics/joint-shapes.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { LegMasses } from '../../kinematics/leg-masses.ts';
import type { Load } from '../../kinematics/load.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { MOTION_LIMITS } from './limits.ts';

/** Everything that a motion asks the design to be judged by. */
export interface MovingDesign {
  readonly mechanism: Mechanism;
  readonly load: Load;
  readonly masses: LegMasses;
  readonly drive: DriveSpec;
  readonly limits: DriveLimits;
}

/** What is read of every leg, in the order of the columns; each six numbers, leg 1 first. */
export const LEG_READINGS = ['length', 'speed', 'acceleration', 'force', 'driveForce', 'power'] as const;

export type LegReading = (typeof LEG_READINGS)[number];

/** Readings of all legs and what is left to every limit at one moment; one object serves a whole motion. */
export class LegReadings {
  /** {@link LEG_READINGS} times six: mm, mm/s, mm/s^2, N, N, W. */
  readonly values = new Float64Array(LEG_READINGS.length * LEG_COUNT);
  /** {@link MOTION_LIMITS} times six: room left, negative past the limit [mm, mm, rad, rad, mm/s, mm/s^2, N, N, W]. */
  readonly margins = new Float64Array(MOTION_LIMITS.length * LEG_COUNT);
  /** Sign of the Jacobian's determinant: it changes where the motion passes a singular pose. */
  sign = 0;

  private readonly design: MovingDesign;
  private readonly dynamics: InverseDynamics;
  private readonly shapes: JointShapes;
  private readonly mass: number;

  constructor(design: MovingDesign) {
    this.design = design;
    this.dynamics = new InverseDynamics(design.mechanism, design.load, design.masses);
    this.shapes = jointShapes(design.mechanism);
    this.mass = rotorMass(design.drive);
  }

  /** Reads one moment. */
  read(moment: Moment): void {
    const { dynamics, design, values, margins } = this;
    const { legs } = design.mechanism;
    const { limits, drive } = design;
    dynamics.at(moment);
    this.sign = Math.sign(dynamics.determinant());
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const length = dynamics.lengths[leg];
      const speed = dynamics.speeds[leg];
      const acceleration = dynamics.accelerations[leg];
      const force = dynamics.forces[leg];
      const given = driveForce(drive, this.mass, force, speed, acceleration);
      const power = (given * speed) / 1000;
      values[leg] = length;
      values[LEG_COUNT + leg] = speed;
      values[2 * LEG_COUNT + leg] = acceleration;
      values[3 * LEG_COUNT + leg] = force;
      values[4 * LEG_COUNT + leg] = given;
      values[5 * LEG_COUNT + leg] = power;
      margins[leg] = length - legs.min;
      margins[LEG_COUNT + leg] = legs.max - length;
      margins[4 * LEG_COUNT + leg] = limits.speed - Math.abs(speed);
      margins[5 * LEG_COUNT + leg] = limits.acceleration - Math.abs(acceleration);
      margins[6 * LEG_COUNT + leg] = limits.push - force;
      margins[7 * LEG_COUNT + leg] = limits.pull + force;
      margins[8 * LEG_COUNT + leg] = limits.power - power;
    }
    this.readJoints(moment.pose.R_BP);
  }

  private readJoints(R: Float64Array): void {
    const { dynamics, shapes, margins } = this;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const i = 3 * leg;
      const inverse = 1 / dynamics.lengths[leg];
      const x = dynamics.vectors[i] * inverse;
      const y = dynamics.vectors[i + 1] * inverse;
      const z = dynamics.vectors[i + 2] * inverse;
      const d_B: Vec3 = [x, y, z];
      // the platform joint sees the leg come from the other side, in the platform's axes
      const d_P: Vec3 = [
        -(R[0] * x + R[3] * y + R[6] * z),
        -(R[1] * x + R[4] * y + R[7] * z),
        -(R[2] * x + R[5] * y + R[8] * z),
      ];
      margins[2 * LEG_COUNT + leg] = jointMargin(shapes.base[leg], d_B);
      margins[3 * LEG_COUNT + leg] = jointMargin(shapes.platform[leg], d_P);
    }
  }
}
