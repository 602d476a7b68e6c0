import { namesOf } from '../math/record.ts';
import type { ColumnTerms } from './columns.ts';
import { degrees } from './units.ts';

/** What a table of layouts knows of each layout. */
export interface FigureTerms extends ColumnTerms {
  readonly better: 'more' | 'less';
  /** An amount that can be coloured, plotted and weighed; one that is only listed; or yes (1) and no (0). */
  readonly kind: 'amount' | 'listed' | 'yesNo';
}

const CM3_PER_MM3 = 1e-3;

/** The figures of one layout, in the order in which a row holds them. */
export const FIGURES = {
  reach: {
    name: 'Reach, home orientation',
    short: 'Reach',
    inWords: 'reach',
    unit: 'cm³',
    scale: CM3_PER_MM3,
    header: 'reach_cm3',
    better: 'more',
    kind: 'amount',
  },
  tiltReach: {
    name: 'Reach over the tilt range',
    short: 'Tilt reach',
    inWords: 'reach over the tilt range',
    unit: 'cm³',
    scale: CM3_PER_MM3,
    header: 'tiltReach_cm3',
    better: 'more',
    kind: 'amount',
  },
  usableReach: {
    name: 'Usable reach',
    short: 'Usable',
    inWords: 'usable reach',
    unit: 'cm³',
    scale: CM3_PER_MM3,
    header: 'usableReach_cm3',
    better: 'more',
    kind: 'amount',
  },
  homeFirmness: {
    name: 'Firmness at home',
    short: 'Firm home',
    inWords: 'firmness at home',
    unit: '',
    scale: 1,
    header: 'homeFirmness',
    better: 'more',
    kind: 'amount',
  },
  homeCondition: {
    name: 'Condition at home',
    short: 'Condition',
    inWords: 'condition at home',
    unit: '',
    scale: 1,
    header: 'homeCondition',
    better: 'less',
    kind: 'amount',
  },
  worstFirmness: {
    name: 'Worst firmness',
    short: 'Firm worst',
    inWords: 'worst firmness',
    unit: '',
    scale: 1,
    header: 'worstFirmness',
    better: 'more',
    kind: 'amount',
  },
  meanFirmness: {
    name: 'Mean firmness',
    short: 'Firm mean',
    inWords: 'mean firmness',
    unit: '',
    scale: 1,
    header: 'meanFirmness',
    better: 'more',
    kind: 'amount',
  },
  forceFactor: {
    name: 'Worst leg force',
    short: 'Force',
    inWords: 'leg force',
    unit: '× load',
    scale: 1,
    header: 'forceFactor',
    better: 'less',
    kind: 'amount',
  },
  jointTilt: {
    name: 'Largest joint tilt',
    short: 'Joint tilt',
    inWords: 'joint tilt',
    unit: 'deg',
    scale: degrees(1),
    header: 'jointTilt_deg',
    better: 'less',
    kind: 'amount',
  },
  spareStroke: {
    name: 'Leg spare',
    short: 'Leg spare',
    inWords: 'leg spare',
    unit: 'mm',
    scale: 1,
    header: 'spareStroke_mm',
    better: 'more',
    kind: 'listed',
  },
  buildGap: {
    name: 'Room to build',
    short: 'Room',
    inWords: 'room to build',
    unit: 'mm',
    scale: 1,
    header: 'buildGap_mm',
    better: 'more',
    kind: 'amount',
  },
  buildable: {
    name: 'Can be built',
    short: 'Buildable',
    inWords: 'can be built',
    unit: '',
    scale: 1,
    header: 'buildable',
    better: 'more',
    kind: 'yesNo',
  },
  homeReachable: {
    name: 'Stands at home',
    short: 'At home',
    inWords: 'stands at home',
    unit: '',
    scale: 1,
    header: 'homeReachable',
    better: 'more',
    kind: 'yesNo',
  },
  singularEverywhere: {
    name: 'Singular at every pose',
    short: 'Singular',
    inWords: 'singular at every pose',
    unit: '',
    scale: 1,
    header: 'singularEverywhere',
    better: 'less',
    kind: 'yesNo',
  },
} as const satisfies Record<string, FigureTerms>;

export type FigureName = keyof typeof FIGURES;

/** In the order in which a row holds them. */
export const FIGURE_NAMES = namesOf<FigureName>(FIGURES);
