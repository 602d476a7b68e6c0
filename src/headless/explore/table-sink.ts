import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import { finished } from 'node:stream/promises';
import { type DesignFault, fault } from '../../document/faults.ts';
import { shownFile } from '../input.ts';
import type { Io } from '../io.ts';

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

/** A file written as it grows, or standard output; rejects with {@link TableNotWritten} where the file cannot be opened. */
export async function openSink(path: string | null, append: boolean, io: Io): Promise<TableSink> {
  if (path === null) {
    return {
      write: (text) => io.out(text),
      close: async () => undefined,
    };
  }
  const stream = createWriteStream(path, { flags: append ? 'a' : 'w' });
  let failure: TableNotWritten | null = null;
  stream.on('error', (error) => {
    failure = new TableNotWritten(unwritable(path, error));
  });
  const check = (): void => {
    if (failure) throw failure;
  };
  // errors are noted above
  const quietly = (event: Promise<unknown>) => event.catch(() => undefined);
  await quietly(once(stream, 'open'));
  check();
  return {
    write: async (text) => {
      check();
      if (!stream.write(text)) await quietly(once(stream, 'drain'));
      check();
    },
    close: async () => {
      stream.end();
      await quietly(finished(stream));
      check();
    },
  };
}

function unwritable(path: string, error: Error): DesignFault {
  const place = shownFile(path);
  switch ('code' in error ? error.code : '') {
    case 'ENOSPC':
    case 'EDQUOT':
      return fault('tooLarge', place, 'cut short: the storage is full', 'whole', FREE_SPACE);
    case 'ENOENT':
    case 'ENOTDIR':
      return fault(
        'missing',
        place,
        'in a folder that is not there',
        'in an existing folder',
        'Make the folder first.',
      );
    case 'EISDIR':
      return fault('contradiction', place, 'a folder', 'a file', 'Name a file in it.');
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return fault('contradiction', place, 'not yours to write', 'a file that can be written', 'Name another place.');
    default:
      return fault('contradiction', place, `not written (${error.message})`, 'writable', 'Check the storage.');
  }
}

const FREE_SPACE = 'Free some space and go on with --resume.';
