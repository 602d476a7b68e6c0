import { lstat, readlink, realpath, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { type DesignFault, fault } from '../document/faults.ts';
import { failed, ok, type Result } from '../math/result.ts';
import { shownFile } from './input.ts';

/** What an output may take the place of. */
export interface OutputRules {
  /** Files that are read: none of them is ever written, under whatever name. */
  readonly inputs: readonly string[];
  /** Whether a file that is there may be replaced. */
  readonly replaces: boolean;
  /** Whether a link may be followed, and what it leads to replaced. */
  readonly follows: boolean;
}

/** Where an output goes. */
export interface OutputTarget {
  /** The path as it was given, for messages. */
  readonly shown: string;
  /** The path with links followed. */
  readonly path: string;
  /** Permission bits of the file whose place it takes; null for a new file. */
  readonly mode: number | null;
  /** Whether it is a device or a pipe: written as it stands, since nothing can be renamed onto it. */
  readonly stream: boolean;
}

/** Looks at where an output is to go before anything is computed or touched. */
export async function outputTarget(path: string, rules: OutputRules): Promise<Result<OutputTarget, DesignFault>> {
  const shown = shownFile(path);
  try {
    const entry = await lstat(path).catch(missingIsNull);
    if (entry?.isSymbolicLink() && !rules.follows) return failed(isLink(shown));
    const real = entry ? await linkEnd(path) : resolve(path);
    const found = await stat(real).catch(missingIsNull);
    if (!found) {
      const folder = await stat(dirname(real)).catch(missingIsNull);
      if (!folder?.isDirectory()) return failed(noFolder(shown));
      return ok({ shown, path: real, mode: null, stream: false });
    }
    if (found.isDirectory()) return failed(isFolder(shown));
    if (!found.isFile()) return ok({ shown, path: real, mode: null, stream: true });
    for (const input of rules.inputs) {
      // by what the disk calls it: two names of one file are one file
      const other = await stat(input).catch(missingIsNull);
      if (other?.ino === found.ino && other.dev === found.dev) return failed(isInput(shown));
    }
    // an empty file holds nothing that could be lost
    if (found.size > 0 && !rules.replaces) return failed(isThere(shown));
    return ok({ shown, path: real, mode: found.mode & PERMISSIONS, stream: false });
  } catch (error) {
    return failed(unwritable(shown, error));
  }
}

const PERMISSIONS = 0o777;

/** The end of a chain of links, also of one that leads to nothing yet. */
async function linkEnd(path: string): Promise<string> {
  const end = await realpath(path).catch(missingIsNull);
  return end ?? resolve(dirname(path), await readlink(path));
}

function missingIsNull(error: unknown): null {
  if (codeOf(error) === 'ENOENT' || codeOf(error) === 'ENOTDIR') return null;
  throw error;
}

const codeOf = (error: unknown): string => (error instanceof Error && 'code' in error ? String(error.code) : '');

const isLink = (shown: string): DesignFault =>
  fault('contradiction', shown, 'a link', 'a file itself', 'Name the file that it leads to, or add --force.');

const isInput = (shown: string): DesignFault =>
  fault('contradiction', shown, 'a file that is read too', 'another than the inputs', 'Name another file.');

const isThere = (shown: string): DesignFault =>
  fault('contradiction', shown, 'there already', 'a new file', 'Name another, or add --force to replace it.');

const noFolder = (shown: string): DesignFault =>
  fault('missing', shown, 'in a folder that is not there', 'in an existing folder', 'Make the folder first.');

const isFolder = (shown: string): DesignFault =>
  fault('contradiction', shown, 'a folder', 'a file', 'Name a file in it.');

/** Why a file could not be written; what to do when the storage is full may be more than to run the command again. */
export function unwritable(shown: string, error: unknown, whenFull = 'Free some space and run it again.'): DesignFault {
  switch (codeOf(error)) {
    case 'ENOSPC':
    case 'EDQUOT':
      return fault('tooLarge', shown, 'cut short: the storage is full', 'whole', whenFull);
    case 'ENOENT':
    case 'ENOTDIR':
      return noFolder(shown);
    case 'EISDIR':
      return isFolder(shown);
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return fault('contradiction', shown, 'not yours to write', 'a file that can be written', 'Name another place.');
    default: {
      const reason = error instanceof Error ? error.message : String(error);
      return fault('contradiction', shown, `not written (${reason})`, 'writable', 'Check the storage.');
    }
  }
}
