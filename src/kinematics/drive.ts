/** What lies between a leg's motor and its rod; the same in all six legs. */
export interface DriveSpec {
  /** Coulomb friction between barrel and rod [N]. */
  readonly friction: number;
  /** Of the screw, above 0 and at most 1. */
  readonly efficiency: number;
  /** Of everything that turns with the screw [kg mm^2]. */
  readonly rotorInertia: number;
  /** Advance of the screw in one turn [mm]; null where there is none: the rotor then counts nothing. */
  readonly lead: number | null;
}

/** A leg without friction, whose motor weighs nothing. */
export const IDEAL_DRIVE: DriveSpec = { friction: 0, efficiency: 1, rotorInertia: 0, lead: null };

/** Limits of the drives, each above 0; infinite where none is stated. */
export interface DriveLimits {
  /** [mm/s] and [mm/s^2] */
  readonly speed: number;
  readonly acceleration: number;
  /** Largest push and pull of a leg, between barrel and rod [N]. */
  readonly push: number;
  readonly pull: number;
  /** Of one leg's motor [W]. */
  readonly power: number;
}

export const NO_DRIVE_LIMITS: DriveLimits = {
  speed: Number.POSITIVE_INFINITY,
  acceleration: Number.POSITIVE_INFINITY,
  push: Number.POSITIVE_INFINITY,
  pull: Number.POSITIVE_INFINITY,
  power: Number.POSITIVE_INFINITY,
};

/** Below this speed [mm/s] a leg counts as standing: its friction then holds either way and is left out. */
export const STANDING_SPEED = 1e-6;

/** The rotor's inertia as a mass that moves with the rod, J (2 pi / lead)^2 [kg]. */
export const rotorMass = ({ rotorInertia, lead }: DriveSpec): number =>
  lead === null ? 0 : rotorInertia * ((2 * Math.PI) / lead) ** 2;

/**
 * Force that the motor gives, as a force along the leg [N]: what the rod needs, with friction against the motion; divided by the
 * screw's efficiency while the motor drives and times it while the load does; and the rotor's own inertia.
 * @param force between barrel and rod, without friction [N]
 * @param speed of the leg [mm/s]
 * @param acceleration of the leg [mm/s^2]
 */
export function driveForce(drive: DriveSpec, mass: number, force: number, speed: number, acceleration: number): number {
  const standing = Math.abs(speed) < STANDING_SPEED;
  const nut = standing ? force : force + Math.sign(speed) * drive.friction;
  const screw = standing ? nut : nut * speed > 0 ? nut / drive.efficiency : nut * drive.efficiency;
  return screw + (mass * acceleration) / 1000;
}
