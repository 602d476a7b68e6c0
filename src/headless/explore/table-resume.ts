import { stat } from 'node:fs/promises';
import { type DesignFault, fault } from '../../document/faults.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { shownFile } from '../input.ts';
import { sweepLineForm } from './line-form.ts';
import { headLines, layoutsOfMark, type TableHead } from './table.ts';
import type { TableKind } from './table-lines.ts';
import { visitLines } from './table-text.ts';

/** How far a table that is to be gone on with has come. */
export interface TableProgress {
  /** Whole lines of layouts in it. */
  readonly layouts: number;
  /** Length of the table up to the last of them [bytes]: what stands behind is a line that was never finished. */
  readonly bytes: number;
}

/** Nothing of a table is there yet. */
export const NO_TABLE: TableProgress = { layouts: 0, bytes: 0 };

/**
 * Looks at a table left by an earlier run and touches nothing. Anything but a table of this design, sweep and shard, each of
 * its lines in its place, is refused; a file that is empty or not there is a table not begun.
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
  if (size === 0) return ok(NO_TABLE);
  const heads = headLines(kind, head);
  const form = sweepLineForm(kind, head.sweep);
  let lines = 0;
  let bytes = 0;
  let found: DesignFault | null = null;
  const { rest } = await visitLines(path, (line, end) => {
    if (lines < heads.length) {
      if (line !== heads[lines])
        found = lines === 0 ? strange(path, kind, line, heads[0]) : isOlder(line) ? older(path) : edited(path);
    } else {
      const layout = head.from + lines - heads.length;
      if (layout >= head.to || !form.fits(line, layout))
        found = kind === 'ndjson' && isOlder(line) ? older(path) : edited(path, layout);
    }
    if (found) return false;
    lines++;
    bytes = end;
    return true;
  });
  if (found) return failed(found);
  const layouts = Math.max(0, lines - heads.length);
  const next = head.from + layouts;
  if (lines < heads.length) return rest !== null && heads[lines].startsWith(rest) ? ok(NO_TABLE) : failed(other(path));
  if (rest === null || (rest !== '' && !(next < head.to && form.mayBecome(rest, next))))
    return failed(edited(path, next));
  return ok({ layouts, bytes });
}

function strange(path: string, kind: TableKind, line: string, wanted: string): DesignFault {
  // an editor or a spreadsheet that writes other line ends
  if (line === `${wanted}\r`) return edited(path);
  return kind === 'csv' && layoutsOfMark(line) === null ? unmarked(path) : other(path);
}

/** A line with the figures that tables had before they told what can be built. */
const isOlder = (line: string): boolean => line.includes('spareStroke_mm') && !line.includes('buildGap_mm');

function older(path: string): DesignFault {
  const value = 'begun by an earlier version, without what can be built';
  return fault('contradiction', shownFile(path), value, 'a table with every column', 'Weigh the layouts anew.');
}

function other(path: string): DesignFault {
  const remedy = 'Name another table, or give the design, sweep and shard it was started with.';
  const value = 'a table of another design, sweep or shard';
  return fault('contradiction', shownFile(path), value, 'the table to go on with', remedy);
}

/** Refuses a CSV table of which nobody can tell what it is a table of. */
export const unmarked = (path: string): DesignFault =>
  fault(
    'notADesign',
    shownFile(path),
    'without the fingerprint of its design and sweep',
    'a table that begins with # legroom-sweep 1',
    'Weigh the layouts anew, into another file.',
  );

/** Refuses a table whose lines are not as they were written. */
export function edited(path: string, layout?: number): DesignFault {
  const value = layout === undefined ? 'edited in its head' : `edited, sorted or damaged at layout ${layout}`;
  return fault('contradiction', shownFile(path), value, 'a table as explore left it', 'Weigh the layouts anew.');
}
