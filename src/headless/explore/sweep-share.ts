import { type SweepTable, sweepText, type TableSpan } from './sweep-text.ts';

// the first message says what the table is; every later one is a span of it, answered by its lines

let table: SweepTable | null = null;

process.on('message', (message: SweepTable | TableSpan) => {
  if ('sweep' in message) table = message;
  // a failure to send means that the command has ended; what that is for us is said below
  else if (table) process.send?.(sweepText(table, message), undefined, undefined, () => undefined);
});

// the command has ended, however: so does this process, and has nothing to say about it
process.on('disconnect', () => process.exit());
