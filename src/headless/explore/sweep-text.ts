import { type Sweep, sweepRows } from '../../explore/sweep.ts';
import { neverStop } from '../../math/long-work.ts';
import { type TableColumns, type TableKind, tableLines } from './table-lines.ts';

/** A sweep and how its table is written. Plain data, free of the design file's own types: processes that share it start sooner. */
export interface SweepTable {
  readonly sweep: Sweep;
  readonly columns: TableColumns;
  readonly kind: TableKind;
}

/** Layouts from one index to before another. */
export interface TableSpan {
  readonly from: number;
  readonly to: number;
}

/** The table lines of one span. */
export function sweepText({ sweep, columns, kind }: SweepTable, { from, to }: TableSpan): string {
  // doubles: a sweep may have more layouts than 32 bits count
  const indices = Float64Array.from({ length: to - from }, (_, n) => from + n);
  return tableLines(kind, columns, sweep.grid, from, sweepRows(sweep, indices, neverStop));
}
