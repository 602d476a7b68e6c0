/** What a field can show at every point of the reach, in the order in which menus name them. */
export const FIELD_QUANTITIES = [
  'condition',
  'toolError',
  'stiffness',
  'legForce',
  'leastPush',
  'clearance',
  'shortMargin',
  'longMargin',
  'baseMargin',
  'platformMargin',
] as const;

export type FieldQuantity = (typeof FIELD_QUANTITIES)[number];

/** Inner unit of a quantity: `1`, `mm`, `N/mm`, `N` or `rad`. */
export type FieldUnit = '1' | 'mm' | 'N/mm' | 'N' | 'rad';

/** Plain words, inner unit, and whether more of it is better. */
export interface QuantityMeaning {
  readonly words: string;
  readonly unit: FieldUnit;
  readonly better: 'more' | 'less';
}

export const QUANTITY_MEANING: Readonly<Record<FieldQuantity, QuantityMeaning>> = {
  /** Largest over smallest singular value, rotations divided by the characteristic length. */
  condition: { words: 'condition', unit: '1', better: 'less' },
  /** Largest length of the tool's translation error, all sources at their worst; infinite where that is too large for the first order. */
  toolError: { words: 'worst tool error', unit: 'mm', better: 'less' },
  /** Translation stiffness at the tool in the weakest direction. */
  stiffness: { words: 'weakest stiffness', unit: 'N/mm', better: 'more' },
  /** Largest force of any leg, push or pull. */
  legForce: { words: 'largest leg force', unit: 'N', better: 'less' },
  /** Force of the leg that pushes least; negative: that leg pulls. Where it is zero a leg's backlash opens. */
  leastPush: { words: 'least leg push', unit: 'N', better: 'more' },
  /** Smallest distance of any two bodies that could meet. */
  clearance: { words: 'smallest clearance', unit: 'mm', better: 'more' },
  /** Room of the shortest leg before it is too short. */
  shortMargin: { words: 'room before a leg is too short', unit: 'mm', better: 'more' },
  longMargin: { words: 'room before a leg is too long', unit: 'mm', better: 'more' },
  /** Room of the most tilted joint of either plate. */
  baseMargin: { words: 'room in the base joints', unit: 'rad', better: 'more' },
  platformMargin: { words: 'room in the platform joints', unit: 'rad', better: 'more' },
};

/** 1 where more of a quantity is better, -1 where less is. */
export const senseOf = (quantity: FieldQuantity): 1 | -1 => (QUANTITY_MEANING[quantity].better === 'more' ? 1 : -1);

/** What a floor asks of a quantity, in words. */
export const boundWords = (quantity: FieldQuantity): 'at least' | 'at most' =>
  senseOf(quantity) > 0 ? 'at least' : 'at most';

/** Whether a value keeps a floor; one that is not a number keeps none. */
export const keepsFloor = (quantity: FieldQuantity, value: number, floor: number): boolean =>
  senseOf(quantity) * (value - floor) >= 0;
