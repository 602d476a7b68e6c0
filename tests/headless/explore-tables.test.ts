import { linkSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readDesign } from '../../src/document/read-design.ts';
import { STANDARD_SWEEP, type SweepDocument, sweepSize } from '../../src/document/sweep-file.ts';
import { sweepAbout } from '../../src/headless/explore/explore.ts';
import { launchShare, sweepInProcesses } from '../../src/headless/explore/sweep-processes.ts';
import { shardSpan, tableColumns } from '../../src/headless/explore/table.ts';
import { writeTaken } from '../../src/headless/taken.ts';
import { command, DEMO, type Printed } from './command.ts';

/** 4 x 3 x 2 layouts: what matters here is which lines stand where. */
const SWEEP: SweepDocument = {
  format: 'legroom-sweep',
  version: 1,
  variables: [
    { name: 'baseGap_deg', from: 10, to: 100, count: 4 },
    { name: 'platformGap_deg', from: 10, to: 100, count: 3 },
    { name: 'radiusRatio', from: 0.5, to: 1, count: 2 },
  ],
  tilt_deg: 6,
  firmnessFloor: 0.25,
  deadLength_mm: 0,
};
const KINDS = ['ndjson', 'csv'] as const;
const HEADS = { ndjson: 1, csv: 2 };

let folder = '';
const at = (name: string): string => join(folder, name);
const read = (name: string): string => readFileSync(at(name), 'utf8');
const write = (name: string, text: string): void => writeFileSync(at(name), text);
const sweep = (...argv: string[]): Promise<Printed> =>
  command(['explore', DEMO('steady'), '--spec', at('s.json'), ...argv]);
const merge = (...argv: string[]): Promise<Printed> => command(['explore', '--merge', ...argv]);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'legroom-'));
  write('s.json', JSON.stringify(SWEEP));
  write('other.json', JSON.stringify({ ...SWEEP, tilt_deg: 7 }));
  for (const kind of KINDS) {
    expect((await sweep('--out', at(`whole.${kind}`))).code).toBe(0);
    for (const shard of ['1/3', '2/3', '3/3']) await sweep('--shard', shard, '--out', at(`${shard[0]}.${kind}`));
    const roomy = ['explore', DEMO('roomy'), '--spec', at('s.json'), '--shard', '2/3', '--out', at(`roomy-2.${kind}`)];
    expect((await command(roomy)).code).toBe(0);
    const other = ['explore', DEMO('steady'), '--spec', at('other.json'), '--shard', '2/3', '--out'];
    expect((await command([...other, at(`other-2.${kind}`)])).code).toBe(0);
  }
});

afterAll(() => rm(folder, { recursive: true }));

/** Every file of the folder with its bytes and its time. */
const state = (): unknown =>
  readdirSync(folder).map((name) => [name, statSync(at(name)).mtimeMs, statSync(at(name)).ino, read(name)]);

/** A command is refused with these words, on one line, and no file has changed, come or gone. */
async function refuses(run: () => Promise<Printed>, words: RegExp): Promise<void> {
  const before = state();
  const { code, out, lines } = await run();
  expect([code, out, lines]).toEqual([2, '', [expect.stringMatching(words)]]);
  expect(lines[0]).toMatch(/ is .+; it must be .+\. .+\.$/);
  expect(state()).toEqual(before);
}

