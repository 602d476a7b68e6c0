import { createReadStream } from 'node:fs';

/** Lines longer than this stand in no table [bytes]; a file without any line end is not read to its end. */
const LONGEST_LINE = 64 * 1024;

/** What is left of a file behind the lines that were visited. */
export interface LinesRead {
  /** Behind the last line end; null when the visitor stopped, or a line was too long for a table. */
  readonly rest: string | null;
}

/**
 * Visits the whole lines of a file, in order, each with the file's length up to its end [bytes], until the visitor returns
 * false. A table is plain ASCII; what is not comes out as other letters, which no line of a table has.
 */
export async function visitLines(path: string, visit: (line: string, end: number) => boolean): Promise<LinesRead> {
  let seen = 0;
  let rest = Buffer.alloc(0);
  for await (const chunk of createReadStream(path)) {
    const bytes = Buffer.concat([rest, Buffer.isBuffer(chunk) ? chunk : Buffer.from(String(chunk))]);
    let from = 0;
    for (let end = bytes.indexOf(NEWLINE, from); end >= 0; end = bytes.indexOf(NEWLINE, from)) {
      if (!visit(bytes.toString('latin1', from, end), seen + end + 1)) return { rest: null };
      from = end + 1;
    }
    rest = bytes.subarray(from);
    if (rest.length > LONGEST_LINE) return { rest: null };
    seen += from;
  }
  return { rest: rest.toString('latin1') };
}

const NEWLINE = 0x0a;

/** The first lines of a file, fewer where it has no more. */
export async function firstLines(path: string, count: number): Promise<readonly string[]> {
  const lines: string[] = [];
  await visitLines(path, (line) => lines.push(line) < count);
  return lines;
}
