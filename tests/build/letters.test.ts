import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { lettered, textWidth, wrapped } from '../../src/build/sheet/letters.ts';
import { letterFiles } from '../../src/headless/letter-files.ts';

const letters = "The quick brown fox, Ærøskøbing, Łódź, Žižek, İstanbul, Tiếng Việt: Ø 3.3 ± 0.1 mm, 23.3 deg, 'x' −5";

describe('letters', () => {
  it('every letter of European and Vietnamese names has a glyph', () => {
    expect(lettered(letters).missing).toEqual([]);
    expect(lettered(letters).text).toBe(letters);
  });

  it('what the font lacks is replaced and named', () => {
    expect(lettered('α 波').missing).toEqual(['α', '波']);
    expect(lettered('α 波').text).toBe('? ?');
  });

  it('wrapped lines keep every word and fit', () => {
    const lines = wrapped(`${letters} ${'x'.repeat(80)}`, 3, 60);
    expect(lines.join('').replaceAll(' ', '')).toBe(`${letters}${'x'.repeat(80)}`.replaceAll(' ', ''));
    for (const line of lines) expect(textWidth(line, 3)).toBeLessThanOrEqual(60);
  });

  it('the stored glyph tables and fonts are those of the package', () => {
    for (const [name, content] of Object.entries(letterFiles()))
      expect(readFileSync(new URL(`../../src/build/sheet/${name}`, import.meta.url), 'utf8')).toBe(content);
  });
});
