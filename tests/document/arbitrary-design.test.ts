import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { designJsonSchema } from '../../src/document/json-schema.ts';
import { judgementInputs } from '../../src/document/judgement-inputs.ts';
import { readDesign } from '../../src/document/read-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { writeDesign } from '../../src/document/write-design.ts';
import { clearanceFault } from '../../src/kinematics/keep-out.ts';
import { loadFault } from '../../src/kinematics/load.ts';
import { seriesStiffness } from '../../src/kinematics/stiffness.ts';
import { anyDesign } from './arbitrary-design.ts';

const SEED = 20260822;

/** Paths of all keys in a JSON value, list places as []. */
function keyPaths(value: unknown, path = ''): readonly string[] {
  if (Array.isArray(value)) return value.flatMap((item) => keyPaths(item, `${path}[]`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => [`${path}.${key}`, ...keyPaths(item, `${path}.${key}`)]);
}

/** Paths of all keys that a JSON Schema names. */
function schemaPaths(schema: unknown, path = ''): readonly string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const entries = Object.entries(schema);
  return entries.flatMap(([word, part]): readonly string[] => {
    if (word === 'properties' && typeof part === 'object' && part !== null) {
      return Object.entries(part).flatMap(([key, item]) => [`${path}.${key}`, ...schemaPaths(item, `${path}.${key}`)]);
    }
    if (word === 'prefixItems' && Array.isArray(part)) return part.flatMap((item) => schemaPaths(item, `${path}[]`));
    if (word === 'items') return schemaPaths(part, `${path}[]`);
    if (word === 'anyOf' && Array.isArray(part)) return part.flatMap((item) => schemaPaths(item, path));
    return [];
  });
}

describe('generated designs', { timeout: 60_000 }, () => {
  const designs = fc.sample(anyDesign, { seed: SEED, numRuns: 1000 });

  it('use every field that the file knows', () => {
    const used = new Set(designs.flatMap((design) => keyPaths(design)));
    const known = new Set(schemaPaths(JSON.parse(designJsonSchema())));
    expect(known.size).toBeGreaterThan(100);
    // the design in a snapshot comes from the same generator
    const isUsed = (path: string) => used.has(path) || used.has(path.replace('.snapshots[].design', ''));
    expect([...known].filter((path) => !isUsed(path))).toEqual([]);
  });

  it('come back from their text bit for bit', () => {
    for (const design of designs) {
      const read = readDesign(writeDesign(design));
      expect(read.ok && read.value).toStrictEqual(design);
    }
  });

  it('give the kinematics nothing that it refuses', () => {
    for (const design of designs) {
      const inputs = judgementInputs(design, mechanismFromDocument(design));
      expect(loadFault(inputs.load)).toBeNull();
      expect(clearanceFault(inputs.clearance)).toBeNull();
      if (inputs.stiffness) expect(seriesStiffness(inputs.stiffness).ok).toBe(true);
    }
  });
});
