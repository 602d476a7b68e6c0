import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findBrokenPlace } from '../../src/document/json-place.ts';

describe('findBrokenPlace', () => {
  it.each([
    ['{"a":1,}', 1, 8],
    ['[1 2]', 1, 4],
    ['{\n  "a" 1\n}', 2, 7],
    ['{"a":01}', 1, 7],
    ['["\\x"]', 1, 4],
    ['"abc', 1, 5],
    ['[1]\r\n]', 2, 1],
    ['', 1, 1],
    ['{a:1}', 1, 2],
    ['[+1]', 1, 2],
  ])('places the mistake of %j at line %i, column %i', (text, line, column) => {
    expect(findBrokenPlace(text)).toMatchObject({ line, column });
  });

  /** Referee: the engine's own parser. */
  const parses = (text: string): boolean => {
    try {
      JSON.parse(text);
      return true;
    } catch {
      return false;
    }
  };

  it("agrees with the engine's parser on what is JSON", () => {
    const piece = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"a"',
      '1',
      '-',
      '.5',
      'e3',
      'true',
      'nul',
      '"',
      '\\',
      ' ',
      '\n',
      '0',
    );
    const soup = fc.array(piece, { maxLength: 8 }).map((pieces) => pieces.join(''));
    const cut = fc.tuple(fc.json(), fc.nat()).map(([text, at]) => text.slice(0, at % (text.length + 1)));
    fc.assert(
      fc.property(fc.oneof(soup, cut, fc.json()), (text) => {
        expect(findBrokenPlace(text) === null).toBe(parses(text));
      }),
      { seed: 7, numRuns: 20_000 },
    );
  });
});
