import { isUnbounded } from '../../explore/column-domain.ts';
import type { ColumnName } from '../../explore/layout-table.ts';
import { columnWords, YES_NO } from '../../state/explore/explore-columns.ts';
import { groupedText } from '../controls/number-text.ts';
import { figure } from '../verdict/reach-words.ts';

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

/** A number of layouts. */
export const countText = (count: number): string => groupedText(count, 0);

/** A length of time in words: seconds, minutes or hours. */
export function timeWords(seconds: number): string {
  if (seconds < 1) return 'less than a second';
  if (seconds < 90) return `${Math.round(seconds)} s`;
  if (seconds < 90 * 60) return `${Math.round(seconds / 60)} min`;
  const hours = seconds / 3600;
  return hours < 48 ? `${hours.toFixed(hours < 10 ? 1 : 0)} h` : `${countText(Math.round(hours / 24))} days`;
}

/** A forecast of time in words. */
export const aboutTime = (seconds: number): string =>
  seconds < 1 ? timeWords(seconds) : `about ${timeWords(seconds)}`;

/** An amount of memory in words. */
export function bytesWords(bytes: number): string {
  const megabytes = bytes / 1e6;
  return megabytes < 1000
    ? `${Math.max(1, Math.round(megabytes))} MB`
    : `${countText(Number((megabytes / 1000).toPrecision(2)))} GB`;
}

/** A tick's number with as many digits as the step between ticks needs. */
export function tickText(tick: number, ticks: readonly number[]): string {
  const step = ticks.length > 1 ? Math.abs(ticks[1] - ticks[0]) : Math.abs(tick) || 1;
  return groupedText(tick, Math.max(0, -Math.floor(Math.log10(step) + 1e-9)));
}
