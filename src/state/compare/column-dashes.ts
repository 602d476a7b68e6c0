import type { ComparedColumn } from '../../jobs/compare-service.ts';

/** Dashes of each column's line [CSS px], so that lines are told apart without colour; the first is drawn through. */
export const COLUMN_DASHES: Readonly<Record<ComparedColumn, string | undefined>> = {
  a: undefined,
  b: '9 4',
  c: '2.5 3',
  d: '10 3 2 3',
};
