import type { DesignDocument } from '../../document/design.ts';
import type { SweepDocument } from '../../document/sweep-file.ts';
import { sweepText } from './sweep-text.ts';
import type { TableKind, TableSpan } from './table.ts';

/** First message to a process that shares a sweep; every later one is a {@link TableSpan}, answered by its lines. */
export interface ShareStart {
  readonly document: DesignDocument;
  readonly sweep: SweepDocument;
  readonly kind: TableKind;
}

let start: ShareStart | null = null;

process.on('message', (message: ShareStart | TableSpan) => {
  if ('sweep' in message) start = message;
  else if (start) process.send?.(sweepText(start, message));
});
