import { execFile, spawn } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { STANDARD_SWEEP } from '../../src/document/sweep-file.ts';
import { command, DEMO, designFile } from './command.ts';

const MAIN = designFile('bin/legroom.mjs');
const LINUX = process.platform === 'linux';

const folder = mkdtempSync(join(tmpdir(), 'legroom-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

const sweepOf = (count: number): unknown => ({
  ...STANDARD_SWEEP,
  variables: STANDARD_SWEEP.variables.map((variable) => ({ ...variable, count })),
});

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs a program to its end, which has come when all that it started have let go of its outputs too. */
function ended(program: string, args: readonly string[], options: object = {}): Promise<Ended> {
  return new Promise((resolve) => {
    const child = execFile(program, args, { maxBuffer: 2 ** 28, ...options }, (_error, out, err) =>
      resolve({ code: child.exitCode, out: String(out), err: String(err) }),
    );
  });
}

const shell = (text: string, options: object = {}): Promise<Ended> => ended('bash', ['-c', text], options);

// the first start bundles: once, before anything is timed
beforeAll(() => ended(process.execPath, [MAIN, '--help']));

describe('the command line as a process', () => {
  it('takes little time to start: at most 0.35 s of the processor more than Node.js itself', async () => {
    const cpu =
      'process.on("exit", () => { const { user, system } = process.cpuUsage(); console.error(user + system); })';
    const seconds = async (...args: string[]): Promise<number> => {
      const { err } = await ended(process.execPath, ['--import', `data:text/javascript,${cpu}`, ...args]);
      return Number(err) / 1e6;
    };
    const ours: number[] = [];
    const nodes: number[] = [];
    for (let go = 0; go < 5; go++) {
      nodes.push(await seconds('-e', '0'));
      ours.push(await seconds(MAIN, 'pose', DEMO('steady')));
    }
    // the least of each: what else runs on the machine only adds
    expect(Math.min(...ours) - Math.min(...nodes)).toBeLessThan(0.35);
  });

  it('stops at once and quietly when its reader has seen enough, and so do the processes of a sweep', async () => {
    // a sweep of 10^9 layouts, which would take days: that it ends is that it stops at once
    writeFileSync(at('large.json'), JSON.stringify(sweepOf(1000)));
    const large = `explore "${DEMO('steady')}" --spec "${at('large.json')}" --large`;
    const { code, out, err } = await shell(
      `"${process.execPath}" "${MAIN}" ${large} | head -n 2; exit \${PIPESTATUS[0]}`,
    );
    expect([code, err]).toEqual([141, '']);
    expect(out.split('\n')).toHaveLength(3);
    const quiet = await shell(
      `"${process.execPath}" "${MAIN}" pose "${DEMO('steady')}" | true; exit \${PIPESTATUS[0]}`,
    );
    expect([[0, 141].includes(quiet.code ?? -1), quiet.err]).toEqual([true, '']);
  });

  it.each(['pose', 'explore'])('says in one line that standard output cannot be written: %s', async (verb) => {
    // only Linux has a device that is always full
    if (!LINUX) return;
    const { code, err } = await shell(`"${process.execPath}" "${MAIN}" ${verb} "${DEMO('steady')}" > /dev/full`);
    const line =
      'Standard output is cut short: the storage is full; it must be whole. Free some space and run it again.\n';
    expect([code, err]).toEqual([2, line]);
  });

  it('leaves no process and no stack behind when it is killed in the middle of a sweep', async () => {
    const table = at('killed.ndjson');
    const child = spawn(process.execPath, [MAIN, 'explore', DEMO('steady'), '--out', table]);
    let err = '';
    child.stderr.on('data', (text) => {
      err += String(text);
    });
    const closed = new Promise((resolve) => child.once('close', resolve));
    for (let size = 0; size < 100_000; size = statSync(table, { throwIfNoEntry: false })?.size ?? 0) {
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    child.kill('SIGKILL');
    // its outputs are closed only when the last process that shares them has ended
    await closed;
    expect(err).toBe('');
  });
});

describe('a checkout', () => {
  const copy = at('checkout');
  const legroom = (environment: object = {}, cwd = copy, ...argv: string[]): Promise<Ended> =>
    ended(process.execPath, [join(copy, 'bin/legroom.mjs'), ...(argv.length > 0 ? argv : ['--help'])], {
      cwd,
      env: { ...process.env, HOME: at('home'), XDG_CACHE_HOME: '', ...environment },
    });
  const cache = join(copy, 'node_modules/.cache');
  const edit = (word: string, instead: string): void => {
    const file = join(copy, 'src/headless/verbs.ts');
    writeFileSync(file, readFileSync(file, 'utf8').replace(word, instead));
  };

  beforeAll(() => {
    mkdirSync(join(copy, 'node_modules'), { recursive: true });
    for (const part of ['bin', 'tools', 'src', 'package.json', 'package-lock.json', 'tsconfig.json'])
      cpSync(designFile(part), join(copy, part), { recursive: true });
    for (const name of readdirSync(designFile('node_modules')))
      if (!name.startsWith('.')) symlinkSync(designFile(`node_modules/${name}`), join(copy, 'node_modules', name));
  });

  it('is bundled once, at first use, and again when a source has changed', async () => {
    const first = await legroom();
    expect([first.code, first.err]).toEqual([0, '']);
    const current = (): string => readFileSync(join(cache, 'legroom/current.json'), 'utf8');
    const bundle = current();
    const made = statSync(join(cache, 'legroom/current.json')).mtimeMs;
    expect((await legroom()).out).toBe(first.out);
    expect(statSync(join(cache, 'legroom/current.json')).mtimeMs).toBe(made);
    edit('validates a design', 'looks through a design');
    expect((await legroom()).out).toBe(first.out.replace('validates a design', 'looks through a design'));
    expect(current()).not.toBe(bundle);
  });

  it('works where it may only be read, with a bundle below the home folder, or from its sources', async () => {
    const before = await legroom();
    rmSync(cache, { recursive: true });
    writeFileSync(cache, 'no folder can be made in a file');
    expect(await legroom()).toEqual(before);
    expect(readdirSync(at('home/.cache/legroom'))).toHaveLength(1);
    edit('looks through a design', 'reads a design');
    const homeless = await legroom({ HOME: '/dev/null' });
    expect(homeless).toEqual({ ...before, out: before.out.replace('looks through a design', 'reads a design') });
    const table = ['explore', DEMO('steady'), '--shard', '1/200'];
    const fromSources = await legroom({ HOME: '/dev/null' }, copy, ...table);
    expect(fromSources.code).toBe(0);
    expect((await legroom({}, copy, ...table)).out).toBe(fromSources.out);
    rmSync(cache);
  });

  it('never runs a bundle from a folder that others write to', async () => {
    if (process.platform === 'win32') return;
    const open = at('open-home/.cache/legroom');
    writeFileSync(cache, '');
    await legroom({ HOME: at('open-home') });
    const [name] = readdirSync(open);
    const current = readFileSync(join(open, name, 'current.json'), 'utf8');
    const planted = join(open, name, JSON.parse(current).name, 'main.js');
    writeFileSync(planted, 'console.log("planted")');
    expect((await legroom({ HOME: at('open-home') })).out).toBe('planted\n');
    await ended('chmod', ['0777', join(open, name)]);
    expect((await legroom({ HOME: at('open-home') })).out).toContain('Legroom on the command line');
    rmSync(cache);
  });

  it('takes paths from where the person stands', async () => {
    mkdirSync(join(copy, 'mine'));
    cpSync(DEMO('steady'), join(copy, 'mine/design.json'));
    const npm = await ended('npm', ['run', '--silent', 'legroom', '--', 'check', 'design.json'], {
      cwd: join(copy, 'mine'),
    });
    expect([npm.code, npm.err, npm.out]).toEqual([0, '', readFileSync(DEMO('steady'), 'utf8')]);
  });
});

it('gives the figures of the bundle and of the sources alike, bit for bit', async () => {
  const argv = ['explore', DEMO('steady'), '--shard', '3/300'];
  const bundled = await ended(process.execPath, [MAIN, ...argv]);
  expect(bundled.out).toBe((await command(argv)).out);
});
