import { createHash } from 'node:crypto';
import { type SweepDocument, sweepSize, sweepValues } from '../../document/sweep-file.ts';
import type { TableSpan } from './sweep-text.ts';
import { figureColumns, type TableColumns, type TableKind } from './table-lines.ts';

/** What a table's first line says about it. */
export interface TableHead extends TableSpan {
  /** Fingerprint of the design. */
  readonly design: string;
  readonly sweep: SweepDocument;
}

/** First key of an NDJSON table's head line. */
export const TABLE_FORMAT = 'legroom-sweep-table';

/** What stands before the fingerprint in the first line of a CSV table: its format and version. */
const CSV_MARK = '# legroom-sweep 1 ';

/** The lines of a table before its layouts. */
export function headLines(kind: TableKind, head: TableHead): readonly string[] {
  const { design, sweep, from, to } = head;
  if (kind === 'csv') return [`${CSV_MARK}${fingerprint(design, sweep)}`, columnNames(sweep).join(',')];
  return [JSON.stringify({ format: TABLE_FORMAT, version: 1, design, from, to, sweep })];
}

/** How many lines stand before the layouts. */
export const HEAD_LINES: Readonly<Record<TableKind, number>> = { csv: 2, ndjson: 1 };

/** Names a design and a sweep by their content, and says how many layouts the whole table has. */
function fingerprint(design: string, sweep: SweepDocument): string {
  const hash = createHash('sha256')
    .update(`${design}\n${JSON.stringify(sweep)}`)
    .digest('hex');
  return `${hash.slice(0, HASH_DIGITS)}-${sweepSize(sweep)}`;
}

/** Hexadecimal digits of a fingerprint: 64 bits, by which no two designs of one person meet. */
const HASH_DIGITS = 16;

/** Layouts of the whole table that the first line of a CSV table is of; null for any other line. */
export function layoutsOfMark(line: string): number | null {
  const match = /^# legroom-sweep 1 [0-9a-f]{16}-(\d{1,16})$/.exec(line);
  return match ? Number(match[1]) : null;
}

/** Names of all columns in order. */
export const columnNames = (sweep: SweepDocument): readonly string[] => [
  'layout',
  ...sweep.variables.map(({ name }) => name),
  ...figureColumns(),
];

/** What the lines of a sweep's table need to know of it. */
export const tableColumns = (sweep: SweepDocument): TableColumns => ({
  names: columnNames(sweep),
  values: sweep.variables.map((variable) => [...sweepValues(variable)]),
});

/** Layouts of shard `number` of `count`: even consecutive spans, so that joined shards are the whole table. */
export function shardSpan(layouts: number, number: number, count: number): TableSpan {
  // by quotient and remainder: layouts times shards may be more than a double counts
  const each = Math.floor(layouts / count);
  const over = layouts % count;
  const before = (shards: number): number => each * shards + Math.floor((over * shards) / count);
  return { from: before(number - 1), to: before(number) };
}
