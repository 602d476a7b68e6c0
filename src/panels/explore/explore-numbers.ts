import { isUnbounded } from '../../explore/column-domain.ts';
import type { ColumnName } from '../../explore/layout-table.ts';
import { columnWords, YES_NO } from '../../state/explore/explore-columns.ts';
import { figure } from '../../words/numbers.ts';

/** Shown numbers below this are what rounding left of nothing. */
const ROUNDING = 1e-6;

/** A column's inside number as it is shown, without its unit. */
export function columnNumber(name: ColumnName, value: number): string {
  if (Number.isNaN(value)) return '–';
  if (YES_NO.has(name)) return value === 1 ? 'yes' : 'no';
  if (isUnbounded(name, value)) return 'no bound';
  const shown = value * columnWords(name).scale;
  return Math.abs(shown) < ROUNDING ? '0' : figure(shown);
}

/** A column's inside number with its unit. */
export function columnText(name: ColumnName, value: number): string {
  const { unit } = columnWords(name);
  const number = columnNumber(name, value);
  return unit === '' || Number.isNaN(value) || isUnbounded(name, value) ? number : `${number} ${unit}`;
}

/** Name of a column with its unit, for an axis or the head of a table. */
export function columnTitle(name: ColumnName, short = false): string {
  const words = columnWords(name);
  const title = short ? words.short : words.name;
  return words.unit === '' ? title : `${title}, ${words.unit}`;
}
