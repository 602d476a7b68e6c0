import { execFile } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { promisify } from 'node:util';
import { afterAll, describe, expect, it } from 'vitest';
import { samples, sampleText } from '../document/sample-files.ts';
import { command, DEMO, designFile, INVALID, VALID } from './command.ts';

const folder = mkdtempSync(join(tmpdir(), 'legroom-'));
afterAll(() => rmSync(folder, { recursive: true }));

const REFERENCE = VALID('rings-without-holes');

describe('check', () => {
  it.each(['rings-with-holes', 'ring-and-points', 'without-name-and-note', 'any-language'])(
    'prints the normal form of %s',
    async (name) => {
      const { code, out, err } = await command(['check', VALID(name)]);
      expect([code, out, err]).toEqual([0, sampleText(`normal/${name}.json`), '']);
    },
  );

  it('says what keeps a design from being built, by how many mm', async () => {
    // an octahedron's joints meet in pairs: bodies as wide as the barrel of 22 mm, 1 mm apart, are 23 mm too close
    const { code, out, err } = await command(['check', VALID('octahedron')]);
    expect([code, out]).toEqual([1, sampleText('normal/octahedron.json')]);
    expect(err).toMatch(/^Cannot be built: joints \d and \d on the (base|platform) are 23 mm too close\.$/m);
    expect(err).toMatch(/^Cannot be built: legs \d and \d run [\d.]+ mm into each other at home\.$/m);
    const { buildable } = JSON.parse((await command(['pose', VALID('octahedron')])).out);
    expect(buildable.possible).toBe(false);
    expect(buildable.worst_mm).toBeCloseTo(-23, 9);
    expect(buildable.gaps[0].gap_mm).toBe(buildable.worst_mm);
    // the steady demo: 24.3107 mm between the axes of a pair's joints on the platform
    const steady = JSON.parse((await command(['pose', DEMO('steady')])).out).buildable;
    expect(steady.possible).toBe(true);
    expect(steady.gaps.find(({ rule }: { rule: string }) => rule === 'jointsApart').gap_mm).toBeCloseTo(1.3107, 4);
  });

  it.each(samples('invalid'))(
    'refuses the invalid sample $name with exactly its messages, one a line',
    async ({ name }) => {
      const { code, out, err } = await command(['check', INVALID(name)]);
      expect([code, out, err]).toEqual([2, '', sampleText(`invalid/${name}.txt`)]);
    },
  );

  it('reports findings at home and prints the document all the same', async () => {
    const { code, out, lines } = await command(['check', VALID('singular')]);
    expect([code, out]).toEqual([1, sampleText('normal/singular.json')]);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(/^At home: The platform is singular at every pose\./);
  });
});

describe('input', () => {
  it('reads standard input for -', async () => {
    const text = readFileSync(REFERENCE, 'utf8');
    expect(await command(['pose', '-'], text)).toEqual(await command(['pose', REFERENCE]));
  });

  it('refuses a file of 200 MB by its size alone', async () => {
    const huge = join(folder, 'huge.json');
    writeFileSync(huge, '');
    truncateSync(huge, 200 * 1024 * 1024);
    // reading 200 MB takes some 100 ms even from memory; the best of five, since the machine may be busy
    const times: number[] = [];
    for (let go = 0; go < 5; go++) {
      const start = performance.now();
      await command(['check', huge]);
      times.push(performance.now() - start);
    }
    expect(Math.min(...times)).toBeLessThan(30);
    const { code, lines } = await command(['check', huge]);
    expect([code, lines.length]).toEqual([2, 1]);
    expect(lines[0]).toMatch(/^The file is 200\.0 MiB; it must be at most 4 MiB\./);
  });

  it('refuses an endless standard input after the size of the largest design', async () => {
    const { code, lines } = await command(['check', '-'], new Uint8Array(5 * 1024 * 1024));
    expect(code).toBe(2);
    expect(lines[0]).toMatch(/^The file is 5\.0 MiB; it must be at most 4 MiB\./);
  });

  it.each([
    [join(folder, 'none.json'), /none\.json is not there; it must be an existing design file\. Check the path\.$/],
    [join(REFERENCE, 'below'), /below is not there/],
    [folder, / is a folder; it must be a design file\. Name the file in it\.$/],
    ['a\0b', /^"a\\u0000b" is unreadable/],
    ['with space and "quotes".json', /^"with space and \\"quotes\\"\.json" is not there/],
  ])('refuses %j on one line', async (path, message) => {
    const { code, out, lines } = await command(['check', path]);
    expect([code, out, lines.length]).toEqual([2, '', 1]);
    expect(lines[0]).toMatch(message);
  });

  it('refuses a file that may not be read; to the superuser none is closed, and the file is read', async () => {
    const closed = join(folder, 'closed.json');
    writeFileSync(closed, '{}');
    chmodSync(closed, 0);
    const expected = process.getuid?.() === 0 ? /^format is missing/ : /is not yours to read/;
    expect((await command(['check', closed])).lines[0]).toMatch(expected);
  });
});

