import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { unzlibSync } from 'fflate';

/*
 * Makes the letters that drawings are lettered with: Public Sans (SIL Open Font License 1.1) as TrueType, which a PDF can hold, and the
 * width and glyph of every letter, which the drawing model needs before any font is loaded. The package has them as WOFF 1.0: a TrueType file
 * whose tables are deflated one by one (W3C Recommendation of 13 December 2012).
 */

/** The parts into which the package splits the font, in the order in which a letter is looked for. */
const PARTS = ['latin', 'latin-ext', 'vietnamese'] as const;

const require = createRequire(import.meta.url);

/** TrueType bytes from WOFF bytes. */
function unpacked(woff: Uint8Array): Uint8Array {
  const from = new DataView(woff.buffer, woff.byteOffset, woff.byteLength);
  const count = from.getUint16(12);
  const tables = Array.from({ length: count }, (_, n) => {
    const entry = 44 + 20 * n;
    const [offset, packed, size] = [from.getUint32(entry + 4), from.getUint32(entry + 8), from.getUint32(entry + 12)];
    const stored = woff.subarray(offset, offset + packed);
    return {
      tag: from.getUint32(entry),
      checksum: from.getUint32(entry + 16),
      bytes: packed < size ? unzlibSync(stored) : stored,
    };
  });
  const head = 12 + 16 * count;
  const sizes = tables.map(({ bytes }) => 4 * Math.ceil(bytes.length / 4));
  const out = new Uint8Array(sizes.reduce((sum, size) => sum + size, head));
  const to = new DataView(out.buffer);
  const power = Math.floor(Math.log2(count));
  to.setUint32(0, from.getUint32(4));
  to.setUint16(4, count);
  to.setUint16(6, 16 * 2 ** power);
  to.setUint16(8, power);
  to.setUint16(10, 16 * (count - 2 ** power));
  let at = head;
  for (const [n, { tag, checksum, bytes }] of tables.entries()) {
    const entry = 12 + 16 * n;
    to.setUint32(entry, tag);
    to.setUint32(entry + 4, checksum);
    to.setUint32(entry + 8, at);
    to.setUint32(entry + 12, bytes.length);
    out.set(bytes, at);
    at += sizes[n];
  }
  return out;
}

/** Width in thousandths of its size and number of every glyph that a letter has, by code point: from the tables cmap (format 4) and hmtx. */
function glyphs(ttf: Uint8Array): Map<number, readonly [width: number, glyph: number]> {
  const view = new DataView(ttf.buffer, ttf.byteOffset, ttf.byteLength);
  const table = (name: string): number => {
    for (let n = 0; n < view.getUint16(4); n++) {
      const entry = 12 + 16 * n;
      const tag = String.fromCharCode(...ttf.subarray(entry, entry + 4));
      if (tag === name) return view.getUint32(entry + 8);
    }
    throw new Error(`The font has no table ${name}.`);
  };
  const unitsPerEm = view.getUint16(table('head') + 18);
  const metrics = view.getUint16(table('hhea') + 34);
  const hmtx = table('hmtx');
  const cmap = table('cmap');
  const found = new Map<number, readonly [number, number]>();
  for (let n = 0; n < view.getUint16(cmap + 2); n++) {
    const sub = cmap + view.getUint32(cmap + 8 + 8 * n);
    if (view.getUint16(sub) !== 4) continue;
    const segments = view.getUint16(sub + 6) / 2;
    for (let s = 0; s < segments; s++) {
      const end = view.getUint16(sub + 14 + 2 * s);
      const start = view.getUint16(sub + 16 + 2 * segments + 2 * s);
      const delta = view.getUint16(sub + 16 + 4 * segments + 2 * s);
      const rangeAt = sub + 16 + 6 * segments + 2 * s;
      const range = view.getUint16(rangeAt);
      for (let code = start; code <= end && code !== 0xffff; code++) {
        const listed = range === 0 ? code : view.getUint16(rangeAt + range + 2 * (code - start));
        const glyph = listed === 0 ? 0 : (listed + delta) & 0xffff;
        if (glyph === 0) continue;
        const advance = view.getUint16(hmtx + 4 * Math.min(glyph, metrics - 1));
        found.set(code, [Math.round((1000 * advance) / unitsPerEm), glyph]);
      }
    }
  }
  return found;
}

/** The two files of `src/build/sheet` that hold the letters, by name. */
export function letterFiles(): Readonly<Record<'letters.json' | 'glyphs.json', string>> {
  const fonts: Record<string, string> = {};
  const tables: Record<string, Record<string, readonly number[]>> = {};
  for (const part of PARTS) {
    const file = require.resolve(`@fontsource/public-sans/files/public-sans-${part}-400-normal.woff`);
    const ttf = unpacked(readFileSync(file));
    fonts[part] = Buffer.from(ttf).toString('base64');
    tables[part] = Object.fromEntries([...glyphs(ttf)].map(([code, glyph]) => [String.fromCodePoint(code), glyph]));
  }
  return { 'letters.json': `${JSON.stringify(fonts)}\n`, 'glyphs.json': `${JSON.stringify(tables)}\n` };
}
