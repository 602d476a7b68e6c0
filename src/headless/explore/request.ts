import { parseArgs } from 'node:util';
import { type DesignFault, fault, quoted } from '../../document/faults.ts';
import { nearestKey } from '../../document/known-keys.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import type { TableKind } from './table-lines.ts';

/** What the explore verb was asked to do. */
export type ExploreRequest =
  | {
      readonly kind: 'sweep';
      readonly design: string;
      /** Sweep file; null for the standard sweep. */
      readonly spec: string | null;
      readonly shard: { readonly number: number; readonly count: number };
      readonly resume: boolean;
      readonly large: boolean;
      /** Table file; null for standard output. */
      readonly out: string | null;
      readonly table: TableKind;
    }
  | {
      readonly kind: 'merge';
      readonly parts: readonly string[];
      readonly out: string | null;
      readonly table: TableKind;
    };

const OPTIONS = {
  spec: { type: 'string' },
  shard: { type: 'string' },
  resume: { type: 'boolean' },
  large: { type: 'boolean' },
  out: { type: 'string' },
  merge: { type: 'boolean' },
} as const;

export const EXPLORE_USAGE =
  'FILE [--spec SWEEP.json] [--shard i/n] [--resume] [--large] [--out TABLE.ndjson|TABLE.csv], or --merge PART... [--out TABLE]';

/** Reads the arguments after `explore`; every fault is found, not only the first. */
export function readExploreRequest(argv: readonly string[]): Result<ExploreRequest, readonly DesignFault[]> {
  const { tokens, values, positionals } = parseArgs({
    args: [...argv],
    options: OPTIONS,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const faults: DesignFault[] = tokens.flatMap((token) => {
    if (token.kind !== 'option') return [];
    return Object.hasOwn(OPTIONS, token.name) ? [] : [unknownOption(token.rawName)];
  });
  const text = (name: 'spec' | 'shard' | 'out'): string | null => {
    const value = values[name];
    if (typeof value === 'string' && value !== '') return value;
    if (value !== undefined) {
      faults.push(
        fault('missing', `--${name}`, 'without its value', EXPECTED[name], `Write --${name} ${EXPECTED[name]}.`),
      );
    }
    return null;
  };
  const out = text('out');
  const table = tableKind(out, faults);
  const spec = text('spec');
  const shard = shardOf(text('shard'), faults);
  if (values.merge === true) {
    if (positionals.length === 0)
      faults.push(fault('missing', 'PART', 'missing', 'the tables to be joined', 'Name them.'));
    if (spec !== null || values.shard !== undefined || values.resume === true) {
      faults.push(
        fault('contradiction', '--merge', 'given with options of a sweep', 'alone or with --out', 'Leave them out.'),
      );
    }
    return faults.length > 0 ? failed(faults) : ok({ kind: 'merge', parts: positionals, out, table });
  }
  const [design, ...others] = positionals;
  if (design === undefined) {
    faults.push(fault('missing', 'FILE', 'missing', 'a design file, or - for standard input', 'Write explore FILE.'));
  }
  for (const other of others) {
    faults.push(fault('unknownKey', quoted(other), 'one argument too many', 'left out', 'Give one design file.'));
  }
  if (values.resume === true && out === null) {
    faults.push(
      fault(
        'contradiction',
        '--resume',
        'given without --out',
        'given with the table to go on with',
        'Add --out TABLE.',
      ),
    );
  }
  if (faults.length > 0 || design === undefined) return failed(faults);
  const [resume, large] = [values.resume === true, values.large === true];
  return ok({ kind: 'sweep', design, spec, shard, resume, large, out, table });
}

const EXPECTED = { spec: 'SWEEP.json', shard: 'i/n', out: 'TABLE.ndjson' } as const;

function unknownOption(rawName: string): DesignFault {
  const known = Object.keys(OPTIONS);
  const near = nearestKey(rawName.replace(/^-+/, ''), known);
  const limit = `one of ${known.map((name) => `--${name}`).join(', ')}`;
  const shown = /^--?[\w-]{1,40}$/.test(rawName) ? rawName : quoted(rawName);
  return fault('unknownKey', shown, 'an unknown option', limit, near ? `Write --${near}.` : 'Leave it out.');
}

function tableKind(out: string | null, faults: DesignFault[]): TableKind {
  if (out === null || out.endsWith('.ndjson')) return 'ndjson';
  if (out.endsWith('.csv')) return 'csv';
  faults.push(fault('outOfRange', '--out', quoted(out), 'a name that ends in .ndjson or .csv', 'Rename it.'));
  return 'ndjson';
}

/** Most shards of one sweep; more than any batch scheduler is given. */
const MOST_SHARDS = 100_000;

function shardOf(text: string | null, faults: DesignFault[]): { number: number; count: number } {
  if (text === null) return { number: 1, count: 1 };
  const match = /^(\d{1,6})\/(\d{1,6})$/.exec(text);
  const number = Number(match?.[1]);
  const count = Number(match?.[2]);
  if (match && number >= 1 && number <= count && count <= MOST_SHARDS) return { number, count };
  faults.push(
    fault(
      'outOfRange',
      '--shard',
      quoted(text),
      `i/n with i from 1 to n, n up to ${MOST_SHARDS}`,
      'Write --shard 1/4.',
    ),
  );
  return { number: 1, count: 1 };
}
