import { spawn } from 'node:child_process';
import { mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readDesign } from '../../src/document/read-design.ts';
import { type SweepDocument, sweepSize } from '../../src/document/sweep-file.ts';
import { sweepAbout } from '../../src/headless/explore/explore.ts';
import { launchShare, sweepInProcesses } from '../../src/headless/explore/sweep-processes.ts';
import { shardSpan, tableColumns } from '../../src/headless/explore/table.ts';
import { command } from './command.ts';

const DESIGN = 'public/demos/steady.json';
const SWEEP: SweepDocument = {
  format: 'legroom-sweep',
  version: 1,
  variables: [
    { name: 'baseGap_deg', from: 5, to: 115, count: 12 },
    { name: 'platformGap_deg', from: 5, to: 115, count: 12 },
    { name: 'radiusRatio', from: 0.4, to: 1.2, count: 9 },
  ],
  tilt_deg: 6,
  firmnessFloor: 0.25,
  deadLength_mm: 0,
};

let folder = '';
const at = (name: string) => join(folder, name);

const legroom = (...argv: string[]) => command(argv);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'legroom-'));
  await writeFile(at('sweep.json'), JSON.stringify(SWEEP));
  const { code } = await legroom('explore', DESIGN, '--spec', at('sweep.json'), '--out', at('whole.ndjson'));
  expect(code).toBe(0);
}, 60_000);

afterAll(() => rm(folder, { recursive: true }));

