import { createReadStream } from 'node:fs';
import { type DesignFault, fault } from '../../document/faults.ts';
import { sweepSize, validateSweep } from '../../document/sweep-file.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { shownFile } from '../input.ts';
import { columnLineForm, type LineForm, sweepLineForm } from './line-form.ts';
import { HEAD_LINES, headLines, layoutsOfMark, TABLE_FORMAT, type TableHead } from './table.ts';
import { figureColumns, type TableKind } from './table-lines.ts';
import { edited, unmarked } from './table-resume.ts';
import { firstLines, visitLines } from './table-text.ts';

/** A part of a table, of which only the beginning has been read. */
interface Part {
  readonly path: string;
  /** Lines before the layouts of the whole table that this is a part of. */
  readonly heads: readonly string[];
  /** First layout; null where a part has none and does not say. */
  readonly from: number | null;
  /** The layout behind its last one, where the part says so. */
  readonly to: number | null;
  /** Layouts of the whole table. */
  readonly layouts: number;
  readonly form: LineForm;
}

/** Parts that are known to make one whole table. */
export interface WholeTable {
  readonly layouts: number;
  /** Its text, piece by piece. */
  pieces(): AsyncGenerator<Uint8Array | string>;
}

/**
 * Looks through the shards of one table, given in any order, for whether they make the table that one run would have written:
 * each whole, none missing, every line in its place. Nothing is written here.
 */
export async function mergeTables(paths: readonly string[], kind: TableKind): Promise<Result<WholeTable, DesignFault>> {
  const parts: Part[] = [];
  for (const path of paths) {
    const part = await openPart(path, kind);
    if (!part.ok) return part;
    parts.push(part.value);
  }
  const [{ heads, layouts }] = parts;
  const stranger = parts.find((part) => part.heads.join('\n') !== heads.join('\n'));
  if (stranger) return failed(another(stranger.path));
  const filled = parts.filter(({ from, to }) => from !== null && from !== to);
  filled.sort((a, b) => (a.from ?? 0) - (b.from ?? 0));
  let next = 0;
  const starts: number[] = [];
  for (const part of filled) {
    const read = await readPart(part, kind, next);
    if (!read.ok) return read;
    next = read.value.next;
    starts.push(read.value.start);
  }
  if (next !== layouts) return failed(gap(paths[paths.length - 1], 'at its end', `followed by layout ${next}`));
  return ok({ layouts, pieces: () => tablePieces(heads, filled, starts) });
}

async function* tablePieces(heads: readonly string[], parts: readonly Part[], starts: readonly number[]) {
  yield heads.map((line) => `${line}\n`).join('');
  for (let n = 0; n < parts.length; n++) {
    for await (const chunk of createReadStream(parts[n].path, { start: starts[n] })) {
      yield Buffer.isBuffer(chunk) ? chunk : String(chunk);
    }
  }
}

/** Looks at every line; says where the layouts begin [bytes] and which comes after the part. */
async function readPart(
  { path, from, to, form }: Part,
  kind: TableKind,
  wanted: number,
): Promise<Result<{ start: number; next: number }, DesignFault>> {
  if (from !== wanted) return failed(gap(path, `at layout ${from}`, `at layout ${wanted} there`));
  let lines = 0;
  let start = 0;
  let next = wanted;
  let found: DesignFault | null = null;
  const { rest } = await visitLines(path, (line, end) => {
    if (lines++ < HEAD_LINES[kind]) start = end;
    else if (to !== null && next >= to) found = edited(path, next);
    else if (form.fits(line, next)) next++;
    else found = edited(path, next);
    return found === null;
  });
  if (found) return failed(found);
  if (rest !== '' || (to !== null && next !== to)) return failed(gap(path, `cut at layout ${next}`, 'finished'));
  return ok({ start, next });
}

const gap = (path: string, value: string, limit: string): DesignFault =>
  fault('contradiction', shownFile(path), value, limit, 'Give every shard once, each finished.');

const another = (path: string): DesignFault =>
  fault(
    'contradiction',
    shownFile(path),
    'a table of another design or sweep',
    'a shard of the same table',
    'Join shards of one sweep about one design.',
  );

async function openPart(path: string, kind: TableKind): Promise<Result<Part, DesignFault>> {
  let lines: readonly string[];
  try {
    lines = await firstLines(path, HEAD_LINES[kind] + 1);
  } catch {
    const value = 'not a table that can be read';
    return failed(fault('missing', shownFile(path), value, 'a table that explore wrote', 'Check the path.'));
  }
  return kind === 'csv' ? csvPart(path, lines) : ndjsonPart(path, lines);
}

function csvPart(path: string, [mark = '', names = '', line]: readonly string[]): Result<Part, DesignFault> {
  const layouts = layoutsOfMark(mark);
  if (mark.endsWith('\r')) return failed(edited(path));
  if (layouts === null) return failed(mark.startsWith('layout,') ? unmarked(path) : notATable(path));
  const columns = names.split(',');
  const figures = figureColumns();
  if (columns[0] !== 'layout' || columns.slice(-figures.length).join() !== figures.join()) return failed(edited(path));
  const from = line === undefined ? null : Number(/^(\d+),/.exec(line)?.[1]);
  if (Number.isNaN(from)) return failed(edited(path, 0));
  return ok({ path, heads: [mark, names], from, to: null, layouts, form: columnLineForm(columns) });
}

function ndjsonPart(path: string, [line = '']: readonly string[]): Result<Part, DesignFault> {
  const head = readHead(line);
  if (!head) return failed(notATable(path));
  const layouts = sweepSize(head.sweep);
  const heads = headLines('ndjson', { ...head, from: 0, to: layouts });
  return ok({ path, heads, from: head.from, to: head.to, layouts, form: sweepLineForm('ndjson', head.sweep) });
}

const notATable = (path: string): DesignFault =>
  fault('notADesign', shownFile(path), 'no sweep table', 'a table that explore wrote', 'Give tables of one kind.');

/** What a head line of NDJSON says, or null. */
function readHead(line: string): TableHead | null {
  try {
    const value: unknown = JSON.parse(line);
    if (typeof value !== 'object' || value === null || !('format' in value) || value.format !== TABLE_FORMAT)
      return null;
    if (!('from' in value && 'to' in value && 'design' in value && 'sweep' in value)) return null;
    const { from, to, design } = value;
    const sweep = validateSweep(value.sweep);
    if (typeof from !== 'number' || typeof to !== 'number' || typeof design !== 'string' || !sweep.ok) return null;
    return { from, to, design, sweep: sweep.value };
  } catch {
    return null;
  }
}
