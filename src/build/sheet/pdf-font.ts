import { type FontPart, glyphOf, lettered } from './letters.ts';
import type { PdfFile } from './pdf-file.ts';

/** Flags of a font descriptor: symbolic, since its glyphs are called by number. */
const SYMBOLIC = 4;

/** Measures that a descriptor has to state, in thousandths; readers use them only where the font file is missing. */
const BOX = '[-300 -300 1300 1100]';

/**
 * Embeds one part of the font as a composite font whose codes are its glyph numbers, with widths and a table back to letters for the glyphs
 * that are used. Gives the number of its object.
 */
export function embedFont(file: PdfFile, part: FontPart, base64: string, letters: Iterable<string>): number {
  const name = `PublicSans-${part}`;
  const ttf = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  const used = [...new Set(letters)]
    .flatMap((letter) => {
      const glyph = glyphOf(part, letter);
      return glyph ? [{ letter, ...glyph }] : [];
    })
    .sort((a, b) => a.number - b.number);
  const fontFile = file.addStream(ttf, `/Length1 ${ttf.length} `);
  const descriptor = file.add(
    `<< /Type /FontDescriptor /FontName /${name} /Flags ${SYMBOLIC} /FontBBox ${BOX} /ItalicAngle 0 /Ascent 950 /Descent -225 /CapHeight 705 /StemV 90 /FontFile2 ${fontFile} 0 R >>`,
  );
  const widths = used.map(({ number, width }) => `${number} [${width}]`).join(' ');
  const descendant = file.add(
    `<< /Type /Font /Subtype /CIDFontType2 /BaseFont /${name} /CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /FontDescriptor ${descriptor} 0 R /CIDToGIDMap /Identity /DW 600 /W [${widths}] >>`,
  );
  const back = file.addStream(toUnicode(used));
  return file.add(
    `<< /Type /Font /Subtype /Type0 /BaseFont /${name} /Encoding /Identity-H /DescendantFonts [${descendant} 0 R] /ToUnicode ${back} 0 R >>`,
  );
}

/** Table from glyph numbers back to letters, so that text can be searched and copied. */
function toUnicode(used: readonly { readonly letter: string; readonly number: number }[]): string {
  const lines = used.map(({ letter, number }) => `<${hex(number)}> <${hex(letter.codePointAt(0) ?? 0)}>`);
  const blocks: string[] = [];
  // a block holds a hundred lines at most
  for (let n = 0; n < lines.length; n += 100) {
    const some = lines.slice(n, n + 100);
    blocks.push(`${some.length} beginbfchar\n${some.join('\n')}\nendbfchar`);
  }
  return `/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def
/CMapName /Adobe-Identity-UCS def
/CMapType 2 def
1 begincodespacerange
<0000> <FFFF>
endcodespacerange
${blocks.join('\n')}
endcmap
CMapName currentdict /CMap defineresource pop
end
end
`;
}

const hex = (code: number): string => code.toString(16).toUpperCase().padStart(4, '0');

/** The text as hexadecimal glyph numbers of a part of the font. */
export const glyphString = (part: FontPart, text: string): string =>
  `<${Array.from(text, (letter) => hex(glyphOf(part, letter)?.number ?? 0)).join('')}>`;

/** The letters that texts draw from each part of the font. */
export function usedLetters(texts: Iterable<string>): ReadonlyMap<FontPart, ReadonlySet<string>> {
  const used = new Map<FontPart, Set<string>>();
  for (const words of texts)
    for (const { part, text } of lettered(words).runs) {
      const letters = used.get(part) ?? new Set<string>();
      used.set(part, letters);
      for (const letter of text) letters.add(letter);
    }
  return used;
}
