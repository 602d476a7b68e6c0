import Papa from 'papaparse';
import { failed, ok, type Result } from '../math/result.ts';
import { radians } from '../terms/units.ts';
import { type DesignFault, fault, listedFaults, quoted } from './faults.ts';
import { RANGES } from './ranges.ts';

/** Columns of a path, in the order of the table; their names are its first line. */
export const PATH_COLUMNS = ['t_s', 'x_mm', 'y_mm', 'z_mm', 'roll_deg', 'pitch_deg', 'yaw_deg'] as const;

/**
 * Most rows of a path: twenty minutes at a thousand a second, and some hundred megabytes of memory.
 */
export const MOST_PATH_ROWS = 1_200_000;

/** A path as poses at times; angles in radians. */
export interface PathTable {
  /** Increasing, the first one 0 [s]. */
  readonly times: Float64Array;
  /** x, y, z [mm], roll, pitch, yaw [rad] of each time, flat. */
  readonly coordinates: Float64Array;
}

/** Largest file of a path [bytes]: the most rows with all digits. */
export const MOST_PATH_BYTES = 256 * 1024 * 1024;

/** {@link readPathTable} of the bytes of a file. */
export function readPathText(bytes: Uint8Array): Result<PathTable, readonly DesignFault[]> {
  try {
    return readPathTable(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return failed([fault('notText', '', 'not UTF-8 text', 'CSV in UTF-8', 'Save it as UTF-8.')]);
  }
}

/** Latest time of a path [s]: a year. */
const LATEST = 366 * 24 * 3600;

/** Neighbouring rows may differ by less than half a turn; beyond that the way between them is not told. */
const HALF_TURN = 180;

const LIMITS = [
  { min: 0, max: LATEST },
  RANGES.position_mm,
  RANGES.position_mm,
  RANGES.position_mm,
  RANGES.roll_deg,
  RANGES.pitch_deg,
  RANGES.yaw_deg,
] as const;

/**
 * Reads a path from CSV text: comma or semicolon between fields, decimal point or (with semicolons) comma, with or without a byte order
 * mark, columns in any order. Times count from the first one. Faults name the line of the file.
 */
export function readPathTable(text: string): Result<PathTable, readonly DesignFault[]> {
  const plain = text.replace(/^\ufeff/, '');
  const delimiter = delimiterOf(plain.slice(0, plain.search(/[\r\n]|$/)));
  const reader = new PathReader(delimiter !== ',');
  Papa.parse<string[]>(plain, {
    delimiter,
    step: ({ data }, parser) => {
      reader.row(data);
      if (reader.isHopeless()) parser.abort();
    },
  });
  return reader.finish();
}

/** What stands between the names of the first line. */
const delimiterOf = (line: string): string => [';', '\t'].find((mark) => line.includes(mark)) ?? ',';

class PathReader {
  private line = 0;
  private places: readonly number[] | null = null;
  private width = 0;
  private count = 0;
  private times = new Float64Array(1024);
  private coordinates = new Float64Array(6 * 1024);
  private readonly faults: DesignFault[] = [];
  private readonly values = new Float64Array(PATH_COLUMNS.length);
  /** The first time: times count from it. */
  private start = 0;
  private readonly mayHaveComma: boolean;

  /** @param mayHaveComma decimal commas are read: nothing else uses them */
  constructor(mayHaveComma: boolean) {
    this.mayHaveComma = mayHaveComma;
  }

  isHopeless(): boolean {
    return this.faults.length > 60 || (this.places === null && this.faults.length > 0) || this.count > MOST_PATH_ROWS;
  }

  row(fields: readonly string[]): void {
    this.line++;
    if (fields.every((field) => field.trim() === '')) return;
    if (this.places === null) this.header(fields);
    else this.numbers(fields, this.places);
  }

  private header(fields: readonly string[]): void {
    const names = fields.map((field) => field.trim());
    this.width = names.length;
    const missing = PATH_COLUMNS.filter((name) => !names.includes(name));
    if (missing.length > 0) {
      const shown = names.slice(0, 12).map(quoted).join(', ');
      const limit = `names of columns, with ${PATH_COLUMNS.join(', ')} among them`;
      this.faults.push(fault('missing', 'Line 1', shown, limit, `Add ${missing.join(', ')}, units included.`));
      return;
    }
    const doubled = PATH_COLUMNS.find((name) => names.indexOf(name) !== names.lastIndexOf(name));
    if (doubled) {
      const limit = 'one column of each name';
      this.faults.push(fault('contradiction', 'Line 1', `a table with two columns ${doubled}`, limit, 'Remove one.'));
      return;
    }
    this.places = PATH_COLUMNS.map((name) => names.indexOf(name));
  }

  private numbers(fields: readonly string[], places: readonly number[]): void {
    if (fields.length !== this.width) {
      const limit = `${this.width} fields, as many as the first line names`;
      this.faults.push(fault('wrongType', this.where(), `a row of ${fields.length} fields`, limit, 'Mend the row.'));
      return;
    }
    for (const [n, place] of places.entries()) {
      const value = numberOf(fields[place], this.mayHaveComma);
      const { min, max } = LIMITS[n];
      if (!Number.isFinite(value) || (n > 0 && (value < min || value > max)) || Math.abs(value) > LATEST * 1000) {
        const limit = n === 0 ? 'a time in seconds' : `a number from ${min} to ${max}`;
        const cell = `${this.where()}, ${PATH_COLUMNS[n]}`;
        const shown = fields[place].trim() === '' ? 'empty' : quoted(fields[place].trim());
        this.faults.push(fault('wrongType', cell, shown, limit, 'Write a plain number.'));
        return;
      }
      this.values[n] = value;
    }
    this.keep();
  }

  /** Checks a row against the one before and keeps it. */
  private keep(): void {
    const { values, count } = this;
    if (count > 0) {
      const before = this.times[count - 1] + this.start;
      if (!(values[0] > before)) {
        const limit = `later than ${before}, the time of the row before`;
        this.faults.push(fault('contradiction', `${this.where()}, t_s`, String(values[0]), limit, 'Sort by time.'));
        return;
      }
      for (let n = 4; n < 7; n++) {
        const step = Math.abs(values[n] - (this.coordinates[6 * (count - 1) + n - 1] * 180) / Math.PI);
        if (step < HALF_TURN) continue;
        const limit = 'less than half a turn from the row before';
        const remedy = 'Add rows between, or write the angle without the jump by a whole turn.';
        this.faults.push(
          fault('contradiction', `${this.where()}, ${PATH_COLUMNS[n]}`, String(values[n]), limit, remedy),
        );
        return;
      }
    } else this.start = values[0];
    if (count === this.times.length) {
      this.times = grown(this.times);
      this.coordinates = grown(this.coordinates);
    }
    this.times[count] = values[0] - this.start;
    for (let n = 0; n < 6; n++) this.coordinates[6 * count + n] = n < 3 ? values[n + 1] : radians(values[n + 1]);
    this.count++;
  }

  private where(): string {
    return `Line ${this.line}`;
  }

  finish(): Result<PathTable, readonly DesignFault[]> {
    if (this.count > MOST_PATH_ROWS) {
      const limit = `at most ${MOST_PATH_ROWS} rows`;
      return failed([
        fault('tooLarge', '', `a path of more than ${MOST_PATH_ROWS} rows`, limit, 'Split or thin it out.'),
      ]);
    }
    if (this.faults.length > 0) return failed(listedFaults(this.faults));
    if (this.count < 2) {
      const remedy = `Write a line of names, ${PATH_COLUMNS.join(',')}, and a row for each pose.`;
      return failed([fault('empty', '', `a path of ${this.count} rows`, 'a path of at least two rows', remedy)]);
    }
    return ok({ times: this.times.slice(0, this.count), coordinates: this.coordinates.slice(0, 6 * this.count) });
  }
}

function grown(array: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  const larger = new Float64Array(2 * array.length);
  larger.set(array);
  return larger;
}

/** What counts as a number: digits with one decimal mark and perhaps an exponent; nothing that a spreadsheet would compute. */
const POINT = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

function numberOf(field: string, mayHaveComma: boolean): number {
  const text = field.trim().replace('\u2212', '-');
  const plain = mayHaveComma && !text.includes('.') ? text.replace(',', '.') : text;
  return POINT.test(plain) ? Number(plain) : Number.NaN;
}
