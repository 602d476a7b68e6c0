/** Where a text stops being JSON. */
export interface BrokenPlace {
  /** From 1. */
  readonly line: number;
  readonly column: number;
  /** What could have stood there, in words. */
  readonly expected: string;
  /** What stands there, in words. */
  readonly found: string;
}

/** What may come next. */
type Want = 'value' | 'valueOrEnd' | 'keyOrEnd' | 'key' | 'colon' | 'commaOrEnd' | 'end';

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /true|false|null/y;
const SPACE = /[ \t\n\r]*/y;

/**
 * Finds the first place where a text breaks the grammar of RFC 8259, or null when it does not. Engines word their own
 * messages differently and some leave the place out, so it is found here. No recursion: depth costs no stack.
 */
export function findBrokenPlace(text: string): BrokenPlace | null {
  const open: ('{' | '[')[] = [];
  let want: Want = 'value';
  let at = 0;
  for (;;) {
    at = skip(SPACE, text, at);
    const character = text[at];
    if (character === undefined) return want === 'end' ? null : brokenAt(text, at, want, open);
    const closes = open.at(-1) === '{' ? '}' : open.at(-1) === '[' ? ']' : '';
    if (character === closes && (want === 'valueOrEnd' || want === 'keyOrEnd' || want === 'commaOrEnd')) {
      open.pop();
      at++;
      want = open.length === 0 ? 'end' : 'commaOrEnd';
    } else if (want === 'commaOrEnd' && character === ',') {
      at++;
      want = open.at(-1) === '{' ? 'key' : 'value';
    } else if (want === 'colon' && character === ':') {
      at++;
      want = 'value';
    } else if ((want === 'key' || want === 'keyOrEnd') && character === '"') {
      const after = afterString(text, at);
      if (after < 0) return brokenAt(text, -after, 'string', open);
      at = after;
      want = 'colon';
    } else if (want === 'value' || want === 'valueOrEnd') {
      if (character === '{' || character === '[') {
        open.push(character);
        at++;
        want = character === '{' ? 'keyOrEnd' : 'valueOrEnd';
        continue;
      }
      const after = character === '"' ? afterString(text, at) : afterScalar(text, at);
      if (after < 0) return brokenAt(text, -after, 'string', open);
      if (after === at) return brokenAt(text, at, want, open);
      at = after;
      want = open.length === 0 ? 'end' : 'commaOrEnd';
    } else {
      return brokenAt(text, at, want, open);
    }
  }
}

function skip(pattern: RegExp, text: string, at: number): number {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : at;
}

const afterScalar = (text: string, at: number): number => Math.max(skip(NUMBER, text, at), skip(WORD, text, at));

/** Index after the string that opens at `at`; minus the index of the first bad character when it is broken. */
function afterString(text: string, at: number): number {
  for (let i = at + 1; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 0x22) return i + 1;
    if (code < 0x20) return -i;
    if (code !== 0x5c) continue;
    i++;
    if (text[i] === 'u' && /^[0-9a-fA-F]{4}$/.test(text.slice(i + 1, i + 5))) i += 4;
    else if (text[i] === undefined || !'"\\/bfnrt'.includes(text[i])) return -i;
  }
  return -text.length;
}

const EXPECTED: Readonly<Record<Exclude<Want, 'commaOrEnd'> | 'string', string>> = {
  value: 'a value',
  valueOrEnd: 'a value or "]"',
  keyOrEnd: 'a key in quotes or "}"',
  key: 'a key in quotes',
  colon: '":"',
  end: 'nothing more',
  string: 'the rest of a text and its closing quote',
};

function brokenAt(text: string, at: number, want: Want | 'string', open: readonly string[]): BrokenPlace {
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  const character = text.codePointAt(at);
  const end = open.at(-1) === '{' ? '"}"' : '"]"';
  return {
    line,
    column: at - (before.lastIndexOf('\n') + 1) + 1,
    expected: want === 'commaOrEnd' ? `"," or ${end}` : EXPECTED[want],
    found: character === undefined ? 'the end of the file' : shownCharacter(character),
  };
}

function shownCharacter(code: number): string {
  if (code === 0x0a || code === 0x0d) return 'the end of the line';
  const printable = code > 0x20 && (code < 0x7f || code > 0xa0) && (code < 0x2000 || code > 0x206f);
  return printable && (code < 0xd800 || code > 0xdfff)
    ? JSON.stringify(String.fromCodePoint(code))
    : `character U+${code.toString(16).toUpperCase().padStart(4, '0')}`;
}
