import { type FileHandle, open, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { DesignFault } from '../document/faults.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { type OutputTarget, unwritable } from './output-target.ts';

/**
 * A file that is written beside its place and takes it once it is whole: whoever looks there finds the old file or the
 * new one, and never half of one, also after the power went.
 */
export interface BesideFile {
  write(bytes: Uint8Array | string): Promise<DesignFault | null>;
  /** Renames it into its place. */
  commit(): Promise<DesignFault | null>;
  /** Takes it away; its place is as it was. */
  discard(): Promise<void>;
}

/** Opens a file beside its place; a device or a pipe is written as it stands. */
export async function openBeside(target: OutputTarget): Promise<Result<BesideFile, DesignFault>> {
  const { path, shown, mode, stream } = target;
  // hidden and with the process in its name: no glob takes it for a result, and no two runs for their own
  const beside = stream ? path : join(dirname(path), `.${basename(path)}.${process.pid}.new`);
  const fails = async (work: () => Promise<unknown>): Promise<DesignFault | null> => {
    try {
      await work();
      return null;
    } catch (error) {
      return unwritable(shown, error);
    }
  };
  let file: FileHandle;
  try {
    file = await open(beside, 'w', mode ?? undefined);
  } catch (error) {
    return failed(unwritable(shown, error));
  }
  return ok({
    write: (bytes) => fails(() => file.writeFile(bytes)),
    commit: () =>
      fails(async () => {
        if (!stream) await file.sync();
        await file.close();
        if (!stream) await rename(beside, path);
      }),
    async discard() {
      await fails(() => file.close());
      if (!stream) await rm(beside, { force: true });
    },
  });
}
