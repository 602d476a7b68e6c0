import { mkdir } from 'node:fs/promises';
import type { DesignFault } from '../document/faults.ts';
import { type BesideFile, openBeside } from './beside.ts';
import { shownFile } from './input.ts';
import { type OutputRules, outputTarget, unwritable } from './output-target.ts';
import type { Outcome } from './verb.ts';

/** Writes the files of an outcome, all of them or none; a fault says why none was written. */
export async function writeFiles({ files = [], folder }: Outcome, rules: OutputRules): Promise<DesignFault | null> {
  if (folder !== undefined && files.length > 0) {
    try {
      await mkdir(folder, { recursive: true });
    } catch (error) {
      return unwritable(shownFile(folder), error);
    }
  }
  const written: BesideFile[] = [];
  const giveUp = async (found: DesignFault): Promise<DesignFault> => {
    await Promise.all(written.map((file) => file.discard()));
    return found;
  };
  for (const { name, bytes } of files) {
    const target = await outputTarget(name, rules);
    if (!target.ok) return giveUp(target.fault);
    const opened = await openBeside(target.value);
    if (!opened.ok) return giveUp(opened.fault);
    written.push(opened.value);
    const found = await opened.value.write(bytes);
    if (found) return giveUp(found);
  }
  for (const file of written) {
    const found = await file.commit();
    if (found) return giveUp(found);
  }
  return null;
}
