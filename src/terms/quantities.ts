import { namesOf } from '../math/record.ts';
import { type InnerUnit, SHOWN_UNITS } from './units.ts';

/** What must be known of a design, beyond its geometry, before a quantity can be computed. */
export type Need = 'errors' | 'stiffness' | 'load' | 'clearance';

/** A quantity as something that a pose must keep to count as usable. */
export interface FloorTerms {
  /** Beside its number on screen, where room is short. */
  readonly label: string;
  /** One sentence for the schema and for whoever edits the file by hand. */
  readonly says: string;
  /** Numbers that the file and the command line take, in the shown unit. */
  readonly min: number;
  readonly max: number;
  /** Value that a new floor starts with, and where its slider goes, in the shown unit. */
  readonly start: number;
  readonly travel: { readonly min: number; readonly max: number; readonly step: number };
  /** Digits behind the point on screen. */
  readonly decimals: number;
}

/** All that menus, floors, files, curves and colour scales need to know of a quantity; its reader stands in `reach/field/readers`. */
export interface QuantityTerms {
  /** Plain words, as they stand in a sentence. */
  readonly words: string;
  /** Shorter, for a line of many values. */
  readonly short: string;
  readonly unit: InnerUnit;
  readonly better: 'more' | 'less';
  /** Null: the geometry alone is enough. */
  readonly needs: Need | null;
  /** Without a value at a singular pose: it is read from the inverse Jacobian. */
  readonly regular: boolean;
  /** How a colour scale is laid over it: over its values, from zero however small they get, or to both sides of zero. */
  readonly scale: 'values' | 'fromZero' | 'signed';
  /** Value that a curve's scale always shows: the best or the turning point. */
  readonly origin: number;
  /** Name as a floor in the design file and on the command line, with its unit. */
  readonly inFile: string;
  readonly floor: FloorTerms;
}

/** Largest numbers that a floor may ask for; see the ranges of the design file for their reasons. */
const FARTHEST = 1_000_000;
const LARGEST_ERROR = 1000;
const LARGEST_FORCE = 1e9;
const STIFFEST = 1e12;

const ROOM_TRAVEL = { min: 0, max: 50, step: 0.5 } as const;
const JOINT_TRAVEL = { min: 0, max: 30, step: 0.5 } as const;

