import { FIGURE_NAMES, type FigureName } from '../../explore/layout-figures.ts';
import type { ColumnName } from '../../explore/layout-table.ts';
import type { ObjectiveChoice } from '../../explore/table-front.ts';
import type { DimensionName } from '../../kinematics/dimensions.ts';
import { degrees } from '../../terms/units.ts';

/** How a column of a table of layouts is named and written on screen. */
export interface ColumnWords {
  /** Full name, as it stands in lists: "Reach over the tilt range". */
  readonly name: string;
  /** As it stands on an axis: "Tilt reach". */
  readonly short: string;
  /** In a running sentence: "firmness at home". */
  readonly inWords: string;
  readonly unit: string;
  /** Shown number = inside number times this. */
  readonly scale: number;
  /** Name in exported tables, unit included. */
  readonly header: string;
}

const DEG = degrees(1);
const CM3_PER_MM3 = 1e-3;

const words = (
  name: string,
  short: string,
  unit: string,
  scale: number,
  header: string,
  inWords = name.charAt(0).toLowerCase() + name.slice(1),
): ColumnWords => ({ name, short, inWords, unit, scale, header });

/** Dimensions that a sweep varies. */
export const DIMENSION_WORDS: Readonly<Record<DimensionName, ColumnWords>> = {
  baseGap: words('Base gap', 'Base gap', 'deg', DEG, 'baseGap_deg'),
  platformGap: words('Platform gap', 'Platform gap', 'deg', DEG, 'platformGap_deg'),
  radiusRatio: words('Radius ratio', 'Ratio', '', 1, 'radiusRatio'),
  turn: words('Turn', 'Turn', 'deg', DEG, 'turn_deg'),
  homeHeight: words('Home height', 'Height', 'mm', 1, 'homeHeight_mm'),
  baseRadius: words('Base radius', 'Base rad.', 'mm', 1, 'baseRadius_mm'),
  platformRadius: words('Platform radius', 'Platf. rad.', 'mm', 1, 'platformRadius_mm'),
  mountLean: words('Mount lean', 'Lean', 'deg', DEG, 'mountLean_deg'),
};

/** Figures of a layout. */
export const FIGURE_WORDS: Readonly<Record<FigureName, ColumnWords>> = {
  reach: words('Reach, home orientation', 'Reach', 'cm³', CM3_PER_MM3, 'reach_cm3', 'reach'),
  tiltReach: words('Reach over the tilt range', 'Tilt reach', 'cm³', CM3_PER_MM3, 'tiltReach_cm3'),
  usableReach: words('Usable reach', 'Usable', 'cm³', CM3_PER_MM3, 'usableReach_cm3'),
  homeFirmness: words('Firmness at home', 'Firm home', '', 1, 'homeFirmness'),
  homeCondition: words('Condition at home', 'Condition', '', 1, 'homeCondition'),
  worstFirmness: words('Worst firmness', 'Firm worst', '', 1, 'worstFirmness'),
  meanFirmness: words('Mean firmness', 'Firm mean', '', 1, 'meanFirmness'),
  forceFactor: words('Worst leg force', 'Force', '× load', 1, 'forceFactor', 'leg force'),
  jointTilt: words('Largest joint tilt', 'Joint tilt', 'deg', DEG, 'jointTilt_deg', 'joint tilt'),
  spareStroke: words('Leg spare', 'Leg spare', 'mm', 1, 'spareStroke_mm'),
  buildGap: words('Room to build', 'Room', 'mm', 1, 'buildGap_mm'),
  buildable: words('Can be built', 'Buildable', '', 1, 'buildable'),
  homeReachable: words('Stands at home', 'At home', '', 1, 'homeReachable'),
  singularEverywhere: words('Singular at every pose', 'Singular', '', 1, 'singularEverywhere'),
};

const WORDS: Readonly<Record<ColumnName, ColumnWords>> = { ...DIMENSION_WORDS, ...FIGURE_WORDS };

export const columnWords = (name: ColumnName): ColumnWords => WORDS[name];

/** Figures that are yes or no rather than an amount. */
export const YES_NO: ReadonlySet<ColumnName> = new Set<ColumnName>([
  'buildable',
  'homeReachable',
  'singularEverywhere',
]);

/** Figures that can be coloured, plotted and weighed. */
export const AMOUNTS: readonly FigureName[] = FIGURE_NAMES.filter(
  (name) => !YES_NO.has(name) && name !== 'spareStroke',
);

const LESS_IS_BETTER: ReadonlySet<FigureName> = new Set<FigureName>([
  'homeCondition',
  'forceFactor',
  'jointTilt',
  'singularEverywhere',
]);

/** Which way a figure is better. */
export const betterOf = (figure: FigureName): 'more' | 'less' => (LESS_IS_BETTER.has(figure) ? 'less' : 'more');

export const objective = (figure: FigureName): ObjectiveChoice => ({ figure, better: betterOf(figure) });
