/** The numbers a field of the design file may hold. */
export interface NumberRange {
  readonly min: number;
  readonly max: number;
  /** The lowest value itself is not allowed. */
  readonly aboveMin?: true;
  /** The highest value itself is not allowed. */
  readonly belowMax?: true;
  /** Whole numbers only. */
  readonly whole?: true;
  readonly unit: 'mm' | 'deg' | '';
  /** One sentence for the schema and for whoever edits the file by hand. */
  readonly says: string;
}

/** Shortest length that counts as one [mm]: a micrometre, far below what a workshop can make. */
const SHORTEST = 0.001;

/** Largest ring, 100 m: nothing is built near it, and squares of it keep all their digits. */
const LARGEST_RING = 100_000;

/** Coordinates and leg lengths stay within a kilometre [mm]. */
const FARTHEST = 1_000_000;

const turn = (says: string): NumberRange => ({ min: -360, max: 360, unit: 'deg', says });

/**
 * Every number of the file by its own name: the schema, the messages and the number fields on screen take their limits
 * from here. A name means the same wherever it stands.
 */
export const RANGES = {
  radius_mm: { min: SHORTEST, max: LARGEST_RING, unit: 'mm', says: 'Radius of the circle of joint centres.' },
  gap_deg: {
    min: 0,
    max: 120,
    unit: 'deg',
    says: 'Angle between the two joints of a pair; 0 joins them in one point.',
  },
  turn_deg: turn('Turn of the whole joint pattern about +Z, counter-clockwise seen from above.'),
  jointHeight_mm: {
    min: -10_000,
    max: 10_000,
    unit: 'mm',
    says: "Distance from the plate's face to the joint centres.",
  },
  count: { min: 3, max: 3600, whole: true, unit: '', says: 'Number of equally spaced holes on the joint circle.' },
  start_deg: turn('Angle of one of the holes.'),
  points_mm: { min: -FARTHEST, max: FARTHEST, unit: 'mm', says: "Coordinate of a joint centre in the plate's frame." },
  min_mm: { min: SHORTEST, max: FARTHEST, unit: 'mm', says: 'Shortest leg, joint centre to joint centre.' },
  max_mm: { min: SHORTEST, max: FARTHEST, unit: 'mm', says: 'Longest leg, joint centre to joint centre.' },
  barrelDiameter_mm: { min: SHORTEST, max: 10_000, unit: 'mm', says: 'Outer diameter of the lower part of a leg.' },
  rodDiameter_mm: { min: SHORTEST, max: 10_000, unit: 'mm', says: 'Diameter of the part that slides out.' },
  tilt_deg: {
    min: 0,
    max: 180,
    aboveMin: true,
    unit: 'deg',
    says: 'How far the leg may lean from the mount axis: half angle of a cone.',
  },
  lean_deg: { min: 0, max: 90, belowMax: true, unit: 'deg', says: 'Lean of the mount axis from square to the plate.' },
  toward_deg: turn("Azimuth in the plate's frame toward which a joint's mount leans."),
  point_mm: {
    min: -FARTHEST,
    max: FARTHEST,
    unit: 'mm',
    says: "Coordinate of the tool point in the platform's frame.",
  },
  position_mm: { min: -FARTHEST, max: FARTHEST, unit: 'mm', says: 'Coordinate of the tool point in the base frame.' },
  roll_deg: turn('Turn about the fixed x axis, first.'),
  pitch_deg: turn('Turn about the fixed y axis, second.'),
  yaw_deg: turn('Turn about the fixed z axis, last.'),
  characteristicLength_mm: {
    min: SHORTEST,
    max: FARTHEST,
    unit: 'mm',
    says: "Length by which rotations are divided to compare them with translations; left out: the platform's mean joint radius.",
  },
} as const satisfies Record<string, NumberRange>;

/** Name of a number in the design file. */
export type NumberName = keyof typeof RANGES;

const byName: ReadonlyMap<string, NumberRange> = new Map(Object.entries(RANGES));

/** The range of a named number, or null for a name that holds none. */
export const rangeOf = (name: string): NumberRange | null => byName.get(name) ?? null;

/** Whether a number lies in a range. */
export function inRange(value: number, range: NumberRange): boolean {
  if (!Number.isFinite(value)) return false;
  if (range.whole && !Number.isInteger(value)) return false;
  if (value < range.min || value > range.max) return false;
  return !(range.aboveMin && value === range.min) && !(range.belowMax && value === range.max);
}