describe('a CSV table', () => {
  it('begins with the fingerprint of design and sweep, which shards share and others do not', () => {
    const first = (name: string): string => read(name).split('\n')[0];
    expect(first('whole.csv')).toMatch(/^# legroom-sweep 1 [0-9a-f]{16}-24$/);
    for (const part of ['1.csv', '2.csv', '3.csv']) expect(first(part)).toBe(first('whole.csv'));
    expect(new Set(['whole.csv', 'roomy-2.csv', 'other-2.csv'].map(first)).size).toBe(3);
    expect(read('whole.csv').split('\n')[1]).toMatch(/^layout,baseGap_deg,/);
  });
});

describe.each(KINDS)('joining %s tables', (kind) => {
  const part = (name: string | number): string => at(`${name}.${kind}`);

  it('gives the table of one run, whatever the order of the shards', async () => {
    expect((await merge(part(3), part(1), part(2), '--out', part('joined'))).code).toBe(0);
    expect(read(`joined.${kind}`)).toBe(read(`whole.${kind}`));
    if (kind === 'ndjson') expect((await merge(part(2), part(3), part(1))).out).toBe(read('whole.ndjson'));
  });

  it('never destroys a part that is named as output, by whatever name', async () => {
    symlinkSync(part(1), part('link'));
    linkSync(part(1), part('twin'));
    for (const out of ['1', 'twin', 'link']) {
      const all = [part(1), part(2), part(3), '--out', part(out), '--force'];
      await refuses(() => merge(...all), /is a file that is read too; .* Name another file\.$/);
    }
  });

  it('leaves a good table alone when it is refused, and when nobody said that it may go', async () => {
    await refuses(() => merge(part(1), part(3), '--out', part('whole'), '--force'), /Give every shard once/);
    await refuses(() => merge(part(1), part(2), part(3), '--out', part('whole')), /is there already; .* add --force/);
  });

  it('refuses shards of another design or sweep', async () => {
    for (const stranger of ['roomy-2', 'other-2']) {
      const run = () => merge(part(1), part(stranger), part(3), '--out', part('new'));
      await refuses(run, new RegExp(`${stranger}\\.${kind} is a table of another design or sweep`));
    }
  });

  it('refuses one shard of several, one twice, and one that is not finished', async () => {
    const incomplete = /Give every shard once, each finished\.$/;
    await refuses(() => merge(part(1), '--out', part('new')), incomplete);
    await refuses(() => merge(part(1), part(2), '--out', part('new')), incomplete);
    await refuses(() => merge(part(2), part(3), '--out', part('new')), incomplete);
    await refuses(() => merge(part(1), part(2), part(2), part(3), '--out', part('new')), incomplete);
    write(`short.${kind}`, read(`2.${kind}`).slice(0, -20));
    await refuses(() => merge(part(1), part('short'), part(3), '--out', part('new')), incomplete);
  });

  it.each(editings(kind))('refuses a part of which %s, also towards standard output', async (_how, edit) => {
    write(`edited.${kind}`, edit(read(`2.${kind}`).split('\n')).join('\n'));
    const words = /edited\.\w+ is (edited, sorted or damaged at layout|edited in its head|cut at layout|at layout)/;
    await refuses(() => merge(part(1), part('edited'), part(3), '--out', part('new')), words);
    if (kind === 'ndjson') await refuses(() => merge(part(1), part('edited'), part(3)), words);
  });

  it('joins shards of which some are empty', async () => {
    const parts = [];
    for (let n = 1; n <= 50; n++) {
      parts.push(part(`of50-${n}`));
      expect((await sweep('--shard', `${n}/50`, '--out', part(`of50-${n}`))).code).toBe(0);
    }
    expect((await merge(...parts.reverse(), '--out', part('from50'))).code).toBe(0);
    expect(read(`from50.${kind}`)).toBe(read(`whole.${kind}`));
  });
});

describe.each(KINDS)('going on with a %s table', (kind) => {
  const table = (name: string): string => at(`${name}.${kind}`);
  const resume = (name: string): Promise<Printed> => sweep('--resume', '--out', table(name));

  it('touches no file that is not a table of this sweep', async () => {
    const strangers = {
      prose: 'Dear diary,\ntoday I weighed nothing.\n',
      'prose-without-end': 'Dear diary',
      blank: '\n\n\n',
      zeros: '\0'.repeat(200_000),
      other: read(`other-2.${kind}`),
      shard: read(`2.${kind}`),
    };
    for (const [name, text] of Object.entries(strangers)) {
      write(`stranger-${name}.${kind}`, text);
      await refuses(
        () => resume(`stranger-${name}`),
        /stranger-[\w-]+\.\w+ is (a table of another|without the finger|edited)/,
      );
    }
  });

  it('says of a table begun before it told what can be built that it must be weighed anew', async () => {
    const without = read(`whole.${kind}`).replace(/,"buildGap_mm":[^,]+,"buildable":(true|false)/g, '');
    write(`old.${kind}`, kind === 'ndjson' ? without : without.replace(',buildGap_mm,buildable', ''));
    await refuses(
      () => resume('old'),
      /begun by an earlier version, without what can be built.* Weigh the layouts anew/,
    );
  });

  it.each(editings(kind))('refuses one of which %s', async (_how, edit) => {
    write(
      `edited.${kind}`,
      edit(read(`whole.${kind}`).split('\n').slice(0, -8))
        .join('\n')
        .concat('\n'),
    );
    await refuses(
      () => resume('edited'),
      /is edited(, sorted or damaged at layout \d+| in its head); .* as explore left it\./,
    );
  });

  it('goes on from a table cut anywhere, to the bytes of one run', async () => {
    const whole = read(`whole.${kind}`);
    for (const length of [0, 7, 30, whole.length >> 1, whole.length - 3, whole.length]) {
      write(`cut.${kind}`, whole.slice(0, length));
      expect((await resume('cut')).code).toBe(0);
      expect(read(`cut.${kind}`)).toBe(whole);
    }
  });

  it('takes more lines than the sweep has for damage', async () => {
    write(`long.${kind}`, `${read(`whole.${kind}`)}${read(`whole.${kind}`).split('\n')[HEADS[kind]]}\n`);
    await refuses(() => resume('long'), /damaged at layout 24/);
  });

  it('starts over a finished table only when told to', async () => {
    await refuses(() => sweep('--out', table('whole')), /is there already; .* add --force to replace it\.$/);
    write(`old.${kind}`, 'something else\n');
    expect((await sweep('--out', table('old'), '--force')).code).toBe(0);
    expect(read(`old.${kind}`)).toBe(read(`whole.${kind}`));
  });

  it('goes through a link only when told to', async () => {
    write(`behind.${kind}`, read(`whole.${kind}`).slice(0, 900));
    symlinkSync(table('behind'), table('before'));
    await refuses(() => resume('before'), /is a link; .* add --force/);
    await refuses(() => sweep('--out', table('before')), /is a link; .* add --force/);
    expect((await sweep('--resume', '--out', table('before'), '--force')).code).toBe(0);
    expect(read(`behind.${kind}`)).toBe(read(`whole.${kind}`));
  });
});

it('refuses CSV tables from before there were fingerprints, and says what to do', async () => {
  const unmarked = (name: string): string => read(name).split('\n').slice(1).join('\n');
  for (const name of ['1', '2', '3']) write(`unmarked-${name}.csv`, unmarked(`${name}.csv`));
  const parts = [1, 2, 3].map((name) => at(`unmarked-${name}.csv`));
  const words = /unmarked-1\.csv is without the fingerprint of its design and sweep; .* Weigh the layouts anew/;
  await refuses(() => merge(...parts, '--out', at('new.csv')), words);
  await refuses(() => sweep('--shard', '1/3', '--resume', '--out', at('unmarked-1.csv')), words);
});

it('never writes over the design or the sweep file', async () => {
  write('design.ndjson', readFileSync(DEMO('steady'), 'utf8'));
  write('sweep.ndjson', read('s.json'));
  for (const out of ['design', 'sweep']) {
    const argv = [
      'explore',
      at('design.ndjson'),
      '--spec',
      at('sweep.ndjson'),
      '--out',
      at(`${out}.ndjson`),
      '--force',
    ];
    await refuses(() => command(argv), /is a file that is read too/);
    await refuses(() => command([...argv, '--resume']), /is a file that is read too/);
  }
});

describe('a sweep of 5e10 layouts, more than 32 bits count', () => {
  const HUGE: SweepDocument = {
    ...SWEEP,
    variables: [
      { name: 'baseGap_deg', from: 5, to: 115, count: 500 },
      { name: 'platformGap_deg', from: 5, to: 115, count: 500 },
      { name: 'radiusRatio', from: 0.4, to: 1.2, count: 500 },
      { name: 'homeHeight_mm', from: 140, to: 160, count: 400 },
    ],
  };
  const SHARDS = 1_000_000_000;

  /** Figures of the layout that has these variables, weighed in a sweep of its own. */
  async function alone(row: Readonly<Record<string, number>>): Promise<Record<string, unknown>> {
    const variables = HUGE.variables.map(({ name }) => ({ name, from: row[name], to: row[name], count: 1 }));
    write('alone.json', JSON.stringify({ ...HUGE, variables }));
    const { out } = await command(['explore', DEMO('steady'), '--spec', at('alone.json')]);
    return JSON.parse(out.split('\n')[1]);
  }

  it('gives the layouts past 2^32 their own variables and figures', async () => {
    write('huge.json', JSON.stringify(HUGE));
    for (const shard of [SHARDS, Math.ceil(2 ** 32 / 50) + 1, 700_000_001]) {
      const argv = ['explore', DEMO('steady'), '--spec', at('huge.json'), '--shard', `${shard}/${SHARDS}`];
      const { code, out } = await command(argv);
      const [head, ...rows] = out
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line));
      expect([code, rows.length, head.from, head.to]).toEqual([0, 50, 50 * (shard - 1), 50 * shard]);
      for (const n of [0, 17, 49]) {
        const { layout, ...row } = rows[n];
        expect(layout).toBe(50 * (shard - 1) + n);
        // the layout's places by integers of any size: the last variable counts fastest
        let rest = BigInt(layout);
        for (const { name, from, to, count } of [...HUGE.variables].reverse()) {
          const place = Number(rest % BigInt(count));
          rest /= BigInt(count);
          expect(row[name]).toBeCloseTo(from + ((to - from) * place) / (count - 1), 9);
        }
        const { layout: _, ...single } = await alone(row);
        for (const [name, value] of Object.entries(single)) {
          if (typeof value === 'number') expect(row[name], name).toBeCloseTo(value, 9);
          else expect(row[name], name).toBe(value);
        }
      }
    }
  });

  it.each(KINDS)('goes on with a %s table of them', async (kind) => {
    const argv = ['explore', DEMO('steady'), '--spec', at('huge.json'), '--shard', `${SHARDS}/${SHARDS}`, '--out'];
    await command([...argv, at(`huge.${kind}`)]);
    const whole = read(`huge.${kind}`);
    write(`huge-cut.${kind}`, whole.slice(0, -3000));
    const { code, lines } = await command([...argv, at(`huge-cut.${kind}`), '--resume']);
    expect([code, lines[0]]).toEqual([
      0,
      expect.stringMatching(/^50 layouts weighed, \d+ of them by an earlier run\.$/),
    ]);
    expect(read(`huge-cut.${kind}`)).toBe(whole);
  });

  it('is not begun where even 53 bits do not count the layouts', async () => {
    const variables = HUGE.variables.map((variable) => ({ ...variable, count: 10_000 }));
    write('most.json', JSON.stringify({ ...HUGE, variables }));
    const { code, lines } = await command(['explore', DEMO('steady'), '--spec', at('most.json')]);
    const line =
      'variables is of 10000000000000000 layouts; it must be of at most 9007199254740991 together. Lower the counts.';
    expect([code, lines]).toEqual([2, [line]]);
  });

  it('has shards that meet without gap or overlap, whatever their number', () => {
    // by integers of any size
    for (const [layouts, count] of [
      [Number.MAX_SAFE_INTEGER, SHARDS],
      [Number.MAX_SAFE_INTEGER - 5, 999_999_937],
      [5e10, 7],
      [10, 64],
    ]) {
      for (const number of [1, 2, Math.ceil(count / 3), count - 1, count]) {
        const edge = (n: number): number => Number((BigInt(layouts) * BigInt(n)) / BigInt(count));
        expect(shardSpan(layouts, number, count)).toEqual({ from: edge(number - 1), to: edge(number) });
      }
    }
  });
});