/** Every quantity that a pose has, in the order in which menus name them. */
export const QUANTITIES = {
  /** Largest over smallest singular value, rotations divided by the characteristic length. */
  condition: {
    words: 'condition',
    short: 'condition',
    unit: '1',
    better: 'less',
    needs: null,
    regular: true,
    scale: 'values',
    origin: 1,
    inFile: 'condition',
    floor: {
      label: 'Condition',
      says: 'Floor: the condition must be at most this.',
      min: 1,
      max: 1e9,
      start: 10,
      travel: { min: 1, max: 50, step: 0.5 },
      decimals: 1,
    },
  },
  /** Smallest singular value, rotations divided by the characteristic length; 0 at a singular pose. */
  firmness: {
    words: 'firmness',
    short: 'firmness',
    unit: '1',
    better: 'more',
    needs: null,
    regular: false,
    scale: 'fromZero',
    origin: 0,
    inFile: 'firmness',
    floor: {
      label: 'Firmness',
      says: 'Floor: the firmness must be at least this.',
      min: 0,
      max: 1e9,
      start: 0.35,
      travel: { min: 0, max: 1, step: 0.01 },
      decimals: 2,
    },
  },
  /** Largest length of the tool's translation error, all sources at their worst; infinite where that is too large for the first order. */
  toolError: {
    words: 'worst tool error',
    short: 'error',
    unit: 'mm',
    better: 'less',
    needs: 'errors',
    regular: true,
    scale: 'values',
    origin: 0,
    inFile: 'toolError_mm',
    floor: {
      label: 'Tool error',
      says: 'Floor: the worst tool error must be at most this.',
      min: 0,
      max: LARGEST_ERROR,
      start: 0.2,
      travel: { min: 0, max: 1, step: 0.01 },
      decimals: 2,
    },
  },
  /** Translation stiffness at the tool in the weakest direction. */
  stiffness: {
    words: 'weakest stiffness',
    short: 'stiffness',
    unit: 'N/mm',
    better: 'more',
    needs: 'stiffness',
    regular: true,
    scale: 'values',
    origin: 0,
    inFile: 'stiffness_N_mm',
    floor: {
      label: 'Stiffness',
      says: 'Floor: the weakest stiffness must be at least this.',
      min: 0,
      max: STIFFEST,
      start: 500,
      travel: { min: 0, max: 5000, step: 10 },
      decimals: 0,
    },
  },
  /** Largest force of any leg, push or pull. */
  legForce: {
    words: 'largest leg force',
    short: 'largest force',
    unit: 'N',
    better: 'less',
    needs: 'load',
    regular: true,
    scale: 'values',
    origin: 0,
    inFile: 'legForce_N',
    floor: {
      label: 'Leg force',
      says: 'Floor: the largest leg force must be at most this.',
      min: 0,
      max: LARGEST_FORCE,
      start: 50,
      travel: { min: 0, max: 200, step: 1 },
      decimals: 0,
    },
  },
  /** Force of the leg that pushes least; negative: that leg pulls. Where it is zero a leg's backlash opens. */
  leastPush: {
    words: 'least leg push',
    short: 'least push',
    unit: 'N',
    better: 'more',
    needs: 'load',
    regular: true,
    scale: 'signed',
    origin: 0,
    inFile: 'leastPush_N',
    floor: {
      label: 'Leg push',
      says: 'Floor: every leg must push with at least this; below 0, it may pull that much.',
      min: -LARGEST_FORCE,
      max: LARGEST_FORCE,
      start: 0,
      travel: { min: -50, max: 50, step: 0.5 },
      decimals: 1,
    },
  },
  /** Smallest distance of any two bodies that could meet. */
  clearance: {
    words: 'smallest clearance',
    short: 'clearance',
    unit: 'mm',
    better: 'more',
    needs: 'clearance',
    regular: false,
    scale: 'fromZero',
    origin: 0,
    inFile: 'clearance_mm',
    floor: {
      label: 'Clearance',
      says: 'Floor: the smallest clearance must be at least this.',
      min: -FARTHEST,
      max: FARTHEST,
      start: 2,
      travel: { min: 0, max: 30, step: 0.5 },
      decimals: 1,
    },
  },
  /** Room of the shortest leg before it is too short. */
  shortMargin: {
    words: 'room before a leg is too short',
    short: 'to shortest leg',
    unit: 'mm',
    better: 'more',
    needs: null,
    regular: false,
    scale: 'fromZero',
    origin: 0,
    inFile: 'shortMargin_mm',
    floor: {
      label: 'Short end',
      says: 'Floor: every leg must be longer than the shortest by at least this.',
      min: -FARTHEST,
      max: FARTHEST,
      start: 5,
      travel: ROOM_TRAVEL,
      decimals: 1,
    },
  },
  longMargin: {
    words: 'room before a leg is too long',
    short: 'to longest leg',
    unit: 'mm',
    better: 'more',
    needs: null,
    regular: false,
    scale: 'fromZero',
    origin: 0,
    inFile: 'longMargin_mm',
    floor: {
      label: 'Long end',
      says: 'Floor: every leg must be shorter than the longest by at least this.',
      min: -FARTHEST,
      max: FARTHEST,
      start: 5,
      travel: ROOM_TRAVEL,
      decimals: 1,
    },
  },
  /** Room of the most tilted joint of either plate. */
  baseMargin: {
    words: 'room in the base joints',
    short: 'base joints',
    unit: 'rad',
    better: 'more',
    needs: null,
    regular: false,
    scale: 'fromZero',
    origin: 0,
    inFile: 'baseMargin_deg',
    floor: {
      label: 'Base joint',
      says: 'Floor: room that every base joint must keep.',
      min: -180,
      max: 180,
      start: 3,
      travel: JOINT_TRAVEL,
      decimals: 1,
    },
  },
  platformMargin: {
    words: 'room in the platform joints',
    short: 'platform joints',
    unit: 'rad',
    better: 'more',
    needs: null,
    regular: false,
    scale: 'fromZero',
    origin: 0,
    inFile: 'platformMargin_deg',
    floor: {
      label: 'Platform joint',
      says: 'Floor: room that every platform joint must keep.',
      min: -180,
      max: 180,
      start: 3,
      travel: JOINT_TRAVEL,
      decimals: 1,
    },
  },
} as const satisfies Record<string, QuantityTerms>;

export type QuantityName = keyof typeof QUANTITIES;

/** In the order in which menus name them. */
export const QUANTITY_NAMES = namesOf<QuantityName>(QUANTITIES);

/** Name of a floor in the design file and on the command line. */
export type FloorName = (typeof QUANTITIES)[QuantityName]['inFile'];

/** Names of all floors, in the order of the quantities. */
export const FLOOR_NAMES: readonly FloorName[] = QUANTITY_NAMES.map((quantity) => QUANTITIES[quantity].inFile);

/** A quantity must be at least this (where more is better) or at most this (where less is), in its inner unit. */
export interface Floor {
  readonly quantity: QuantityName;
  readonly value: number;
}

/** 1 where more of a quantity is better, -1 where less is. */
export const senseOf = (quantity: QuantityName): 1 | -1 => (QUANTITIES[quantity].better === 'more' ? 1 : -1);

/** What a floor asks of a quantity, in words. */
export const boundWords = (quantity: QuantityName): 'at least' | 'at most' =>
  senseOf(quantity) > 0 ? 'at least' : 'at most';

/** Whether a value keeps a floor; one that is not a number keeps none. */
export const keepsFloor = (quantity: QuantityName, value: number, floor: number): boolean =>
  senseOf(quantity) * (value - floor) >= 0;

/** Unit in which a quantity is shown; empty for a ratio. */
export const shownUnit = (quantity: QuantityName): string => SHOWN_UNITS[QUANTITIES[quantity].unit].unit;

/** Shown unit over inner unit. */
export const shownFactor = (quantity: QuantityName): number => SHOWN_UNITS[QUANTITIES[quantity].unit].factor;

/** A value in its shown unit. */
export const shownValue = (quantity: QuantityName, value: number): number => value * shownFactor(quantity);
