import { decimal } from '../numerals.ts';

/** A cell: text, a number, or nothing. */
export type Cell = string | number | null;

/** A table as it stands in a file and on screen; column names carry their unit. */
export interface Table {
  /** Ends the file's name: `holes`. */
  readonly id: string;
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/** Digits after the point: a millionth of a millimetre or degree. */
const DIGITS = 6;

/** A table as CSV (RFC 4180): a header line, CR LF, quotes where they are needed, decimal points, no comments. */
export const tableCsv = ({ columns, rows }: Table): string =>
  [columns, ...rows].map((row) => `${row.map(written).join(',')}\r\n`).join('');

function written(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return decimal(cell, DIGITS);
  const text = harmless(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A text that a spreadsheet would take for a formula gets an apostrophe in front, which it shows as text. */
const harmless = (text: string): string => (/^[\s]*[=+\-@|%]|^[\t\r\n]/.test(text) ? `'${text}` : text);