it('waits for a reader that is slow: a text is written when it has been taken, not before', async () => {
  let take: () => void = () => undefined;
  const slow = new Writable({
    write(_text, _encoding, taken) {
      take = taken;
    },
  });
  let written = false;
  const writing = writeTaken(slow, 'a line\n').then(() => {
    written = true;
  });
  await new Promise((resolve) => setTimeout(resolve, 50));
  expect(written).toBe(false);
  take();
  await writing;
  expect(written).toBe(true);
});

it('weighs no more than a few layouts ahead of a reader that does not read', async () => {
  const design = readDesign(readFileSync(DEMO('steady')));
  if (!design.ok) throw new Error('the demo does not read');
  const about = sweepAbout(design.value, STANDARD_SWEEP);
  if (!about.ok) throw new Error('the demo cannot be swept');
  let answers = 0;
  let written = 0;
  let last = performance.now();
  const launch = () => {
    const child = launchShare();
    child.on('message', () => {
      answers++;
      last = performance.now();
    });
    return child;
  };
  const table = { sweep: about.value, columns: tableColumns(STANDARD_SWEEP), kind: 'ndjson' as const };
  const stopped = sweepInProcesses(
    table,
    { from: 0, to: sweepSize(STANDARD_SWEEP) },
    2,
    async () => {
      written++;
      // nobody reads: until nothing has come for three seconds, in which a span takes a hundredth of that
      while (answers === 0 || performance.now() - last < 3000) await new Promise((resolve) => setTimeout(resolve, 50));
      throw new Error('seen enough');
    },
    launch,
  );
  await expect(stopped).rejects.toThrow('seen enough');
  expect(written).toBe(1);
  // of 422 spans
  expect(answers).toBeLessThan(30);
});

