import type { SweepDocument } from '../../document/sweep-file.ts';
import { sweepAxes } from '../../document/sweep-file.ts';
import { tableColumns } from './table.ts';
import {
  cellStarts,
  figureCells,
  figureColumns,
  lineEnd,
  lineStart,
  type TableKind,
  VARIABLE_CELL,
} from './table-lines.ts';

/** What the line of a layout must be like; what was edited by hand, sorted or cut is not. */
export interface LineForm {
  fits(line: string, layout: number): boolean;
  /** Whether a line that was cut off may have been this layout's. */
  mayBecome(cut: string, layout: number): boolean;
}

/** Lines of a known sweep: number, variables and the form of every figure. */
export function sweepLineForm(kind: TableKind, sweep: SweepDocument): LineForm {
  const start = lineStart(kind, tableColumns(sweep), sweepAxes(sweep));
  const figures = lineForm(kind, figureColumns(), figureCells(kind), sweep.variables.length + 1);
  return {
    fits(line, layout) {
      const expected = start(layout);
      return line.startsWith(expected) && figures.test(line.slice(expected.length));
    },
    mayBecome(cut, layout) {
      const expected = start(layout);
      return expected.startsWith(cut) || cut.startsWith(expected);
    },
  };
}

/** Lines of a CSV table of which only the columns are known: number, and the form of every cell. */
export function columnLineForm(columns: readonly string[]): LineForm {
  const variables = columns.length - 1 - figureColumns().length;
  const cells = [...new Array<string>(variables).fill(VARIABLE_CELL), ...figureCells('csv')];
  const behind = lineForm('csv', columns.slice(1), cells, 1);
  return {
    fits: (line, layout) => line.startsWith(`${layout},`) && behind.test(line.slice(String(layout).length)),
    mayBecome: () => true,
  };
}

/** The cells of a line from one column on, as far as its end. */
function lineForm(kind: TableKind, names: readonly string[], cells: readonly string[], first: number): RegExp {
  // only what stands before a cell matters, and that of the very first cell is not asked for
  const before = cellStarts(kind, [...new Array<string>(first).fill(''), ...names]).slice(first);
  return new RegExp(`^${before.map((start, n) => escaped(start) + cells[n]).join('')}${escaped(lineEnd(kind))}$`);
}

const escaped = (text: string): string => text.replace(/[{}]/g, '\\$&');
