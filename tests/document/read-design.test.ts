import { performance } from 'node:perf_hooks';
import { describe, expect, it } from 'vitest';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { MAX_DESIGN_BYTES } from '../../src/document/json-text.ts';
import { migrated, type RawDesign } from '../../src/document/migrations.ts';
import { readDesign, validateDesign } from '../../src/document/read-design.ts';
import { writeDesign } from '../../src/document/write-design.ts';

const messages = (input: Uint8Array | string): readonly string[] => {
  const result = readDesign(input);
  return result.ok ? [] : result.fault.map(({ message }) => message);
};

describe('size', () => {
  it('refuses 200 MB at once, without looking inside', () => {
    const huge = new Uint8Array(200 * 1024 * 1024);
    // decoding 200 MB takes some 50 ms and parsing more; a comparison of two numbers takes microseconds. The best of
    // five, since the machine may be busy.
    const times = [1, 2, 3, 4, 5].map(() => {
      const start = performance.now();
      messages(huge);
      return performance.now() - start;
    });
    expect(Math.min(...times)).toBeLessThan(5);
    const found = messages(huge);
    expect(found).toEqual([
      'The file is 200.0 MiB; it must be at most 4 MiB. Open a Legroom design file; a design takes a few kilobytes.',
    ]);
  });

  it('reads a file of exactly the largest size and refuses one byte more', () => {
    const text = writeDesign(emptyDesign());
    const filled = text + ' '.repeat(MAX_DESIGN_BYTES - text.length);
    expect(messages(filled)).toEqual([]);
    expect(messages(new TextEncoder().encode(filled))).toEqual([]);
    expect(messages(`${filled} `)).toHaveLength(1);
  });

  it('stands lists nested 200,000 deep', () => {
    const depth = 200_000;
    const nested = '['.repeat(depth) + ']'.repeat(depth);
    const design = JSON.stringify(emptyDesign());
    expect(messages(`[${nested}`)[0]).toMatch(/^The file is not JSON at line 1, column 400002, where the end/);
    expect(messages(design.replace('"gap_deg":20', `"gap_deg":${nested}`))).toEqual([
      'base.ring.gap_deg is a list of 1; it must be a number from 0 to 120. Write a number.',
    ]);
  });
});

describe('the document read', () => {
  it('shares nothing with what it was read from', () => {
    const given = emptyDesign();
    const result = validateDesign(given);
    expect(result.ok && result.value).toStrictEqual(given);
    expect(result.ok && result.value.home.position_mm).not.toBe(given.home.position_mm);
  });

  it('does not invent what was left out', () => {
    const result = validateDesign(emptyDesign());
    if (!result.ok) throw new Error('the empty design is valid');
    expect(Object.keys(result.value)).not.toContain('characteristicLength_mm');
    expect('ring' in result.value.base && Object.keys(result.value.base.ring)).not.toContain('holes');
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])(
    'refuses %s from inside the program with a plain message',
    (number) => {
      const result = validateDesign({ ...emptyDesign(), characteristicLength_mm: number });
      expect(result.ok ? [] : result.fault.map(({ path }) => path)).toEqual(['characteristicLength_mm']);
      expect(result.ok ? '' : result.fault[0].message).not.toMatch(/NaN|Infinity/);
    },
  );

  it('refuses an undefined value where a key may only be absent', () => {
    expect(validateDesign({ ...emptyDesign(), characteristicLength_mm: undefined }).ok).toBe(false);
  });
});

describe('migration', () => {
  // invented versions: there is only one so far
  const steps = new Map([
    [1, (design: RawDesign): RawDesign => ({ ...design, version: 2, renamed: design['old'], old: undefined })],
    [2, (design: RawDesign): RawDesign => ({ ...design, version: 3, added: true })],
  ]);

  it('runs every step on a copy and leaves its input alone', () => {
    const given: RawDesign = { version: 1, old: { deep: [1] } };
    const before = structuredClone(given);
    const result = migrated(given, 1, 3, steps);
    expect(result).toEqual({ version: 3, renamed: { deep: [1] }, added: true });
    expect(given).toStrictEqual(before);
    expect(result['renamed']).not.toBe(given['old']);
  });

  it('starts in the middle of the chain', () => {
    expect(migrated({ version: 2 }, 2, 3, steps)).toEqual({ version: 3, added: true });
  });

  it('treats a gap in the chain as a bug', () => {
    expect(() => migrated({ version: 0 }, 0, 3, steps)).toThrow('no migration from version 0');
  });
});

it('refuses to write what is not a design', () => {
  const broken = { ...emptyDesign(), characteristicLength_mm: Number.NaN };
  expect(() => writeDesign(broken)).toThrow();
});