/** What a person, a spreadsheet or a bad disk does to lines of a table, named so that it reads behind "of which". */
function editings(kind: (typeof KINDS)[number]): [string, (lines: string[]) => string[]][] {
  const row = HEADS[kind] + 2;
  const change = (replace: (line: string) => string) => (lines: string[]) =>
    lines.map((line, n) => (n === row ? replace(line) : line));
  const csv = kind === 'csv';
  const all: [string, (lines: string[]) => string[]][] = [
    ['a row was left out', (lines) => lines.filter((_, n) => n !== row)],
    ['a row stands twice', (lines) => lines.flatMap((line, n) => (n === row ? [line, line] : [line]))],
    [
      'two rows changed places',
      (lines) => lines.map((line, n) => lines[n === row ? n + 1 : n === row + 1 ? row : n] ?? line),
    ],
    ['a row has another number', change((line) => line.replace(/\d+/, (number) => String(Number(number) + 1)))],
    ['a row lost a cell', change((line) => line.replace(csv ? /,[^,]*$/ : /,"homeReachable":\w+/, ''))],
    ['a row won a cell', change((line) => line.replace(csv ? /$/ : /}$/, csv ? ',1' : ',"note":1}'))],
    [
      'a figure became a word',
      change((line) =>
        line.replace(
          csv ? /,[^,]*,(true|false)/ : /:[^:]*,"homeReachable"/,
          csv ? ',good,true' : ':good,"homeReachable"',
        ),
      ),
    ],
    [
      "the line ends are another system's",
      (lines) => lines.map((line, n) => (n === lines.length - 1 ? line : `${line}\r`)),
    ],
    ['a row is empty', change(() => '')],
  ];
  // only NDJSON says what the variables of a row must be; a resumed table is held to its sweep in both kinds
  return csv
    ? all
    : [...all, ['a variable was edited', change((line) => line.replace(/"radiusRatio":/, '"radiusRatio":1'))]];
}
