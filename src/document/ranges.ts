import { recordOf } from '../math/record.ts';
import type { NumberRange } from '../terms/number-range.ts';
import { FLOOR_NAMES, type FloorName, QUANTITIES, QUANTITY_NAMES } from '../terms/quantities.ts';
import { SHOWN_UNITS } from '../terms/units.ts';

/** Shortest length that counts as one [mm]: a micrometre, far below what a workshop can make. */
const SHORTEST = 0.001;

/** Largest ring, 100 m: nothing is built near it, and squares of it keep all their digits. */
const LARGEST_RING = 100_000;

/** Coordinates and leg lengths stay within a kilometre [mm]. */
const FARTHEST = 1_000_000;

/** Errors and plays beyond a metre are no errors any more [mm]. */
const LARGEST_ERROR = 1000;

/** Axial stiffness from a rubber band to a thousand times a steel bar of a metre's length [N/mm]. */
const SOFTEST = 1e-6;
const STIFFEST = 1e12;

/** Forces up to a hundred thousand tonnes [N], and torques of them at a metre [N mm]. */
const LARGEST_FORCE = 1e9;
const LARGEST_TORQUE = 1e12;

const errorLimit = (says: string): NumberRange => ({ min: 0, max: LARGEST_ERROR, unit: 'mm', says });

const springRate = (says: string): NumberRange => ({ min: SOFTEST, max: STIFFEST, unit: 'N/mm', says });

const coordinate = (says: string): NumberRange => ({ min: -FARTHEST, max: FARTHEST, unit: 'mm', says });

const halfRange = (axis: string): NumberRange => ({
  min: 0,
  max: FARTHEST,
  unit: 'mm',
  says: `How far the tool point must go along ${axis}, either way.`,
});

/** A hundred thousand tonnes [kg]: the largest force at one g. */
const LARGEST_MASS = 1e8;

const legInertia = (part: string): NumberRange => ({
  min: 0,
  max: LARGEST_TORQUE,
  unit: 'kg mm^2',
  says: `Moment of inertia of the ${part} across the leg, about its mass centre; 0 if left out.`,
});

const driveLimit = (unit: NumberRange['unit'], says: string): NumberRange => ({
  min: 0,
  max: LARGEST_FORCE,
  aboveMin: true,
  unit,
  says,
});

const turn = (says: string): NumberRange => ({ min: -360, max: 360, unit: 'deg', says });

