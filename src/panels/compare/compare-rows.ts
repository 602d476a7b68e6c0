import { groupedText } from '../../words/numbers.ts';
import type { Quantity, QuantityContext, Reading } from './compare-quantity.ts';
import type { ComparedFigures } from './compared-figures.ts';
import { QUANTITIES } from './quantities.ts';

/** How a value differs from the reference's, in words and by direction. */
export interface Change {
  readonly words: string;
  readonly direction: 'up' | 'down' | 'same' | 'other';
  /** Null where neither is better, or it is the same. */
  readonly judged: 'better' | 'worse' | null;
}

export interface CompareCell {
  readonly reading: Reading;
  /** As it is written; the numbers of a row have equally many digits behind the point. */
  readonly text: string;
  /** Null in the reference's own column, and while either value is unknown. */
  readonly change: Change | null;
  readonly best: boolean;
}

export interface CompareRow {
  readonly id: string;
  readonly group: string;
  readonly name: string;
  /** In the order of the columns. */
  readonly cells: readonly CompareCell[];
}

/** Every row of the comparison, or those of some quantities; `reference` is the place of the column that the others are compared with. */
export function compareRows(
  columns: readonly ComparedFigures[],
  reference: number,
  context: QuantityContext,
  quantities: readonly Quantity[] = QUANTITIES,
): readonly CompareRow[] {
  return quantities.map((quantity) => {
    const exact = columns.map((column) => quantity.read(column));
    const decimals = quantity.digits === 'figures' ? sharedDecimals(exact) : quantity.digits;
    const readings = exact.map((reading) => asShown(reading, decimals));
    const texts = readings.map((reading) => textOf(reading, decimals));
    const best = bestOf(readings, texts, quantity);
    return {
      id: quantity.id,
      group: quantity.group,
      name: typeof quantity.name === 'string' ? quantity.name : quantity.name(context),
      cells: readings.map((reading, index) => ({
        reading,
        text: texts[index],
        change: index === reference ? null : changeOf(readings[reference], reading, quantity, decimals),
        best: best.has(index),
      })),
    };
  });
}

/** Higher is better; null where a quantity judges nothing or a value is unknown. */
function scoreOf(reading: Reading, quantity: Quantity): number | null {
  if (reading.kind === 'words') return reading.rank === null ? null : -reading.rank;
  if (reading.kind !== 'number' || quantity.score === null) return null;
  return quantity.score(reading.number);
}

/** Most figures of the largest number of a row: more would be noise. */
const MOST_FIGURES = 5;

/** Digits behind the point that give the smallest number of a row three figures, if the largest then has not too many. */
function sharedDecimals(readings: readonly Reading[]): number {
  const sizes = readings.flatMap((reading) => (reading.kind === 'number' ? [Math.abs(reading.number)] : []));
  const powers = sizes.filter((size) => size > 0 && Number.isFinite(size)).map((size) => Math.floor(Math.log10(size)));
  if (powers.length === 0) return 0;
  return Math.max(0, Math.min(2 - Math.min(...powers), MOST_FIGURES - 1 - Math.max(...powers)));
}

/** The number that a person reads: differences are those of the shown numbers. */
function asShown(reading: Reading, decimals: number): Reading {
  if (reading.kind !== 'number' || !Number.isFinite(reading.number)) return reading;
  return { ...reading, number: Number(reading.number.toFixed(decimals)) + 0 };
}

function textOf(reading: Reading, decimals: number): string {
  switch (reading.kind) {
    case 'number':
      return reading.own ?? `${groupedText(reading.number, decimals)}${reading.note ?? ''}`;
    case 'words':
      return reading.words;
    case 'waiting':
      return '…';
    case 'failed':
      return `not computed: ${reading.reason}`;
  }
}

/** Places of the best values: none while something is unknown, nor where all read the same. */
function bestOf(readings: readonly Reading[], texts: readonly string[], quantity: Quantity): ReadonlySet<number> {
  const scores = readings.map((reading) => scoreOf(reading, quantity));
  const known = scores.filter((score) => score !== null);
  if (readings.length < 2 || known.length < readings.length) return new Set();
  const top = known.indexOf(Math.max(...known));
  const alike = texts.map((text, index) => text === texts[top] || scores[index] === scores[top]);
  return alike.every(Boolean) ? new Set() : new Set(alike.flatMap((same, index) => (same ? [index] : [])));
}

const isKnown = ({ kind }: Reading): boolean => kind === 'number' || kind === 'words';

/** The change from one reading to another; values that read the same are the same. */
function changeOf(from: Reading | undefined, to: Reading, quantity: Quantity, decimals: number): Change | null {
  if (from === undefined || !isKnown(from) || !isKnown(to)) return null;
  const alike = from.kind === 'number' && to.kind === 'number' && from.number === to.number;
  if (alike || textOf(from, decimals) === textOf(to, decimals))
    return { words: 'same', direction: 'same', judged: null };
  const judged = judgement(scoreOf(from, quantity), scoreOf(to, quantity));
  if (from.kind !== 'number' || to.kind !== 'number') return { words: 'differs', direction: 'other', judged };
  const change = to.number - from.number;
  const direction = change > 0 ? 'up' : 'down';
  if (!Number.isFinite(change)) {
    return { words: Number.isFinite(to.number) ? 'bounded' : 'without bound', direction, judged };
  }
  const sign = change > 0 ? '+' : '−';
  const share = shareWords(from.number, to.number);
  const amount = `${sign}${groupedText(Math.abs(change), decimals)}`;
  return { words: share === null ? amount : `${amount} (${sign}${share})`, direction, judged };
}

function judgement(before: number | null, now: number | null): Change['judged'] {
  if (before === null || now === null || before === now) return null;
  return now > before ? 'better' : 'worse';
}

/** Size of a change as a share of what it starts from; null where it starts from nothing. */
function shareWords(from: number, to: number): string | null {
  if (from === 0) return null;
  const percent = Math.abs((to / from - 1) * 100);
  return `${percent < 10 ? percent.toFixed(1) : percent.toFixed(0)}\u00a0%`;
}
