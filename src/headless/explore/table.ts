import { type SweepDocument, sweepValues } from '../../document/sweep-file.ts';
import type { TableSpan } from './sweep-text.ts';
import { figureColumns, type TableColumns, type TableKind } from './table-lines.ts';

/** What a table's first line says about it. */
export interface TableHead extends TableSpan {
  /** Fingerprint of the design. */
  readonly design: string;
  readonly sweep: SweepDocument;
}

/** First key of a table's head line. */
export const TABLE_FORMAT = 'legroom-sweep-table';

/** First line of a table. */
export function headLine(kind: TableKind, head: TableHead): string {
  if (kind === 'csv') return `${columnNames(head.sweep).join(',')}\n`;
  const { design, sweep, from, to } = head;
  return `${JSON.stringify({ format: TABLE_FORMAT, version: 1, design, from, to, sweep })}\n`;
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
export const shardSpan = (layouts: number, number: number, count: number): TableSpan => ({
  from: Math.floor((layouts * (number - 1)) / count),
  to: Math.floor((layouts * number) / count),
});
