import fc from 'fast-check';
import { expect, it } from 'vitest';
import { samples } from '../document/sample-files.ts';
import { command, VALID } from './command.ts';

/** Stands in the text of every failure, which fast-check prints. */
const SEED = 20260702;

const files = samples('valid').map(({ name }) => VALID(name));

const number = fc.oneof(
  fc.integer({ min: -400, max: 400 }).map(String),
  fc.double({ min: -300, max: 300, noNaN: true }).map(String),
  fc.double().map(String),
  fc.constantFrom('0', '-0', '90', '-90', '180', '360', '1e6', '1e-300', '1e999', '163.326', '120', '200', ''),
);
const list = fc
  .oneof({ weight: 8, arbitrary: fc.constant(6) }, { weight: 1, arbitrary: fc.nat(8) })
  .chain((length) => fc.array(number, { minLength: length, maxLength: length }))
  .map((parts) => parts.join(','));
const word = fc.oneof(
  fc.constantFrom(
    '--at',
    '--near',
    '--lengths',
    '--help',
    '--',
    '-',
    '--bogus',
    '-x',
    '--at=',
    '--all=1',
    '--floor',
    '--floor=condition=9',
    '--floor=__proto__=1',
    '--box',
    '--depth=0',
    '--__proto__',
  ),
  list,
  fc.string(),
);
const sensible = fc.oneof(
  fc.tuple(fc.constant('pose'), fc.constantFrom(...files), fc.constant('--at'), list),
  fc.tuple(fc.constant('solve'), fc.constantFrom(...files), fc.constant('--lengths'), list),
  fc.tuple(
    fc.constant('solve'),
    fc.constantFrom(...files),
    fc.constant('--lengths'),
    fc.double({ min: 100, max: 220, noNaN: true }).map((length) => Array<number>(6).fill(length).join(',')),
    fc.constant('--near'),
    list,
  ),
  fc.tuple(fc.constant('check'), fc.constantFrom(...files)),
  fc.tuple(fc.constant('reach'), fc.constantFrom(...files), fc.constant('--orientation'), list),
);
const foolish = fc
  .tuple(
    fc.oneof(fc.constantFrom('check', 'pose', 'solve', 'reach', 'prove', '__proto__', 'constructor'), fc.string()),
    fc.array(word, { maxLength: 4 }),
  )
  .map(([verb, words]) => [verb, ...words]);

it('ends with an exit code, JSON without NaN, and one line a fault, whatever is typed', {
  timeout: 60_000,
}, async () => {
  const codes = new Set<number>();
  await fc.assert(
    fc.asyncProperty(fc.oneof(sensible, sensible, foolish), async (argv) => {
      const { code, out, err, lines } = await command(argv, '{"format": "legroom-design"}');
      codes.add(code);
      expect([0, 1, 2]).toContain(code);
      expect(`${out}${err.replace(/"(?:[^"\\]|\\.)*"/g, '')}`).not.toMatch(/NaN|Infinity|undefined/);
      expect(lines.length > 0).toBe(code > 0);
      expect(out === '').toBe(code === 2);
      for (const line of code === 2 ? lines : []) expect(line).toMatch(/ is .+; it must be .+\. .+\.$/);
      if (out.startsWith('{')) expect(() => JSON.parse(out)).not.toThrow();
    }),
    { seed: SEED, numRuns: 1500, verbose: 1 },
  );
  expect([...codes].sort()).toEqual([0, 1, 2]);
});