/** What a floor of each quantity may ask for. */
const FLOOR_RANGES: Readonly<Record<FloorName, NumberRange>> = recordOf(FLOOR_NAMES, (_, n) => {
  const { unit, floor } = QUANTITIES[QUANTITY_NAMES[n]];
  return { min: floor.min, max: floor.max, unit: SHOWN_UNITS[unit].unit, says: floor.says };
});

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
  barrelLength_mm: {
    min: 0,
    max: FARTHEST,
    unit: 'mm',
    says: 'From the base joint centre to the end of the barrel; the shortest leg less one rod diameter if left out.',
  },
  screwLead_mm: {
    min: -10_000,
    max: 10_000,
    unit: 'mm',
    says: 'Advance of the screw in one turn, negative for a left-hand one: what a twist of the leg does to its length.',
  },
  barrelMass_kg: {
    min: 0,
    max: LARGEST_MASS,
    unit: 'kg',
    says: 'Mass of the part of a leg that turns about the base joint; 0 if left out.',
  },
  barrelCentre_mm: coordinate('Mass centre of the barrel from the base joint, along the leg; 0 if left out.'),
  barrelInertia_kg_mm2: legInertia('barrel'),
  rodMass_kg: { min: 0, max: LARGEST_MASS, unit: 'kg', says: 'Mass of the part of a leg that slides; 0 if left out.' },
  rodCentre_mm: coordinate(
    'Mass centre of the rod from the platform joint, along the leg toward the base; 0 if left out.',
  ),
  rodInertia_kg_mm2: legInertia('rod'),
  screwEfficiency: {
    min: 0,
    max: 1,
    aboveMin: true,
    unit: '',
    says: "Share of the motor's work that reaches the rod; 1 if left out.",
  },
  friction_N: { min: 0, max: LARGEST_FORCE, unit: 'N', says: 'Friction between barrel and rod; 0 if left out.' },
  rotorInertia_kg_mm2: {
    min: 0,
    max: LARGEST_TORQUE,
    unit: 'kg mm^2',
    says: "Inertia of all that turns with the screw; counts with the screw's lead; 0 if left out.",
  },
  speed_mm_s: driveLimit('mm/s', 'Largest speed of a leg; no limit if left out.'),
  acceleration_mm_s2: driveLimit('mm/s^2', 'Largest acceleration of a leg; no limit if left out.'),
  push_N: driveLimit('N', 'Largest push of a leg, between barrel and rod; no limit if left out.'),
  power_W: driveLimit('W', 'Largest power of the motor of one leg; no limit if left out.'),
  gravity_m_s2: { min: 0, max: 1000, unit: 'm/s^2', says: 'Acceleration of free fall; 9.80665 if left out.' },
  tilt_deg: {
    min: 0,
    max: 180,
    aboveMin: true,
    unit: 'deg',
    says: 'How far the leg may lean from the mount axis: half angle of a cone.',
  },
  lean_deg: { min: 0, max: 90, belowMax: true, unit: 'deg', says: 'Lean of the mount axis from square to the plate.' },
  toward_deg: turn(
    "Azimuth in the plate's frame toward which a joint's mount leans, or its bolt or first axis points.",
  ),
  rise_deg: { min: -90, max: 90, unit: 'deg', says: "Rise of a bolt or first axis out of the plate's plane." },
  secondTilt_deg: {
    min: 0,
    max: 90,
    aboveMin: true,
    unit: 'deg',
    says: 'Universal joint: how far the leg may tilt about the second axis; as tilt_deg, at most 90, if left out.',
  },
  point_mm: {
    min: -FARTHEST,
    max: FARTHEST,
    unit: 'mm',
    says: "Coordinate of the tool point in the platform's frame.",
  },
  position_mm: {
    min: -FARTHEST,
    max: FARTHEST,
    unit: 'mm',
    says: 'Coordinate of the tool point in the base frame. The platform is meant to be above its base: hung below, its legs leave their mounts backward and meet the base plate; for one that hangs, keep it above in this frame and set load.gravityDirection to [0, 0, 1].',
  },
  roll_deg: turn('Turn about the fixed x axis, first.'),
  pitch_deg: turn('Turn about the fixed y axis, second.'),
  yaw_deg: turn('Turn about the fixed z axis, last.'),
  characteristicLength_mm: {
    min: SHORTEST,
    max: FARTHEST,
    unit: 'mm',
    says: "Length by which rotations are divided to compare them with translations; left out: the mean distance of the platform's joints from their centroid.",
  },
  resolution_mm: errorLimit('Smallest step of a leg; its length is within half a step.'),
  backlash_mm: errorLimit('Lost motion of a leg on reversal, end to end.'),
  zero_mm: errorLimit("A leg's length at zero is known within plus or minus this."),
  basePlay_mm: errorLimit('Free movement of a base joint centre in its seat, end to end.'),
  platformPlay_mm: errorLimit('Free movement of a platform joint centre in its seat, end to end.'),
  baseHole_mm: errorLimit(
    'A base joint lies within this of its drawn place: along the plate for a ring, in any direction for points.',
  ),
  platformHole_mm: errorLimit(
    'A platform joint lies within this of its drawn place: along the plate for a ring, in any direction for points.',
  ),
  baseSeat_mm: errorLimit("A base joint's height is right within plus or minus this."),
  platformSeat_mm: errorLimit("A platform joint's height is right within plus or minus this."),
  leg_N_mm: springRate('Axial stiffness of a leg without its joints.'),
  baseJoint_N_mm: springRate('Stiffness of a base joint along the leg.'),
  platformJoint_N_mm: springRate('Stiffness of a platform joint along the leg.'),
  mass_kg: {
    min: 0,
    max: LARGEST_MASS,
    unit: 'kg',
    says: 'Mass of everything that moves with the platform, itself included.',
  },
  centre_mm: coordinate("Coordinate of the centre of mass in the platform's frame."),
  inertia_kg_mm2: {
    min: 0,
    max: 1e18,
    unit: 'kg mm^2',
    says: "Moment of inertia about the centre of mass, along the platform's x, y, z.",
  },
  products_kg_mm2: {
    min: -1e18,
    max: 1e18,
    unit: 'kg mm^2',
    says: "Entry xy, xz or yz of the inertia matrix about the centre of mass, along the platform's axes: xy = -sum m x y.",
  },
  force_N: {
    min: -LARGEST_FORCE,
    max: LARGEST_FORCE,
    unit: 'N',
    says: 'Outside force at the tool point, along base x, y, z.',
  },
  torque_N_mm: {
    min: -LARGEST_TORQUE,
    max: LARGEST_TORQUE,
    unit: 'N mm',
    says: 'Outside torque on the platform, about base x, y, z.',
  },
  gravityDirection: {
    min: -1000,
    max: 1000,
    unit: '',
    says: 'Direction in which things fall, base frame, of any length but 0; straight down, [0, 0, -1], if left out.',
  },
  anchor_mm: coordinate('Coordinate of a point of the frame, in the base frame.'),
  attach_mm: coordinate("Coordinate of a point of the platform, in the platform's frame."),
  pull_N: {
    min: 0,
    max: LARGEST_FORCE,
    unit: 'N',
    says: 'Pull: of a counterweight on its point of the platform; of a leg the largest it may give, no limit if left out.',
  },
  rate_N_mm: { min: 0, max: STIFFEST, unit: 'N/mm', says: 'Change of force per change of length.' },
  freeLength_mm: { min: 0, max: FARTHEST, unit: 'mm', says: 'Length at which the spring neither pulls nor pushes.' },
  thickness_mm: {
    min: SHORTEST,
    max: 10_000,
    unit: 'mm',
    says: 'Thickness of a plate; a tenth of its joint radius if left out.',
  },
  outlineDiameter_mm: {
    min: SHORTEST,
    max: 4 * LARGEST_RING,
    unit: 'mm',
    says: 'Diameter of a round plate; one barrel diameter past its joints all round if left out.',
  },
  outline_mm: coordinate("Coordinate of a corner in the plate's frame."),
  openingDiameter_mm: {
    min: 0,
    max: 4 * LARGEST_RING,
    unit: 'mm',
    says: 'Diameter of a round opening in the middle of a plate; closed if left out.',
  },
  jointZone_mm: {
    min: 0,
    max: 10_000,
    unit: 'mm',
    says: 'Length of leg next to its joint centre that belongs to the joint and is not checked against this plate; left out: the barrel diameter for the base, the rod diameter for the platform.',
  },
  middle_mm: coordinate('Coordinate of the middle of a box.'),
  size_mm: { min: SHORTEST, max: FARTHEST, unit: 'mm', says: 'Size of a box along x, y, z.' },
  boxTurn_deg: turn("Turn of a box about its frame's z; 0 if left out."),
  from_mm: coordinate("Coordinate of the middle of a cylinder's one end."),
  to_mm: coordinate("Coordinate of the middle of a cylinder's other end."),
  corners_mm: coordinate('Coordinate of a corner of a hull.'),
  diameter_mm: { min: SHORTEST, max: FARTHEST, unit: 'mm', says: 'Diameter of a cylinder.' },
  x_mm: halfRange('x'),
  y_mm: halfRange('y'),
  z_mm: halfRange('z'),
  size_N: { min: 0, max: LARGEST_FORCE, unit: 'N', says: 'Size of a force that may point in any direction.' },
  size_N_mm: { min: 0, max: LARGEST_TORQUE, unit: 'N mm', says: 'Size of a torque about any axis.' },
  jointPull_N: {
    min: 0,
    max: LARGEST_FORCE,
    aboveMin: true,
    unit: 'N',
    says: 'Pull at which a joint lets go: no leg may pull with more.',
  },
  from: { min: -FARTHEST, max: FARTHEST, unit: '', says: 'Lowest value of a number that may be chosen, in its unit.' },
  to: { min: -FARTHEST, max: FARTHEST, unit: '', says: 'Highest value of a number that may be chosen, in its unit.' },
  deadLength_mm: {
    min: 0,
    max: FARTHEST,
    unit: 'mm',
    says: 'Length of an actuator that is no stroke: its shortest length less its stroke, ends and brackets included.',
  },
  baseJointDiameter_mm: {
    min: SHORTEST,
    max: 10_000,
    unit: 'mm',
    says: "Diameter of a base joint's body; the barrel's if left out.",
  },
  platformJointDiameter_mm: {
    min: SHORTEST,
    max: 10_000,
    unit: 'mm',
    says: "Diameter of a platform joint's body; the barrel's if left out.",
  },
  ...FLOOR_RANGES,
} as const satisfies Record<string, NumberRange>;

/** Name of a number in the design file. */
export type NumberName = keyof typeof RANGES;

const byName: ReadonlyMap<string, NumberRange> = new Map(Object.entries(RANGES));

/** The range of a named number, or null for a name that holds none. */
export const rangeOf = (name: string): NumberRange | null => byName.get(name) ?? null;
