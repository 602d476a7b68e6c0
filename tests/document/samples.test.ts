import { describe, expect, it } from 'vitest';
import type { DesignDocument } from '../../src/document/design.ts';
import { readDesign } from '../../src/document/read-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { writeDesign } from '../../src/document/write-design.ts';
import { samples, sampleText } from './sample-files.ts';

function read(input: Uint8Array | string): DesignDocument {
  const result = readDesign(input);
  if (!result.ok) throw new Error(result.fault.map(({ message }) => message).join('\n'));
  return result.value;
}

describe.each(samples('valid'))('valid sample $name', ({ name, bytes }) => {
  const document = read(bytes);

  it('is written as the kept normal form', () => {
    expect(writeDesign(document)).toBe(sampleText(`normal/${name}.json`));
  });

  it('comes back equal from its own text, bit for bit', () => {
    // toStrictEqual tells -0 from 0 and an absent key from an undefined one
    expect(read(writeDesign(document))).toStrictEqual(document);
  });

  it('is written again as the same text', () => {
    expect(writeDesign(read(writeDesign(document)))).toBe(writeDesign(document));
  });

  it('means the same numbers as the file itself says', () => {
    const raw: unknown = JSON.parse(new TextDecoder().decode(bytes));
    // one normal form apart: defaults filled in and -0 written as 0
    expect(JSON.parse(JSON.stringify(document))).toEqual({ name: 'Untitled', note: '', ...objectOf(raw) });
  });

  it('compiles to finite numbers', () => {
    const mechanism = mechanismFromDocument(document);
    const numbers = [
      ...mechanism.centres.base,
      ...mechanism.centres.platform,
      ...mechanism.baseAxes_B,
      ...mechanism.platformAxes_P,
      ...mechanism.home.R_BP,
      mechanism.characteristicLength,
      mechanism.size,
    ];
    expect(numbers.every(Number.isFinite)).toBe(true);
  });
});

/** JSON.parse keeps -0; toEqual tells it from 0, so the raw side is passed through text once more. */
function objectOf(raw: unknown): object {
  const plain: unknown = JSON.parse(JSON.stringify(raw));
  if (typeof plain !== 'object' || plain === null) throw new Error('a valid sample is an object');
  return plain;
}

describe.each(samples('invalid'))('invalid sample $name', ({ name, bytes }) => {
  const result = readDesign(bytes);

  it('is refused with exactly the kept messages', () => {
    const messages = result.ok ? [] : result.fault.map(({ message }) => message);
    expect(`${messages.join('\n')}\n`).toBe(sampleText(`invalid/${name}.txt`));
  });

  it('names path, value, limit and remedy in every message, on one line', () => {
    for (const { path, value, limit, remedy, message } of result.ok ? [] : result.fault) {
      for (const part of [path, value, limit, remedy]) expect(message).toContain(part);
      expect(value && limit && remedy).toBeTruthy();
      expect(message).not.toMatch(/[\n\r\u2028\u2029]|NaN|undefined|Infinity|\[object/);
    }
  });
});

it('leaves no trace of a hostile key on other objects', () => {
  for (const { bytes } of samples('invalid')) readDesign(bytes);
  expect(Reflect.get({}, 'polluted')).toBeUndefined();
});
