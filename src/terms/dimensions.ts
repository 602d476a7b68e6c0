import { namesOf } from '../math/record.ts';
import type { ColumnTerms } from './columns.ts';
import { degrees } from './units.ts';

/** One degree's worth of a radian, for showing. */
const DEG = degrees(1);

/** The dimensions of a two-ring layout that can be varied one by one; `header` is their name in a sweep's file. */
export const DIMENSIONS = {
  baseGap: {
    name: 'Base gap',
    short: 'Base gap',
    inWords: 'base gap',
    unit: 'deg',
    scale: DEG,
    header: 'baseGap_deg',
  },
  platformGap: {
    name: 'Platform gap',
    short: 'Platform gap',
    inWords: 'platform gap',
    unit: 'deg',
    scale: DEG,
    header: 'platformGap_deg',
  },
  /** Platform radius over base radius. */
  radiusRatio: {
    name: 'Radius ratio',
    short: 'Ratio',
    inWords: 'radius ratio',
    unit: '',
    scale: 1,
    header: 'radiusRatio',
  },
  /** Of the platform beyond the base. */
  turn: { name: 'Turn', short: 'Turn', inWords: 'turn', unit: 'deg', scale: DEG, header: 'turn_deg' },
  homeHeight: {
    name: 'Home height',
    short: 'Height',
    inWords: 'home height',
    unit: 'mm',
    scale: 1,
    header: 'homeHeight_mm',
  },
  baseRadius: {
    name: 'Base radius',
    short: 'Base rad.',
    inWords: 'base radius',
    unit: 'mm',
    scale: 1,
    header: 'baseRadius_mm',
  },
  platformRadius: {
    name: 'Platform radius',
    short: 'Platf. rad.',
    inWords: 'platform radius',
    unit: 'mm',
    scale: 1,
    header: 'platformRadius_mm',
  },
  mountLean: {
    name: 'Mount lean',
    short: 'Lean',
    inWords: 'mount lean',
    unit: 'deg',
    scale: DEG,
    header: 'mountLean_deg',
  },
} as const satisfies Record<string, ColumnTerms>;

export type DimensionName = keyof typeof DIMENSIONS;

/** In the order in which lists name them. */
export const DIMENSION_NAMES = namesOf<DimensionName>(DIMENSIONS);

/** Name of a dimension in a sweep's file and table. */
export type DimensionHeader = (typeof DIMENSIONS)[DimensionName]['header'];