describe('explore', () => {
  it('writes a head line and one line a layout, in order, with every column', async () => {
    const lines = (await readFile(at('whole.ndjson'), 'utf8')).trimEnd().split('\n');
    expect(lines.length).toBe(1 + sweepSize(SWEEP));
    expect(JSON.parse(lines[0])).toMatchObject({ format: 'legroom-sweep-table', from: 0, to: 1296, sweep: SWEEP });
    const row = JSON.parse(lines[1 + 500]);
    expect(row.layout).toBe(500);
    expect(Object.keys(row)).toEqual([
      ...['layout', 'baseGap_deg', 'platformGap_deg', 'radiusRatio', 'reach_cm3', 'tiltReach_cm3', 'usableReach_cm3'],
      ...['homeFirmness', 'homeCondition', 'worstFirmness', 'meanFirmness', 'forceFactor', 'jointTilt_deg'],
      ...['spareStroke_mm', 'buildGap_mm', 'buildable', 'homeReachable', 'singularEverywhere'],
    ]);
    expect(lines.join()).not.toMatch(/NaN|Infinity/);
  });

  it('gives each layout the figures of that layout alone', async () => {
    const lines = (await readFile(at('whole.ndjson'), 'utf8')).trimEnd().split('\n');
    for (const layout of [0, 77, 640, 1295]) {
      const row = JSON.parse(lines[1 + layout]);
      const alone = {
        ...SWEEP,
        variables: SWEEP.variables.map(({ name }) => ({ name, from: row[name], to: row[name], count: 1 })),
      };
      await writeFile(at('alone.json'), JSON.stringify(alone));
      const { out } = await legroom('explore', DESIGN, '--spec', at('alone.json'));
      const { layout: _, ...figures } = JSON.parse(out.split('\n')[1]);
      for (const [name, value] of Object.entries(figures)) {
        if (typeof value !== 'number') expect(row[name]).toBe(value);
        else expect(Math.abs(row[name] - value)).toBeLessThanOrEqual(1e-9 * Math.abs(value));
      }
    }
  }, 60_000);

  it('joins shards, in any order, to the table of one run, byte for byte', async () => {
    for (let shard = 1; shard <= 4; shard++) {
      await legroom(
        'explore',
        DESIGN,
        '--spec',
        at('sweep.json'),
        '--shard',
        `${shard}/4`,
        '--out',
        at(`${shard}.ndjson`),
      );
    }
    const parts = [3, 1, 4, 2].map((shard) => at(`${shard}.ndjson`));
    expect((await legroom('explore', '--merge', ...parts, '--out', at('joined.ndjson'))).code).toBe(0);
    expect(await readFile(at('joined.ndjson'))).toEqual(await readFile(at('whole.ndjson')));
    const missing = await legroom('explore', '--merge', parts[0], parts[1], parts[3], '--out', at('hole.ndjson'));
    expect(missing.code).toBe(2);
    expect(missing.lines[0]).toContain('Give every shard once');
  }, 120_000);

  it('goes on after being killed, to the same bytes, in both kinds of table', async () => {
    for (const kind of ['ndjson', 'csv']) {
      const arguments_ = ['explore', DESIGN, '--spec', at('sweep.json'), '--out', at(`killed.${kind}`)];
      const child = spawn(process.execPath, [
        '--import',
        import.meta.resolve('tsx'),
        'src/headless/main.ts',
        ...arguments_,
      ]);
      await untilFileHolds(at(`killed.${kind}`), 20_000);
      child.kill('SIGKILL');
      await new Promise((resolve) => child.on('exit', resolve));
      const whole = at(`whole.${kind}`);
      await legroom('explore', DESIGN, '--spec', at('sweep.json'), '--out', whole, '--force');
      const resumed = await legroom(...arguments_, '--resume');
      expect(resumed.code).toBe(0);
      expect(resumed.lines[0]).toContain('by an earlier run');
      expect(await readFile(at(`killed.${kind}`))).toEqual(await readFile(whole));
    }
  }, 120_000);

  it('goes on from a line cut anywhere', async () => {
    const whole = await readFile(at('whole.ndjson'));
    for (const length of [10, 400, whole.length - 100]) {
      await writeFile(at('cut.ndjson'), whole.subarray(0, length));
      const { code } = await legroom(
        'explore',
        DESIGN,
        '--spec',
        at('sweep.json'),
        '--out',
        at('cut.ndjson'),
        '--resume',
      );
      expect(code).toBe(0);
      expect(await readFile(at('cut.ndjson'))).toEqual(whole);
    }
  }, 120_000);

  it('leaves a table of another design or sweep alone', async () => {
    const before = await readFile(at('whole.ndjson'));
    const other = await legroom(
      ...['explore', 'public/demos/roomy.json', '--spec', at('sweep.json'), '--out', at('whole.ndjson'), '--resume'],
    );
    expect(other.code).toBe(2);
    expect(other.lines[0]).toContain('a table of another design, sweep or shard');
    expect(await readFile(at('whole.ndjson'))).toEqual(before);
  });

  it('has a span done again when its process dies, and gives up on one that kills every process', async () => {
    const design = readDesign(await readFile(DESIGN));
    if (!design.ok) throw new Error('the demo does not read');
    const about = sweepAbout(design.value, SWEEP);
    if (!about.ok) throw new Error('the demo cannot be swept');
    const table = { sweep: about.value, columns: tableColumns(SWEEP), kind: 'ndjson' as const };
    const span = shardSpan(sweepSize(SWEEP), 1, 1);
    const gather = async (launch: () => ReturnType<typeof launchShare>) => {
      let text = '';
      await sweepInProcesses(
        table,
        span,
        2,
        async (lines) => {
          text += lines;
        },
        launch,
      );
      return text;
    };
    const undisturbed = await gather(launchShare);
    let launched = 0;
    const survived = await gather(() => {
      const child = launchShare();
      if (++launched === 1) child.once('message', () => child.kill('SIGKILL'));
      if (launched === 2) child.once('spawn', () => child.kill('SIGKILL'));
      return child;
    });
    expect(launched).toBeGreaterThan(2);
    expect(survived).toBe(undisturbed);
    const doomed = gather(() => {
      const child = launchShare();
      child.once('spawn', () => child.kill('SIGKILL'));
      return child;
    });
    await expect(doomed).rejects.toThrow('ended (SIGKILL)');
  }, 120_000);

  it('asks before a sweep of 10^9 layouts, with the time it would take', async () => {
    const huge = { ...SWEEP, variables: SWEEP.variables.map((variable) => ({ ...variable, count: 1000 })) };
    await writeFile(at('huge.json'), JSON.stringify(huge));
    const { code, lines } = await legroom('explore', DESIGN, '--spec', at('huge.json'), '--out', at('huge.ndjson'));
    expect(code).toBe(2);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(/^The sweep is 1000000000 layouts, some .* (hours|minutes) on this machine;.*--large/);
  });

  it('tells that the storage is full, and how to go on', async () => {
    // only Linux has a device that is always full
    if (process.platform !== 'linux') return;
    await symlink('/dev/full', at('full.ndjson'));
    const { code, lines } = await legroom(
      'explore',
      DESIGN,
      '--spec',
      at('sweep.json'),
      '--out',
      at('full.ndjson'),
      '--force',
    );
    expect(code).toBe(2);
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(/full\.ndjson is cut short: the storage is full; .* go on with --resume\.$/);
  });

  it.each([
    ['reversed', { from: 90, to: 20 }, /^variables\[0\]\.to is 20; it must be 90 \(from\) or more/],
    ['empty', { from: 90, to: 90 }, /^variables\[0\] is .*empty/],
    ['without a value', { count: 0 }, /^variables\[0\]\.count is 0/],
  ])('refuses a range that is %s', async (name, change, message) => {
    const [first, ...others] = SWEEP.variables;
    const spec = at(`${name}.json`);
    await writeFile(spec, JSON.stringify({ ...SWEEP, variables: [{ ...first, ...change }, ...others] }));
    const { code, lines } = await legroom('explore', DESIGN, '--spec', spec);
    expect(code).toBe(2);
    expect(lines[0]).toMatch(message);
  });

  it.each([
    [['explore'], /^FILE is missing/],
    [['explore', DESIGN, '--spec', 'tests/nowhere.json'], /not there/],
    [['explore', DESIGN, '--out', 'nowhere/table.ndjson'], /in a folder that is not there/],
    [['explore', DESIGN, '--shard', '5/4'], /^--shard is "5\/4"/],
    [['explore', DESIGN, '--out', 'table.txt'], /^--out is "table.txt"/],
    [['explore', DESIGN, '--resume'], /^--resume is given without --out/],
    [['explore', DESIGN, '--spek', 'x'], /Write --spec/],
    [['explore', 'tests/samples/nowhere.json'], /not there/],
    [['explore', '--merge'], /^PART is missing/],
  ])('refuses %j with one clear line', async (argv, message) => {
    const { code, lines, out } = await legroom(...argv);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(lines[0]).toMatch(message);
  });
});

/** Waits until a growing file is at least this long [bytes]. */
async function untilFileHolds(path: string, bytes: number): Promise<void> {
  for (let n = 0; n < 3000; n++) {
    const { length } = await readFile(path).catch(() => Buffer.alloc(0));
    if (length >= bytes) return;
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  throw new Error(`${path} did not grow`);
}
