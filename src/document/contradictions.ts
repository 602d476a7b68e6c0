import { meanJointRadius, type PlateName } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { at, length, subtract } from '../math/vec3.ts';
import type { DesignContent, DesignDocument } from './design.ts';
import { type DesignFault, fault } from './faults.ts';
import { judgementFaults } from './judgement-contradictions.ts';
import { RANGES } from './ranges.ts';
import { taskFaults } from './task-contradictions.ts';
import { mechanismFromDocument } from './units.ts';

/**
 * Joints closer than this share of their plate's mean joint radius are one joint. Rounding of the same joint computed from two gaps
 * leaves some 1e-16; the nearest joints that a workshop can tell apart are a thousandth of a millimetre, some 1e-5.
 */
export const SAME_JOINT = 1e-9;

/** What no field shows alone, in the design and its snapshots: fields that are each within limits and yet cannot stand together. */
export const contradictions = (document: DesignDocument): readonly DesignFault[] => [
  ...contentFaults(document, ''),
  ...(document.snapshots ?? []).flatMap(({ design }, index) => contentFaults(design, `snapshots[${index}].design.`)),
];

/** @param place path of the design in its file, with the dot that follows; empty for the file's own design */
function contentFaults(design: DesignContent, place: string): readonly DesignFault[] {
  const mechanism = mechanismFromDocument(design);
  const faults = [
    legRange(design, place),
    heapedJoints(design, place, mechanism, 'base'),
    heapedJoints(design, place, mechanism, 'platform'),
    sharedLegs(design, place, mechanism),
    ...judgementFaults(design, place, mechanism),
    ...taskFaults(design, place),
  ];
  return faults.filter((found) => found !== null);
}

function legRange({ legs: { min_mm, max_mm } }: DesignContent, place: string): DesignFault | null {
  if (min_mm < max_mm) return null;
  const limit = `below ${place}legs.max_mm, which is ${max_mm}`;
  const remedy = `Lower it below ${max_mm}, or raise ${place}legs.max_mm above ${min_mm}.`;
  return fault('contradiction', `${place}legs.min_mm`, String(min_mm), limit, remedy);
}

/** A plate whose joints all stand in one place has no radius, and the platform turns freely about that place. */
function heapedJoints(
  design: DesignContent,
  place: string,
  mechanism: Mechanism,
  plate: PlateName,
): DesignFault | null {
  if (!('points_mm' in design[plate])) return null;
  const smallest = RANGES.radius_mm.min;
  if (meanJointRadius(mechanism.centres[plate]) >= smallest) return null;
  const limit = `spread ${smallest} mm or more from its centre`;
  return fault(
    'contradiction',
    `${place}${plate}.points_mm`,
    'six joints in one place',
    limit,
    'Move the joints apart.',
  );
}

/** Two legs between the same two joints are one leg. Joints that share one end only are allowed. */
function sharedLegs(design: DesignContent, place: string, mechanism: Mechanism): DesignFault | null {
  const { base, platform } = mechanism.centres;
  const together = (joints: Float64Array, one: number, other: number): boolean =>
    length(subtract(at(joints, one), at(joints, other))) <= SAME_JOINT * meanJointRadius(joints);
  const pairs: string[] = [];
  for (let one = 0; one < 6; one++) {
    for (let other = one + 1; other < 6; other++) {
      if (together(base, one, other) && together(platform, one, other)) pairs.push(`${one + 1} and ${other + 1}`);
    }
  }
  if (pairs.length === 0) return null;
  const plate = design.platform;
  const value = 'ring' in plate ? String(plate.ring.gap_deg) : 'a list of 6';
  const path = `${place}platform.${'ring' in plate ? 'ring.gap_deg' : 'points_mm'}`;
  const limit = `such that no two legs share both ends, as legs ${pairs.join(', ')} do`;
  const remedy = 'Move one of their joints: change a pair gap, a turn, the holes or a point on either plate.';
  return fault('contradiction', path, value, limit, remedy);
}
