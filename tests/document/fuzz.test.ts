import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDesign } from '../../src/document/read-design.ts';
import { writeDesign } from '../../src/document/write-design.ts';
import { samples } from './sample-files.ts';

/** Stands in the text of every failure, which fast-check prints. */
const SEED = 20260701;

const check = (property: fc.IRawProperty<unknown>, numRuns: number): void =>
  void fc.assert(property, { seed: SEED, numRuns, verbose: 1 });

/** Every number in a JSON value. */
function numbersOf(value: unknown): readonly number[] {
  if (typeof value === 'number') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(numbersOf);
}

/** What must hold for any input at all; returns whether it was accepted. */
function holds(input: Uint8Array | string): boolean {
  const result = readDesign(input);
  if (!result.ok) {
    expect(result.fault.length).toBeGreaterThan(0);
    for (const { message } of result.fault)
      expect(message).toMatch(/^[^\n\r\u2028\u2029]+ is .+; it must be .+\. .+\.$/);
    // what the file itself says may be quoted, whatever it is
    for (const { value, limit, remedy } of result.fault) {
      expect(`${value} ${limit} ${remedy}`.replace(/"(?:[^"\\]|\\.)*"/g, '')).not.toMatch(/NaN|Infinity|undefined/);
    }
    return false;
  }
  const numbers = numbersOf(result.value);
  expect(numbers.filter((number) => !Number.isFinite(number) || Object.is(number, -0))).toEqual([]);
  const again = readDesign(writeDesign(result.value));
  expect(again.ok && again.value).toStrictEqual(result.value);
  return true;
}

const valid = samples('valid').map(({ bytes }) => new TextDecoder().decode(bytes));

/** Every path in a JSON value, the root left out. */
function pathsOf(value: unknown): readonly (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => [[key], ...pathsOf(item).map((path) => [key, ...path])]);
}

/** Values that break readers: extremes, look-alikes, wrong kinds. Raw JSON text, so that 1e999 can be among them. */
const nasty = fc.oneof(
  fc.constantFrom('1e999', '-1e999', '-0', '1e-400', '5e-324', '1.7976931348623157e308', '9007199254740993'),
  fc.constantFrom(
    'null',
    'true',
    '""',
    '"12"',
    '"NaN"',
    '[]',
    '{}',
    '[[[]]]',
    '{"__proto__":{"x":1}}',
    '"\\u0000\\ud800"',
  ),
  fc.double().map((number) => (Number.isFinite(number) ? String(number) : '1e999')),
  fc.integer({ min: -400, max: 400 }).map(String),
  fc.json({ maxDepth: 3 }),
);

/** A place marker that no sample contains; the raw text of the nasty value is put there. */
const MARK = '\u0001here\u0001';

/** One mutation of a parsed design at one path. */
function mutate(value: unknown, path: readonly string[], how: 'delete' | 'rename' | 'replace' | 'double'): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const [step, ...rest] = path;
  const entries = Object.entries(value).flatMap(([key, item]): [string, unknown][] => {
    if (key !== step) return [[key, item]];
    if (rest.length > 0) return [[key, mutate(item, rest, how)]];
    if (how === 'delete') return [];
    if (how === 'rename') return [[`${key}x`, item]];
    if (how === 'double')
      return [
        [key, item],
        [`${key}2`, item],
      ];
    return [[key, MARK]];
  });
  return Array.isArray(value) ? entries.map(([, item]) => item) : Object.fromEntries(entries);
}

const mutated = fc
  .record({
    text: fc.constantFrom(...valid),
    at: fc.nat(),
    how: fc.constantFrom(
      'delete' as const,
      'rename' as const,
      'replace' as const,
      'replace' as const,
      'double' as const,
    ),
    value: nasty,
    more: fc.boolean(),
    at2: fc.nat(),
  })
  .map(({ text, at, how, value, more, at2 }) => {
    const change = (design: unknown, place: number): unknown => {
      const paths = pathsOf(design);
      return paths.length === 0 ? design : mutate(design, paths[place % paths.length], how);
    };
    const parsed: unknown = JSON.parse(text.replace(/^\ufeff/, ''));
    const once = change(parsed, at);
    return JSON.stringify(more ? change(once, at2) : once).replaceAll(JSON.stringify(MARK), () => value);
  });

describe('whatever is read', { timeout: 60_000 }, () => {
  it('random bytes are refused without a throw', () => {
    check(
      fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => void holds(bytes)),
      2000,
    );
  });

  it('random JSON is refused without a throw', () => {
    check(
      fc.property(fc.json(), (text) => void holds(text)),
      2000,
    );
  });

  it('random JSON in a right envelope is refused without a throw', () => {
    const enveloped = fc
      .dictionary(fc.string(), fc.jsonValue())
      .map((rest) => JSON.stringify({ ...rest, format: 'legroom-design', version: 1 }));
    check(
      fc.property(enveloped, (text) => void holds(text)),
      1000,
    );
  });

  it('a design with one character changed is refused or read faithfully', () => {
    const cut = fc.record({ text: fc.constantFrom(...valid), at: fc.nat(), put: fc.string({ maxLength: 2 }) });
    check(
      fc.property(cut, ({ text, at, put }) => {
        const place = at % text.length;
        holds(text.slice(0, place) + put + text.slice(place + 1));
      }),
      3000,
    );
  });

  it('a mutated design is refused or read faithfully, and both happen', () => {
    const outcomes = { read: 0, refused: 0 };
    check(
      fc.property(mutated, (text) => {
        outcomes[holds(text) ? 'read' : 'refused']++;
      }),
      6000,
    );
    expect(outcomes.read).toBeGreaterThan(300);
    expect(outcomes.refused).toBeGreaterThan(3000);
  });
});
