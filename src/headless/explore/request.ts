import { type DesignFault, fault } from '../../document/faults.ts';
import { tooMany } from '../arguments.ts';
import { ONE_DESIGN } from '../design-verb.ts';
import { file, flag, text } from '../option.ts';
import type { FileArguments, Given } from '../verb.ts';
import type { TableKind } from './table-lines.ts';

/** One shard of so many. */
export interface Shard {
  readonly number: number;
  readonly count: number;
}

/** Most shards of one sweep: the largest there may be then has some ten million layouts in each. */
const MOST_SHARDS = 1_000_000_000;

export const SPEC = file('spec', 'SWEEP.json');
export const SHARD = text<Shard>('shard', 'i/n', {
  read: shardOf,
  limit: `i/n with i from 1 to n, n up to ${MOST_SHARDS}`,
  remedy: 'Write --shard 1/4.',
});
export const RESUME = flag('resume');
export const LARGE = flag('large');
export const OUT = file('out', 'TABLE.ndjson', ['.ndjson', '.csv']);
export const MERGE = flag('merge');

/** The design of a sweep, or the tables to be joined. */
export const EXPLORE_FILES: FileArguments = { ...ONE_DESIGN, most: Number.POSITIVE_INFINITY, least: 0 };

/** What does not go together; every fault is found, not only the first. */
export function exploreFaults({ files, has }: Given): readonly DesignFault[] {
  return has(MERGE) ? mergeFaults(files, has) : sweepFaults(files, has);
}

function mergeFaults(files: Given['files'], has: Given['has']): readonly DesignFault[] {
  const faults: DesignFault[] = [];
  if (files.length === 0) faults.push(fault('missing', 'PART', 'missing', 'the tables to be joined', 'Name them.'));
  if ([SPEC, SHARD, RESUME].some(has)) {
    const limit = 'alone or with --out';
    faults.push(fault('contradiction', '--merge', 'given with options of a sweep', limit, 'Leave them out.'));
  }
  return faults;
}

function sweepFaults([design, ...others]: Given['files'], has: Given['has']): readonly DesignFault[] {
  const faults: DesignFault[] = [];
  if (design === undefined) faults.push(fault('missing', 'FILE', 'missing', ONE_DESIGN.limit, 'Write explore FILE.'));
  faults.push(...others.map((other) => tooMany(other, 'one design file')));
  if (has(RESUME) && !has(OUT)) {
    const limit = 'given with the table to go on with';
    faults.push(fault('contradiction', '--resume', 'given without --out', limit, 'Add --out TABLE.'));
  }
  return faults;
}

/** The kind of table that a file's ending asks for; objects a line for standard output. */
export const tableKind = (out: string | undefined): TableKind => (out?.endsWith('.csv') ? 'csv' : 'ndjson');

function shardOf(typed: string): Shard | null {
  const match = /^(\d{1,10})\/(\d{1,10})$/.exec(typed);
  const number = Number(match?.[1]);
  const count = Number(match?.[2]);
  return match && number >= 1 && number <= count && count <= MOST_SHARDS ? { number, count } : null;
}
