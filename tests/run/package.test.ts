import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { command } from '../headless/command.ts';

const PROJECT = fileURLToPath(new URL('../..', import.meta.url));
const EXAMPLES = readdirSync(join(PROJECT, 'examples')).filter((name) => name.endsWith('.mjs'));
const STEADY = join(PROJECT, 'public/demos/steady.json');

const folder = mkdtempSync(join(tmpdir(), 'legroom-package-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Outside the checkout, and with no registry to ask: what is not in the package is not there. */
function outside(program: string, ...args: string[]): { code: number | null; out: string; err: string } {
  const offline = { npm_config_offline: 'true', npm_config_registry: 'http://127.0.0.1:9/' };
  const { status, stdout, stderr } = spawnSync(program, args, {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...offline, NODE_PATH: '' },
  });
  return { code: status, out: stdout, err: stderr };
}

beforeAll(() => {
  execFileSync('npm', ['pack', '--silent', '--pack-destination', folder], { cwd: PROJECT, stdio: 'pipe' });
  const [tarball] = readdirSync(folder).filter((name) => name.endsWith('.tgz'));
  writeFileSync(join(folder, 'package.json'), '{ "name": "a-persons-own", "version": "1.0.0", "type": "module" }\n');
  const installed = outside('npm', 'install', '--no-audit', '--no-fund', join(folder, tarball));
  expect(installed.err).toBe('');
  cpSync(STEADY, join(folder, 'design.json'));
});

describe('the package', () => {
  it('brings everything along: nothing else is installed', () => {
    expect(readdirSync(join(folder, 'node_modules')).filter((name) => !name.startsWith('.'))).toEqual(['legroom']);
  });

  it('is the command line, with the same figures', async () => {
    const packed = outside('npx', 'legroom', 'pose', 'design.json');
    expect(packed).toEqual({ code: 0, out: (await command(['pose', STEADY])).out, err: '' });
    const swept = outside('npx', 'legroom', 'explore', 'design.json', '--shard', '3/300');
    expect([swept.code, swept.out]).toEqual([0, (await command(['explore', STEADY, '--shard', '3/300'])).out]);
  });

  it('writes every kind of file, solids of the mesh library too', () => {
    mkdirSync(join(folder, 'files'));
    const { code, out, err } = outside('npx', 'legroom', 'build', 'design.json', '--out', 'files');
    // the models name stand-ins for masses that the design does not state: a warning, so exit code 1
    expect([code, err]).toEqual([1, expect.not.stringContaining('Error')]);
    const written = readdirSync(join(folder, 'files'));
    expect(written.some((name) => name.endsWith('.stl'))).toBe(true);
    expect(out.trimEnd().split('\n')).toHaveLength(written.length);
  });

  it.each(EXAMPLES)('runs the example %s', (name) => {
    cpSync(join(PROJECT, 'examples', name), join(folder, name));
    const { code, out, err } = outside(process.execPath, name, 'design.json');
    expect([code, err]).toEqual([0, '']);
    const [head, ...rows] = out.trimEnd().split('\n');
    expect(rows.length).toBeGreaterThan(2);
    for (const row of rows) expect(row.split(',')).toHaveLength(head.split(',').length);
    expect(out).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('gives its rooms types: the examples are checked strictly, and a wrong use is found', () => {
    for (const name of EXAMPLES) cpSync(join(PROJECT, 'examples', name), join(folder, name));
    const wrong =
      "import { readDesign } from 'legroom/document';\nconst read = readDesign('{}');\nif (read.ok) read.value.hoem;\n";
    writeFileSync(join(folder, 'wrong.mjs'), wrong);
    const types = join(PROJECT, 'node_modules/@types');
    const compilerOptions = {
      ...{ module: 'nodenext', target: 'es2022', strict: true, noEmit: true, allowJs: true, checkJs: true },
      ...{ typeRoots: [types], types: ['node'], lib: ['es2023'], skipLibCheck: false },
    };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, include: ['*.mjs'] }));
    const { out } = outside(
      process.execPath,
      join(PROJECT, 'node_modules/typescript/bin/tsc'),
      '-p',
      '.',
      '--pretty',
      'false',
    );
    const errors = out.trimEnd().split('\n');
    expect(errors).toEqual([expect.stringMatching(/^wrong\.mjs\(3,25\): error TS\d+: Property 'hoem' does not exist/)]);
  });

  it('counts reach in the example as the verb does', async () => {
    const { out } = outside(process.execPath, 'home-heights.mjs', 'design.json');
    const reach = JSON.parse((await command(['reach', STEADY])).out);
    const { home } = JSON.parse(readFileSync(STEADY, 'utf8'));
    const row = out.split('\n').find((line) => line.startsWith(`${home.position_mm[2]},`));
    expect(row?.split(',')[1]).toBe(reach.homeConnected_cm3.toFixed(1));
  });
});
