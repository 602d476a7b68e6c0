import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';

/** A small source tree: some files keep the rules, the others break one each, in every way that imports are written. */
const TREE: Record<string, string> = {
  'src/math/a.ts': 'export const a = 1;',
  'src/kinematics/b.ts': "import { a } from '../math/a.ts';\nexport type B = number;\nexport const b: B = a;",
  'src/panels/C.tsx': "import { b } from '../kinematics/b.ts';\nexport const C = () => <p>{b}</p>;",
  'src/app/App.tsx': "import { C } from '../panels/C.tsx';\nexport const App = () => <C />;",
  'src/motion/path.ts': "import { b } from '../kinematics/b.ts';\nexport const path = b;",

  'src/math/value.ts': "import { b } from '../kinematics/b.ts';\nexport const value = b;",
  'src/math/type.ts': "import type { B } from '../kinematics/b.ts';\nexport const value: B = 1;",
  'src/math/later.ts': "export const later = () => import('../kinematics/b.ts');",
  'src/math/passed-on.ts': "export { b } from '../kinematics/b.ts';",
  'src/panels/Uphill.tsx': "import { App } from '../app/App.tsx';\nexport const Uphill = () => <App />;",
  'src/panels/design/Plate.tsx': "import { C } from '../C.tsx';\nexport const Plate = () => <C />;",
  'src/panels/judge/Forces.tsx': "import { Plate } from '../design/Plate.tsx';\nexport const Forces = () => <Plate />;",
  'src/explore/sweep.ts': "import { path } from '../motion/path.ts';\nexport const sweep = path;",
  'src/math/here.ts': "import { there } from './there.ts';\nexport const here = () => there();",
  'src/math/there.ts': "import { here } from './here.ts';\nexport const there = (): number => here();",
  'src/reach/shell.ts': "import { Vector3 } from 'three';\nexport const shell = Vector3;",
  'src/headless/main.ts': "import { useState } from 'react';\nexport const main = useState;",
  'src/document/read.ts': "import { readFileSync } from 'node:fs';\nexport const read = readFileSync;",
  'src/document/checks.ts': "import { z } from 'zod';\nexport const checks = z;",
  'src/math/referee.ts': "import { Matrix } from 'ml-matrix';\nexport const referee = Matrix;",
  'src/math/lost.ts': "export { gone } from './gone.ts';",
  'src/attic/old.ts': "import { a } from '../math/a.ts';\nexport const old = a;",
  'src/math/alone.ts': 'export const alone = 1;',
};

const PROJECT = fileURLToPath(new URL('../..', import.meta.url));
const report = z.object({
  summary: z.object({ violations: z.array(z.object({ from: z.string(), rule: z.object({ name: z.string() }) })) }),
});

/** Rules found broken in the tree, by file. */
const broken: Record<string, string[]> = {};
const folder = mkdtempSync(join(tmpdir(), 'import-rules-'));

beforeAll(() => {
  for (const file of ['.dependency-cruiser.cjs', 'package.json']) cpSync(join(PROJECT, file), join(folder, file));
  symlinkSync(join(PROJECT, 'node_modules'), join(folder, 'node_modules'));
  for (const [path, text] of Object.entries(TREE)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  const cruiser = join(PROJECT, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
  const args = [cruiser, 'src', '--config', '.dependency-cruiser.cjs', '--output-type', 'json'];
  const output = execFileSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
  for (const { from, rule } of report.parse(JSON.parse(output)).summary.violations) {
    broken[from] ??= [];
    broken[from].push(rule.name);
  }
});

afterAll(() => rmSync(folder, { recursive: true }));

describe('the import rules', () => {
  it.each([
    'src/math/a.ts',
    'src/kinematics/b.ts',
    'src/panels/C.tsx',
    'src/panels/design/Plate.tsx',
    'src/app/App.tsx',
    'src/motion/path.ts',
  ])('are content with %s, which imports downhill', (file) => expect(broken[file]).toBeUndefined());

  it.each([
    ['a value uphill', 'src/math/value.ts', 'math-imports-downhill-only'],
    ['a type uphill', 'src/math/type.ts', 'math-imports-downhill-only'],
    ['at run time uphill', 'src/math/later.ts', 'math-imports-downhill-only'],
    ['to pass it on uphill', 'src/math/passed-on.ts', 'math-imports-downhill-only'],
    ['one component from another uphill', 'src/panels/Uphill.tsx', 'panels-imports-downhill-only'],
    ['from a neighbour on the same level', 'src/explore/sweep.ts', 'explore-imports-downhill-only'],
    ['from another folder of panels', 'src/panels/judge/Forces.tsx', 'no-folder-of-panels-from-another'],
    ['in a circle', 'src/math/here.ts', 'no-circles'],
    ['a screen library in a pure room', 'src/reach/shell.ts', 'no-screen-in-pure-rooms'],
    ['a screen library on the command line', 'src/headless/main.ts', 'no-screen-in-pure-rooms'],
    ['the file system in a room of the page', 'src/document/read.ts', 'node-modules-only-in-headless'],
    ['zod past the one file that keeps it from compiling', 'src/document/checks.ts', 'zod-only-by-document'],
    ['what only the tests may use', 'src/math/referee.ts', 'bundled-libraries-only'],
    ['a file that is not there', 'src/math/lost.ts', 'resolvable'],
    ['from a room that nobody entered in the list', 'src/attic/old.ts', 'known-rooms-only'],
    ['nothing, needed by nothing', 'src/math/alone.ts', 'no-orphans'],
  ])('find a file that imports %s', (_how, file, rule) => expect(broken[file]).toEqual([rule]));
});
