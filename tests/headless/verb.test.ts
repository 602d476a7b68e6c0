import {
  existsSync,
  linkSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Io } from '../../src/headless/io.ts';
import { choice, file, flag, namedNumbers, number, type Option, repeated, text } from '../../src/headless/option.ts';
import { progressLine } from '../../src/headless/progress.ts';
import { runVerb } from '../../src/headless/run.ts';
import { done, type Outcome, type Verb } from '../../src/headless/verb.ts';
import { VERBS } from '../../src/headless/verbs.ts';
import { command, ioOf } from './command.ts';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'legroom-'));
});
afterEach(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

const verbOf = (options: readonly Option<unknown>[], run: Verb['run'], more: Partial<Verb> = {}): Verb => ({
  files: { name: 'PART', limit: 'a part', least: 0, most: 3 },
  options,
  run,
  ...more,
});

describe.each(Object.entries(VERBS))('the verb %s', (name, row) => {
  it('names every one of its options in its usage, and no other', async () => {
    const verb = await row.load();
    const options = [...verb.options.map((option) => option.name), ...(verb.asksForce ? ['force'] : [])];
    const inUsage = new Set([...row.usage.matchAll(/--([\w-]+)/g)].map(([, option]) => option));
    expect([...inUsage].sort()).toEqual([...options].sort());
  });

  it('stands in the help text and in README.md', async () => {
    const { out } = await command(['--help']);
    expect(out).toContain(`  ${name} ${row.usage}\n      ${row.says}\n`);
    expect(readFileSync('README.md', 'utf8')).toContain(`| \`${name} `);
  });
});

describe('one parser for all verbs', () => {
  const SHARD = text('shard', 'i/n', {
    read: (typed) => (/^\d+\/\d+$/.test(typed) ? typed.split('/').map(Number) : null),
    limit: 'i/n',
    remedy: 'Write --shard 1/4.',
  });
  const options = {
    fast: flag('fast'),
    depth: number('depth', 'n', { min: 0, max: 9, whole: true, unit: '', says: '' }),
    floor: namedNumbers('floor', [
      { name: 'a', range: { min: 0, max: 1, unit: '', says: '' } },
      { name: 'b', range: { min: 0, max: 1, unit: '', says: '' } },
    ]),
    kind: choice('kind', ['drawing', 'table']),
    out: file('out', 'TABLE.csv', ['.csv', '.ndjson']),
    also: repeated(file('also', 'FILE')),
    shard: SHARD,
  };

  async function parsed(...argv: string[]) {
    let asked: unknown;
    const printed: string[] = [];
    const verb = verbOf(Object.values(options), async (request) => {
      const { fast, depth, floor, kind, out, also, shard } = options;
      asked = {
        files: request.files,
        fast: request.get(fast),
        depth: request.get(depth),
        floor: [...request.get(floor)],
        kind: request.get(kind),
        out: request.get(out),
        also: request.get(also),
        shard: request.get(shard),
      };
      return done('', []);
    });
    const code = await runVerb(verb, ['join', ...argv], ioOf({ err: (line) => printed.push(line) }));
    return code === 0 ? asked : printed.join('');
  }

  it('reads flags, numbers, names with numbers, words, paths, texts and what may be repeated', async () => {
    const none = { fast: false, depth: undefined, floor: [], kind: undefined, out: undefined, also: [] };
    expect(await parsed()).toEqual({ files: [], ...none, shard: undefined });
    const words = 'x.csv --fast --depth 3 --floor b=0.5 --floor a=1 --kind table y.csv --out=z.csv --also p --also q';
    expect(await parsed(...words.split(' '), '--shard', '2/7')).toEqual({
      files: ['x.csv', 'y.csv'],
      fast: true,
      depth: 3,
      floor: [
        ['b', 0.5],
        ['a', 1],
      ],
      kind: 'table',
      out: 'z.csv',
      also: ['p', 'q'],
      shard: [2, 7],
    });
  });

  it.each([
    ['--fast=1', '--fast is "1"; it must be without a value. Write --fast.'],
    ['--fast --fast', '--fast is given twice; it must be given once. Leave one out.'],
    ['--depth 2.5', '--depth is 2.5; it must be a whole number from 0 to 9. Write it without a fraction.'],
    ['--floor a=0 --floor a=1', '--floor a is given twice; it must be given once. Leave one out.'],
    ['--kind picture', '--kind is "picture"; it must be one of drawing, table. Write --kind drawing.'],
    ['--out z.txt', '--out is "z.txt"; it must be a name that ends in .csv or .ndjson. Rename it.'],
    ['--out --fast', '--out is without its value; it must be followed by TABLE.csv. Write --out TABLE.csv.'],
    ['--also', '--also is without its value; it must be followed by FILE. Write --also FILE.'],
    ['--also=', '--also is ""; it must be the path of a file. Write --also FILE.'],
    ['--shard 3', '--shard is "3"; it must be i/n. Write --shard 1/4.'],
    ['a b c d', '"d" is one argument too many; it must be left out. Give 3 at most.'],
  ])('refuses %s with one clear line', async (words, message) => {
    expect(await parsed(...words.split(' '))).toContain(message);
  });
});

describe('files of an outcome', () => {
  const input = (): string => at('input.json');

  async function written(outcome: Partial<Outcome>, more: Partial<Verb> = {}, ...argv: string[]) {
    const lines: string[] = [];
    const verb = verbOf(
      [],
      async (_, io) => {
        if (existsSync(input())) await io.readFile(input());
        return { exit: 0, lines: ['Done.'], ...outcome };
      },
      more,
    );
    const code = await runVerb(verb, ['build', ...argv], ioOf({ err: (line) => lines.push(line) }));
    return { code, line: lines.join('') };
  }

  it('are written, also into a folder that is made for them, with nothing left beside them', async () => {
    const [a, b] = [at('new/a.txt'), at('new/b.bin')];
    const files = [
      { name: a, bytes: 'one\n' },
      { name: b, bytes: Uint8Array.of(0, 255) },
    ];
    expect(await written({ folder: at('new'), files })).toEqual({ code: 0, line: 'Done.\n' });
    expect(readFileSync(a, 'utf8')).toBe('one\n');
    expect([...readFileSync(b)]).toEqual([0, 255]);
    expect(readdirSync(at('new')).sort()).toEqual(['a.txt', 'b.bin']);
  });

  it('are written all or none', async () => {
    const files = [
      { name: at('a.txt'), bytes: 'one' },
      { name: at('nowhere/b.txt'), bytes: 'two' },
    ];
    const { code, line } = await written({ files });
    expect([code, line]).toEqual([2, expect.stringContaining('b.txt is in a folder that is not there')]);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('replace what is there only with --force where the verb asks for it', async () => {
    writeFileSync(at('a.txt'), 'old');
    const outcome = { files: [{ name: at('a.txt'), bytes: 'new' }] };
    const refusal = await written(outcome, { asksForce: true });
    expect(refusal).toEqual({ code: 2, line: expect.stringMatching(/a\.txt is there already; .* add --force/) });
    expect(readFileSync(at('a.txt'), 'utf8')).toBe('old');
    expect((await written(outcome, { asksForce: true }, '--force')).code).toBe(0);
    expect(readFileSync(at('a.txt'), 'utf8')).toBe('new');
    expect((await written({ files: [{ name: at('a.txt'), bytes: 'newer' }] })).code).toBe(0);
    expect(readFileSync(at('a.txt'), 'utf8')).toBe('newer');
    expect((await written(outcome, {}, '--force')).line).toContain('--force is an unknown option');
  });

  it('never take the place of an input, under whatever name', async () => {
    writeFileSync(input(), '{"precious": true}');
    symlinkSync(input(), at('link.json'));
    linkSync(input(), at('second-name.json'));
    for (const name of ['input.json', 'link.json', 'second-name.json', '../input.json'.replace('..', '.')]) {
      const { code, line } = await written({ files: [{ name: at(name), bytes: 'x' }] }, { asksForce: true }, '--force');
      expect([code, line]).toEqual([2, expect.stringContaining('is a file that is read too')]);
    }
    expect(readFileSync(input(), 'utf8')).toBe('{"precious": true}');
  });

  it('follow a link only when asked, and keep it', async () => {
    writeFileSync(at('target.txt'), 'old');
    symlinkSync(at('target.txt'), at('link.txt'));
    const outcome = { files: [{ name: at('link.txt'), bytes: 'new' }] };
    for (const more of [{}, { asksForce: true } as const]) {
      const { code, line } = await written(outcome, more);
      expect([code, line]).toEqual([2, expect.stringContaining('link.txt is a link; it must be a file itself')]);
      expect(readFileSync(at('target.txt'), 'utf8')).toBe('old');
    }
    expect((await written(outcome, { asksForce: true }, '--force')).code).toBe(0);
    expect(readFileSync(at('target.txt'), 'utf8')).toBe('new');
    expect(readdirSync(folder).sort()).toEqual(['link.txt', 'target.txt']);
  });
});

describe('progress', () => {
  const showOn = (isTTY: boolean): string => {
    let text = '';
    let time = 0;
    const line = progressLine({ isTTY, write: (more) => (text += more) }, () => time);
    for (let n = 0; n <= 4; n++, time += 150) line.show('layouts', n, 4);
    line.clear();
    line.clear();
    return text;
  };

  it('is one line on a terminal, not oftener than can be read, and taken away at the end', () => {
    const empty = '\r\x1b[2K';
    const lines = [0, 2, 4].map((n) => `${empty}layouts: ${n} of 4 (${25 * n} %)`);
    expect(showOn(true)).toBe(`${lines.join('')}${empty}`);
  });

  it('is nothing in a file or pipe', () => expect(showOn(false)).toBe(''));
});

it('a verb that fails to be loaded or run is a bug and throws', async () => {
  const verb = verbOf([], async () => {
    throw new Error('a bug');
  });
  const io: Io = ioOf({});
  await expect(runVerb(verb, ['x'], io)).rejects.toThrow('a bug');
});
