import type { ChangedPart, PartChange, TaskSetting } from '../task/what-would-do.ts';
import { inRange } from '../terms/number-range.ts';
import type { Floor } from '../terms/quantities.ts';
import { degrees } from '../terms/units.ts';
import type { DesignContent, PlateDocument } from './design.ts';
import { judgementInputs } from './judgement-inputs.ts';
import { RANGES } from './ranges.ts';
import { requirementsOf, taskPartsOf } from './task-inputs.ts';
import { mechanismFromDocument } from './units.ts';

/** A design as far as its task is judged by it. */
export function taskSettingOf(design: DesignContent, floors?: readonly Floor[]): TaskSetting {
  const mechanism = mechanismFromDocument(design);
  return {
    mechanism,
    parts: taskPartsOf(design, judgementInputs(design, mechanism)),
    requirements: requirementsOf(design, mechanism, floors),
  };
}

/** Dead length of the actuators [mm]: as the design says, else what a telescoping one of its lengths has. */
export const deadLengthOf = ({ parts, legs }: DesignContent): number =>
  parts?.deadLength_mm ?? 2 * legs.min_mm - legs.max_mm;

/** Paths of the numbers that a changed plate changes; what is locked stays. */
const PLATE_PATHS: Readonly<Partial<Record<ChangedPart, string>>> = {
  basePlate: 'base.ring.radius_mm',
  platformPlate: 'platform.ring.radius_mm',
};

/** The design with one part changed; null where the part has no such value, or a plate is locked. */
export function withPart(design: DesignContent, { part, value }: PartChange): DesignContent | null {
  const path = PLATE_PATHS[part];
  if (path !== undefined && design.parts?.locked?.includes(path)) return null;
  switch (part) {
    case 'actuator': {
      const dead = deadLengthOf(design);
      const [min_mm, max_mm] = [dead + value, dead + 2 * value];
      if (!inRange(min_mm, RANGES.min_mm) || !inRange(max_mm, RANGES.max_mm)) return null;
      // a barrel of its own length belonged to the actuator that was taken out
      const { barrelLength_mm: _, ...legs } = design.legs;
      return { ...design, legs: { ...legs, min_mm, max_mm } };
    }
    case 'baseJoint':
      return withTilt(design, 'base', value);
    case 'platformJoint':
      return withTilt(design, 'platform', value);
    case 'basePlate': {
      const base = withRadius(design.base, value);
      return base && { ...design, base };
    }
    case 'platformPlate': {
      const platform = withRadius(design.platform, value);
      return platform && { ...design, platform };
    }
  }
}

function withTilt(design: DesignContent, plate: 'base' | 'platform', value: number): DesignContent | null {
  const tilt_deg = degrees(value);
  if (!inRange(tilt_deg, RANGES.tilt_deg)) return null;
  return { ...design, joints: { ...design.joints, [plate]: { ...design.joints[plate], tilt_deg } } };
}

function withRadius(plate: PlateDocument, radius_mm: number): PlateDocument | null {
  if (!('ring' in plate) || !inRange(radius_mm, RANGES.radius_mm)) return null;
  return { ring: { ...plate.ring, radius_mm } };
}