describe('arguments', () => {
  const refusals: readonly (readonly [readonly string[], readonly string[]])[] = [
    [
      [],
      [
        'The verb is missing; it must be one of check, pose, solve, reach, prove, task, move, explore, build. Write --help for a list.',
      ],
    ],
    [
      ['chek', REFERENCE],
      [
        'The verb is "chek"; it must be one of check, pose, solve, reach, prove, task, move, explore, build. Write check, or --help for a list.',
      ],
    ],
    [['pose'], ['FILE is missing; it must be a design file, or - for standard input. Write pose FILE.']],
    [['check', REFERENCE, 'b.json'], ['"b.json" is one argument too many; it must be left out. Give one design file.']],
    [
      ['pose', REFERENCE, '--att', '0,0,0,0,0,0'],
      [
        '"0,0,0,0,0,0" is one argument too many; it must be left out. Give one design file.',
        '--att is an unknown option; it must be one of --at, --help. Write --at.',
      ],
    ],
    [['check', REFERENCE, '-x'], ['-x is an unknown option; it must be one of --help. Leave it out.']],
    [
      ['pose', REFERENCE, '--at'],
      ['--at is without its value; it must be followed by x,y,z,roll,pitch,yaw. Write --at x,y,z,roll,pitch,yaw.'],
    ],
    ...[
      '1,2,3',
      '1,2,3,4,5,6,7',
      '1,2,3,4,5,',
      '1,2,3,4,5,six',
      '1,2,3,4,5,0x10',
      '1,2,3,4,5,NaN',
      '',
      'Infinity,0,0,0,0,0',
    ].map((text): readonly [readonly string[], readonly string[]] => [
      ['pose', REFERENCE, '--at', text],
      [`--at is "${text}"; it must be 6 numbers x,y,z,roll,pitch,yaw. Write --at x,y,z,roll,pitch,yaw.`],
    ]),
    [
      ['pose', REFERENCE, '--at', '1e999,0,0,0,0,-361'],
      [
        '--at x is 1e999; it must be from -1000000 to 1000000. Lower it to 1000000 or less.',
        '--at yaw is -361; it must be from -360 to 360. Raise it to -360 or more.',
      ],
    ],
    [
      ['pose', REFERENCE, '--at', '0,0,150,0,0,0', '--at=0,0,151,0,0,0'],
      ['--at is given twice; it must be given once. Leave one out.'],
    ],
    [['solve', REFERENCE], ['--lengths is missing; it must be six leg lengths in mm. Add it.']],
    [
      ['solve', REFERENCE, '--lengths', '-160,160,160,160,160,0'],
      [
        '--lengths l1 is -160; it must be from 0.001 to 1000000. Raise it to 0.001 or more.',
        '--lengths l6 is 0; it must be from 0.001 to 1000000. Raise it to 0.001 or more.',
      ],
    ],
    [
      ['solve', REFERENCE, '--lengths', '160,160,160,160,160,160', '--all=yes'],
      ['--all is "yes"; it must be without a value. Write --all.'],
    ],
  ];

  it.each(refusals)('%j is refused', async (argv, messages) => {
    const { code, out, lines } = await command(argv);
    expect(lines).toEqual(messages);
    expect([code, out]).toEqual([2, '']);
  });

  it('takes numbers that begin with a minus sign', async () => {
    const apart = await command(['pose', REFERENCE, '--at', '-5,-2,150,-1,-1,-1']);
    expect(apart.code).toBe(0);
    expect(await command(['pose', '--at=-5,-2,150,-1,-1,-1', REFERENCE])).toEqual(apart);
  });

  it.each(['--help', '-h', 'pose --help', 'nonsense -h'])('shows help for %s', async (words) => {
    const { code, out, err } = await command(words.split(' '));
    expect([code, err]).toEqual([0, '']);
    for (const verb of ['check', 'pose', 'solve', 'reach']) expect(out).toMatch(new RegExp(`^ {2}${verb} FILE`, 'm'));
  });
});

it('prints nothing but JSON numbers, whatever the design', async () => {
  for (const { name } of samples('valid')) {
    const { out, err } = await command(['pose', VALID(name), '--at', '3,-2,150,4,5,6']);
    expect(`${out}${err}`).not.toMatch(/NaN|Infinity|undefined/);
    if (out !== '') expect(() => JSON.parse(out)).not.toThrow();
  }
});

it('works as its own process: exit code, both outputs, standard input', { timeout: 30_000 }, async () => {
  const start = promisify(execFile);
  const main = designFile('src/headless/main.ts');
  const tsx = designFile('node_modules/tsx/dist/cli.mjs');
  const good = await start(process.execPath, [tsx, main, 'check', DEMO('steady')]);
  expect([good.stdout, good.stderr]).toEqual([readFileSync(DEMO('steady'), 'utf8'), '']);
  const piped = start(process.execPath, [tsx, main, 'check', '-']);
  piped.child.stdin?.end('{"format": "another"}');
  await expect(piped).rejects.toMatchObject({
    code: 2,
    stdout: '',
    stderr: 'format is "another"; it must be "legroom-design". Open a Legroom design file.\n',
  });
});
