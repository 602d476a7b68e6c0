import { type SweepTable, sweepText, type TableSpan } from './sweep-text.ts';

// the first message says what the table is; every later one is a span of it, answered by its lines

let table: SweepTable | null = null;

process.on('message', (message: SweepTable | TableSpan) => {
  if ('sweep' in message) table = message;
  else if (table) process.send?.(sweepText(table, message));
});
