import { readFileSync } from 'node:fs';
import { type BuildChoices, firstChoices } from '../../src/build/choices.ts';
import { type BuildParts, partsOf } from '../../src/build/parts.ts';
import { designToBuild } from '../../src/document/build-design.ts';
import type { DesignDocument } from '../../src/document/design.ts';
import { readDesign, validateDesign } from '../../src/document/read-design.ts';

const project = new URL('../../', import.meta.url);

/** A design file of the project, read as the program reads it. */
export function designAt(path: string): DesignDocument {
  const read = readDesign(readFileSync(new URL(path, project)));
  if (!read.ok) throw new Error(read.fault.map(({ message }) => message).join(' '));
  return read.value;
}

export const steady = (): DesignDocument => designAt('public/demos/steady.json');

/** A valid design that differs from another one. */
export function designLike(design: DesignDocument, changes: Partial<DesignDocument>): DesignDocument {
  const valid = validateDesign({ ...design, ...changes });
  if (!valid.ok) throw new Error(valid.fault.map(({ message }) => message).join(' '));
  return valid.value;
}

/** The same design `factor` times as large. */
export function scaled(design: DesignDocument, factor: number): DesignDocument {
  const larger = (value: unknown, key: string): unknown => {
    if (Array.isArray(value)) return value.map((entry) => larger(entry, key));
    if (typeof value === 'object' && value !== null)
      return Object.fromEntries(Object.entries(value).map(([name, entry]) => [name, larger(entry, name)]));
    return typeof value === 'number' && key.endsWith('_mm') ? value * factor : value;
  };
  const valid = validateDesign(larger(design, ''));
  if (!valid.ok) throw new Error(valid.fault.map(({ message }) => message).join(' '));
  return valid.value;
}

/** What is built from a design, on a fixed day. */
export function partsFrom(design: DesignDocument, choices: Partial<BuildChoices> = {}): BuildParts {
  const described = designToBuild(design);
  return partsOf(described, {
    choices: { ...firstChoices(described.mechanism), ...choices },
    date: '2026-11-30',
    program: 'Legroom 0.1.0',
    poses: [],
  });
}

/** Designs that every format is written for: what builders bring, and the corners of what is allowed. */
export const CASES: Readonly<Record<string, () => DesignDocument>> = {
  steady,
  roomy: () => designAt('public/demos/roomy.json'),
  even: () => designAt('public/demos/even.json'),
  'free points': () => designAt('tests/samples/valid/points-on-both.json'),
  'leaning mounts': () => designAt('tests/samples/valid/leaning-mounts.json'),
  'rod ends': () => {
    const design = steady();
    const joint = { ...design.joints.base, kind: 'rodEnd' as const };
    return designLike(design, { name: 'Rod ends', joints: { base: joint, platform: joint } });
  },
  'judged in full': () => designAt('tests/samples/valid/judged-in-full.json'),
  '10 m': () => ({ ...scaled(steady(), 50), name: 'Ten metres' }),
  '20 mm': () => ({ ...scaled(steady(), 0.1), name: 'Twenty millimetres' }),
};
