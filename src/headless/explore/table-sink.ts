import { type FileHandle, open, truncate } from 'node:fs/promises';
import type { DesignFault } from '../../document/faults.ts';
import { openBeside } from '../beside.ts';
import type { Io } from '../io.ts';
import { type OutputTarget, unwritable } from '../output-target.ts';
import type { TableProgress } from './table-resume.ts';

/** Where a table goes as it grows. Both may throw {@link TableNotWritten}. */
export interface TableSink {
  write(text: string): Promise<void>;
  close(): Promise<void>;
}

/** A table could not be written: full storage, no such folder, no permission. What was written before stays. */
export class TableNotWritten extends Error {
  override readonly name = 'TableNotWritten';

  constructor(readonly found: DesignFault) {
    super(found.message);
  }
}

/** A table on standard output. */
export const outputSink = (io: Io): TableSink => ({
  write: (text) => io.out(text),
  close: async () => undefined,
});

/**
 * A table in a file that grows while the sweep runs, so that a run that was killed can be gone on with. A new one begins beside
 * its place with its head and then takes it; an old one loses a last line that was never finished.
 */
export async function fileSink(target: OutputTarget, head: string, progress: TableProgress): Promise<TableSink> {
  const attempt = async <Value>(work: () => Promise<Value>): Promise<Value> => {
    try {
      return await work();
    } catch (error) {
      throw new TableNotWritten(unwritable(target.shown, error, 'Free some space and go on with --resume.'));
    }
  };
  if (progress.bytes > 0) await attempt(() => truncate(target.path, progress.bytes));
  else if (!target.stream) await beginTable(target, head);
  const file: FileHandle = await attempt(() => open(target.path, 'a'));
  if (progress.bytes === 0 && target.stream) await attempt(() => file.appendFile(head));
  return {
    write: (text) => attempt(() => file.appendFile(text)),
    close: () => attempt(() => file.close()),
  };
}

async function beginTable(target: OutputTarget, head: string): Promise<void> {
  const beside = await openBeside(target);
  if (!beside.ok) throw new TableNotWritten(beside.fault);
  const found = (await beside.value.write(head)) ?? (await beside.value.commit());
  if (!found) return;
  await beside.value.discard();
  throw new TableNotWritten(found);
}
