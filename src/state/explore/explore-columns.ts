import type { ColumnName } from '../../explore/layout-table.ts';
import type { ObjectiveChoice } from '../../explore/table-front.ts';
import type { ColumnTerms } from '../../terms/columns.ts';
import { DIMENSIONS } from '../../terms/dimensions.ts';
import { FIGURE_NAMES, FIGURES, type FigureName } from '../../terms/figures.ts';

const COLUMNS: Readonly<Record<ColumnName, ColumnTerms>> = { ...DIMENSIONS, ...FIGURES };

export const columnWords = (name: ColumnName): ColumnTerms => COLUMNS[name];

/** Figures that are yes or no rather than an amount. */
export const YES_NO: ReadonlySet<ColumnName> = new Set<ColumnName>(
  FIGURE_NAMES.filter((name) => FIGURES[name].kind === 'yesNo'),
);

/** Figures that can be coloured, plotted and weighed. */
export const AMOUNTS: readonly FigureName[] = FIGURE_NAMES.filter((name) => FIGURES[name].kind === 'amount');

/** Which way a figure is better. */
export const betterOf = (figure: FigureName): 'more' | 'less' => FIGURES[figure].better;

export const objective = (figure: FigureName): ObjectiveChoice => ({ figure, better: betterOf(figure) });
