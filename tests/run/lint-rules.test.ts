import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** A small source tree: the rule of our own is broken once for each element, and kept where it does not hold. */
const TREE: Record<string, string> = {
  'src/panels/Raw.tsx': 'export const Raw = () => <button type="button">Go</button>;\n',
  'src/scene/Raw.tsx': 'export const Raw = () => <table />;\n',
  'src/app/Raw.tsx':
    'export const Raw = () => (\n  <select aria-label="Which">\n    <option>one</option>\n  </select>\n);\n',
  'src/ui/Button.tsx': 'export const Button = () => <button type="button">Go</button>;\n',
  'tests/raw.test.tsx': 'export const Raw = () => <button type="button">Go</button>;\n',
};
const RULES = 'tests/run/rules';
const folder = mkdtempSync(join(tmpdir(), 'lint-rules-'));
let report = '';

beforeAll(() => {
  for (const file of ['biome.json', RULES]) cpSync(file, join(folder, file), { recursive: true });
  for (const [path, text] of Object.entries(TREE)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  const biome = resolve('node_modules/@biomejs/biome/bin/biome');
  const { stdout, stderr } = spawnSync(process.execPath, [biome, 'lint', '--vcs-enabled=false', 'src', 'tests'], {
    cwd: folder,
    encoding: 'utf8',
  });
  report = `${stdout}${stderr}`;
});

afterAll(() => rmSync(folder, { recursive: true }));

describe('the lint', () => {
  it.each(['src/panels/Raw.tsx', 'src/scene/Raw.tsx', 'src/app/Raw.tsx'])('refuses the raw control of %s', (path) =>
    expect(report).toContain(`${path}:`),
  );

  it.each(['src/ui/Button.tsx', 'tests/raw.test.tsx'])('leaves %s alone', (path) => expect(report).not.toContain(path));

  it('names the remedy', () => expect(report).toContain('come from src/ui (Button, Select, Table)'));
});
