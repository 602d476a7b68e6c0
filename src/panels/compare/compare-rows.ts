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
    const readings = columns.map((column) => quantity.read(column));
    const best = bestOf(readings, quantity);
    return {
      id: quantity.id,
      group: quantity.group,
      name: typeof quantity.name === 'string' ? quantity.name : quantity.name(context),
      cells: readings.map((reading, index) => ({
        reading,
        change: index === reference ? null : changeOf(readings[reference], reading, quantity),
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

const textOf = (reading: Reading): string | null =>
  reading.kind === 'number' ? reading.text : reading.kind === 'words' ? reading.words : null;

/** Places of the best values: none while something is unknown, nor where all read the same. */
function bestOf(readings: readonly Reading[], quantity: Quantity): ReadonlySet<number> {
  const scores = readings.map((reading) => scoreOf(reading, quantity));
  const known = scores.filter((score) => score !== null);
  if (readings.length < 2 || known.length < readings.length) return new Set();
  const top = known.indexOf(Math.max(...known));
  const alike = readings.map((reading) => textOf(reading) === textOf(readings[top]));
  return alike.every(Boolean) ? new Set() : new Set(alike.flatMap((same, index) => (same ? [index] : [])));
}

/** The change from one reading to another; values that read the same are the same. */
function changeOf(from: Reading | undefined, to: Reading, quantity: Quantity): Change | null {
  if (from === undefined) return null;
  const before = textOf(from);
  const now = textOf(to);
  if (before === null || now === null) return null;
  if (before === now) return { words: 'same', direction: 'same', judged: null };
  const judged = judgement(scoreOf(from, quantity), scoreOf(to, quantity));
  if (from.kind !== 'number' || to.kind !== 'number') return { words: 'differs', direction: 'other', judged };
  const change = to.number - from.number;
  const direction = change > 0 ? 'up' : 'down';
  if (!Number.isFinite(change)) {
    return { words: Number.isFinite(to.number) ? 'bounded' : 'without bound', direction, judged };
  }
  const sign = change > 0 ? '+' : '−';
  const share = shareWords(from.number, to.number);
  const amount = `${sign}${quantity.amount(Math.abs(change))}`;
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
