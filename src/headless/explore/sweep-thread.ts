import { parentPort, workerData } from 'node:worker_threads';
import type { DesignDocument } from '../../document/design.ts';
import type { SweepDocument } from '../../document/sweep-file.ts';
import { sweepText } from './sweep-text.ts';
import type { TableKind, TableSpan } from './table.ts';

/** What a thread is started with. */
export interface ThreadStart {
  readonly document: DesignDocument;
  readonly sweep: SweepDocument;
  readonly kind: TableKind;
}

const start: ThreadStart = workerData;

parentPort?.on('message', (span: TableSpan) => {
  parentPort?.postMessage({ span, text: sweepText(start, span) });
});
