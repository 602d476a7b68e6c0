import { createReadStream } from 'node:fs';
import { open, stat, truncate } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import { type DesignFault, fault } from '../../document/faults.ts';
import { validateSweep } from '../../document/sweep-file.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { shownFile } from '../input.ts';
import { headLine, TABLE_FORMAT, type TableHead } from './table.ts';
import type { TableKind } from './table-lines.ts';

/** How far a table that is to be gone on with has come. */
export interface TableProgress {
  /** Whole lines of layouts in it. */
  readonly layouts: number;
}

/**
 * Looks at a table left by an earlier run, cuts off a last line that was never finished and counts the layouts in it. A table
 * of another design or sweep is refused and left alone; one that is not there is an empty one.
 */
export async function resumeTable(
  path: string,
  kind: TableKind,
  head: TableHead,
): Promise<Result<TableProgress, DesignFault>> {
  const size = await stat(path).then(
    (found) => found.size,
    () => 0,
  );
  if (size === 0) return ok({ layouts: 0 });
  const expected = headLine(kind, head);
  const { whole, firstLine, lines, lastLine } = await wholeLines(path);
  if (lines === 0) {
    await truncate(path, 0);
    return ok({ layouts: 0 });
  }
  if (`${firstLine}\n` !== expected) {
    const remedy = 'Name another table, or give the design, sweep and shard it was started with.';
    return failed(
      fault(
        'contradiction',
        shownFile(path),
        'a table of another design, sweep or shard',
        'the table to go on with',
        remedy,
      ),
    );
  }
  const layouts = lines - 1;
  if (layouts > 0 && layoutOf(kind, lastLine) !== head.from + layouts - 1) {
    return failed(
      fault(
        'contradiction',
        shownFile(path),
        'a table with lines missing',
        'a table as explore left it',
        'Start it anew.',
      ),
    );
  }
  await truncate(path, whole);
  return ok({ layouts });
}

/** Bytes up to the last line end, and the lines there. */
async function wholeLines(
  path: string,
): Promise<{ whole: number; firstLine: string; lines: number; lastLine: string }> {
  let whole = 0;
  let seen = 0;
  let lines = 0;
  let firstLine = '';
  let lastLine = '';
  let line: Buffer[] = [];
  for await (const chunk of createReadStream(path)) {
    const bytes = Buffer.isBuffer(chunk) ? chunk : Buffer.from(String(chunk));
    let from = 0;
    for (let end = bytes.indexOf(NEWLINE, from); end >= 0; end = bytes.indexOf(NEWLINE, from)) {
      line.push(bytes.subarray(from, end));
      lastLine = Buffer.concat(line).toString('utf8');
      if (lines === 0) firstLine = lastLine;
      line = [];
      lines++;
      whole = seen + end + 1;
      from = end + 1;
    }
    line.push(bytes.subarray(from));
    seen += bytes.length;
  }
  return { whole, firstLine, lines, lastLine };
}

const NEWLINE = 0x0a;

/** The layout a line is about, or NaN. */
function layoutOf(kind: TableKind, line: string): number {
  const match = kind === 'csv' ? /^(\d+),/.exec(line) : /^\{"layout":(\d+),/.exec(line);
  return Number(match?.[1]);
}

/** A part of a table, opened for joining. */
interface Part {
  readonly path: string;
  readonly firstLine: string;
  readonly from: number;
}

/**
 * Joins the shards of one table, given in any order, into the table that one run would have written. Every shard must be whole
 * and none may be missing.
 */
export async function mergeTables(
  paths: readonly string[],
  kind: TableKind,
  write: (text: string) => Promise<void>,
): Promise<Result<{ layouts: number }, readonly DesignFault[]>> {
  const parts: Part[] = [];
  for (const path of paths) {
    const part = await openPart(path, kind);
    if (!part.ok) return failed([part.fault]);
    parts.push(part.value);
  }
  parts.sort((a, b) => a.from - b.from);
  const heads = parts.map(({ firstLine }) => sharedHead(kind, firstLine));
  const stranger = heads.findIndex((head) => head !== heads[0]);
  if (stranger >= 0) {
    const remedy = 'Join shards of one sweep about one design.';
    return failed([
      fault(
        'contradiction',
        shownFile(parts[stranger].path),
        'a table of another sweep',
        'a shard of the same table',
        remedy,
      ),
    ]);
  }
  let next = 0;
  await write(heads[0]);
  for (const { path, from } of parts) {
    if (from !== next) return failed([gap(path, from, next)]);
    const expected = kind === 'ndjson' ? spanOf(await firstLineOf(path)) : null;
    let first = true;
    for await (const line of createInterface({ input: createReadStream(path), crlfDelay: Number.POSITIVE_INFINITY })) {
      if (first) {
        first = false;
        continue;
      }
      if (layoutOf(kind, line) !== next) return failed([gap(path, layoutOf(kind, line), next)]);
      await write(`${line}\n`);
      next++;
    }
    if (expected && expected.to !== next) return failed([gap(path, next, expected.to)]);
  }
  // a CSV table does not say how many layouts the sweep has
  const layouts = readHead(heads[0])?.to ?? next;
  const last = parts[parts.length - 1];
  return layouts === next ? ok({ layouts }) : failed([gap(last.path, next, layouts)]);
}

function gap(path: string, found: number, wanted: number): DesignFault {
  const value = Number.isNaN(found) ? 'broken' : `at layout ${found}`;
  return fault(
    'contradiction',
    shownFile(path),
    value,
    `at layout ${wanted} there`,
    'Give every shard once, each finished.',
  );
}

async function openPart(path: string, kind: TableKind): Promise<Result<Part, DesignFault>> {
  const firstLine = await firstLineOf(path).catch(() => null);
  if (firstLine === null) {
    return failed(
      fault(
        'missing',
        shownFile(path),
        'not a table that can be read',
        'a table that explore wrote',
        'Check the path.',
      ),
    );
  }
  if (kind === 'csv') {
    if (!firstLine.startsWith('layout,')) return failed(notATable(path));
    return ok({ path, firstLine, from: layoutOf('csv', await secondLineOf(path)) });
  }
  const span = spanOf(firstLine);
  return span ? ok({ path, firstLine, from: span.from }) : failed(notATable(path));
}

const notATable = (path: string): DesignFault =>
  fault('notADesign', shownFile(path), 'no sweep table', 'a table that explore wrote', 'Give tables of one kind.');

async function firstLineOf(path: string): Promise<string> {
  return (await firstLines(path, 1)).at(0) ?? '';
}

async function secondLineOf(path: string): Promise<string> {
  return (await firstLines(path, 2)).at(1) ?? '';
}

async function firstLines(path: string, count: number): Promise<string[]> {
  const file = await open(path);
  try {
    const lines: string[] = [];
    for await (const line of file.readLines()) {
      lines.push(line);
      if (lines.length === count) break;
    }
    return lines;
  } finally {
    await file.close();
  }
}

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

const spanOf = (line: string): { from: number; to: number } | null => readHead(line);

/** The head of the whole table that a shard's head belongs to. */
function sharedHead(kind: TableKind, firstLine: string): string {
  if (kind === 'csv') return `${firstLine}\n`;
  const head = readHead(firstLine);
  if (!head) return '';
  const layouts = head.sweep.variables.reduce((product, { count }) => product * count, 1);
  return headLine('ndjson', { ...head, from: 0, to: layouts });
}
