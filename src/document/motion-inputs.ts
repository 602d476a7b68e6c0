import { type DriveLimits, type DriveSpec, IDEAL_DRIVE } from '../kinematics/drive.ts';
import type { LegMasses } from '../kinematics/leg-masses.ts';
import type { DesignContent } from './design.ts';

/** What a design says of its legs as machines; whatever it leaves out weighs nothing and limits nothing. */
export interface MotionInputs {
  readonly masses: LegMasses;
  readonly drive: DriveSpec;
  readonly limits: DriveLimits;
}

const UNLIMITED = Number.POSITIVE_INFINITY;

/** Reads them from a design. */
export function motionInputs({ legs }: DesignContent): MotionInputs {
  return {
    masses: {
      barrelMass: legs.barrelMass_kg ?? 0,
      barrelCentre: legs.barrelCentre_mm ?? 0,
      barrelInertia: legs.barrelInertia_kg_mm2 ?? 0,
      rodMass: legs.rodMass_kg ?? 0,
      rodCentre: legs.rodCentre_mm ?? 0,
      rodInertia: legs.rodInertia_kg_mm2 ?? 0,
    },
    drive: {
      friction: legs.friction_N ?? IDEAL_DRIVE.friction,
      efficiency: legs.screwEfficiency ?? IDEAL_DRIVE.efficiency,
      rotorInertia: legs.rotorInertia_kg_mm2 ?? IDEAL_DRIVE.rotorInertia,
      // a lead of 0 is no screw
      lead: legs.screwLead_mm ? Math.abs(legs.screwLead_mm) : null,
    },
    limits: {
      speed: legs.speed_mm_s ?? UNLIMITED,
      acceleration: legs.acceleration_mm_s2 ?? UNLIMITED,
      push: legs.push_N ?? UNLIMITED,
      pull: legs.pull_N ?? UNLIMITED,
      power: legs.power_W ?? UNLIMITED,
    },
  };
}

/** What is odd about the legs as machines, one sentence each: nothing here is refused for it. */
export function motionFindings({ legs }: DesignContent): readonly string[] {
  const findings: string[] = [];
  const barrel = legs.barrelLength_mm ?? legs.min_mm - legs.rodDiameter_mm;
  const outside = (part: string, centre: number | undefined, length: number, mass: number | undefined): void => {
    if (mass && centre !== undefined && !(centre >= 0 && centre <= length))
      findings.push(
        `The mass centre of the ${part} lies outside of it: ${centre} mm of 0 to ${Number(length.toFixed(3))} mm.`,
      );
  };
  outside('barrel', legs.barrelCentre_mm, barrel, legs.barrelMass_kg);
  outside('rod', legs.rodCentre_mm, legs.max_mm, legs.rodMass_kg);
  if (legs.rotorInertia_kg_mm2 && !legs.screwLead_mm)
    findings.push('legs.rotorInertia_kg_mm2 counts nothing without legs.screwLead_mm.');
  return findings;
}
