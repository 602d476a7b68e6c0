import tables from './glyphs.json';

/** The parts of the font, in the order in which a letter is looked for. */
export const FONT_PARTS = ['latin', 'latin-ext', 'vietnamese'] as const;
export type FontPart = (typeof FONT_PARTS)[number];

/** Width in thousandths of the nominal size, and number in its font file. */
export interface Glyph {
  readonly width: number;
  readonly number: number;
}

const glyphTable = (table: Readonly<Record<string, readonly number[]>>): ReadonlyMap<string, Glyph> =>
  new Map(Object.entries(table).map(([letter, [width, number]]) => [letter, { width, number }]));

const GLYPHS: Readonly<Record<FontPart, ReadonlyMap<string, Glyph>>> = {
  latin: glyphTable(tables.latin),
  'latin-ext': glyphTable(tables['latin-ext']),
  vietnamese: glyphTable(tables.vietnamese),
};

/** The glyph of a letter in a part of the font; undefined where it has none. */
export const glyphOf = (part: FontPart, letter: string): Glyph | undefined => GLYPHS[part].get(letter);

/** What is drawn where the font has no such letter. */
const MISSING = '?';

/** Letters of one part of the font that follow each other. */
export interface Run {
  readonly part: FontPart;
  readonly text: string;
}

/** A text as it can be drawn. */
export interface Lettered {
  readonly text: string;
  readonly runs: readonly Run[];
  /** Width in sizes: 1 is as wide as the nominal size. */
  readonly width: number;
  /** Letters that the font lacks. */
  readonly missing: readonly string[];
}

const partOf = (letter: string): FontPart | undefined => FONT_PARTS.find((part) => GLYPHS[part].has(letter));

/** Splits a text into runs; letters that the font lacks become question marks and are named. */
export function lettered(words: string): Lettered {
  const runs: { part: FontPart; text: string }[] = [];
  const missing: string[] = [];
  let thousandths = 0;
  for (const asked of words.normalize('NFC').replace(/\s/gu, ' ')) {
    const found = partOf(asked);
    const letter = found ? asked : MISSING;
    const part = found ?? 'latin';
    if (!found && !missing.includes(asked)) missing.push(asked);
    thousandths += GLYPHS[part].get(letter)?.width ?? 0;
    const last = runs.at(-1);
    if (last?.part === part) last.text += letter;
    else runs.push({ part, text: letter });
  }
  return { text: runs.map((run) => run.text).join(''), runs, width: thousandths / 1000, missing };
}

/** Width of a text of this size [mm]. */
export const textWidth = (words: string, size: number): number => lettered(words).width * size;

/** Breaks a text at spaces into lines that are at most `width` wide; a word longer than a line is cut. */
export function wrapped(words: string, size: number, width: number): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(' ')) {
    let rest = word;
    while (textWidth(rest, size) > width) {
      if (line !== '') lines.push(line);
      line = '';
      const kept = fitting(rest, size, width);
      lines.push(kept);
      rest = rest.slice(kept.length);
    }
    const longer = line === '' ? rest : `${line} ${rest}`;
    if (textWidth(longer, size) <= width) line = longer;
    else {
      lines.push(line);
      line = rest;
    }
  }
  return line === '' ? lines : [...lines, line];
}

/** The longest beginning of a text that fits, at least one letter. */
function fitting(words: string, size: number, width: number): string {
  let kept = '';
  for (const letter of words) {
    if (kept !== '' && textWidth(kept + letter, size) > width) return kept;
    kept += letter;
  }
  return kept;
}

/** A text cut with an ellipsis where it is wider than `width`. */
export function cutToFit(words: string, size: number, width: number): string {
  if (textWidth(words, size) <= width) return words;
  return `${fitting(words, size, width - textWidth('…', size))}…`;
}
