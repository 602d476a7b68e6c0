import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { EXPORTERS } from '../../src/build/exporters.ts';
import { namesOf } from '../../src/math/record.ts';
import { command, DEMO } from './command.ts';

const folder = mkdtempSync(join(tmpdir(), 'legroom-build-'));
afterAll(() => rmSync(folder, { recursive: true }));

const rowsOf = (out: string) =>
  out
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));

describe('build', () => {
  it('--list names every format once, with what it is for', async () => {
    const { code, out } = await command(['build', '--list']);
    expect(code).toBe(0);
    expect(rowsOf(out).map(({ what }) => what)).toEqual(namesOf(EXPORTERS));
    for (const row of rowsOf(out)) expect(Object.keys(row)).toEqual(['what', 'words', 'purpose', 'ending', 'says']);
  });

  it('makes the folder, writes what is asked and says so line by line', async () => {
    const out = join(folder, 'new', 'deeper');
    const argv = ['build', DEMO('steady'), '--what', 'dxf,csv', '--side', 'base', '--out', out, '--date', '2026-01-31'];
    const printed = await command(argv);
    expect(printed.lines).toEqual([]);
    expect(printed.code).toBe(0);
    const rows = rowsOf(printed.out);
    expect(rows[0]).toEqual({
      what: 'dxf',
      side: 'base',
      file: join(out, 'Wave-table-steady-base.dxf'),
      bytes: readFileSync(join(out, 'Wave-table-steady-base.dxf')).length,
      warnings: [],
    });
    expect(rows.map(({ file }) => file.slice(out.length + 1)).sort()).toEqual(readdirSync(out).sort());
  });

  it('overwrites only with --force, and then gives the same bytes', async () => {
    const argv = ['build', DEMO('steady'), '--what', 'pdf', '--out', join(folder, 'twice'), '--date', '2026-01-31'];
    expect((await command(argv)).code).toBe(0);
    const file = join(folder, 'twice', 'Wave-table-steady-base.pdf');
    const before = readFileSync(file);
    const refused = await command(argv);
    expect(refused.code).toBe(2);
    expect(refused.lines.join()).toContain('there already');
    expect((await command([...argv, '--force'])).code).toBe(0);
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it('writes the files also when a warning stands, names it and returns 1', async () => {
    const out = join(folder, 'warned');
    const printed = await command(['build', DEMO('even'), '--what', 'svg', '--out', out]);
    expect(printed.code).toBe(1);
    expect(printed.lines.join(' ')).toContain('singular at every pose');
    expect(readdirSync(out)).toHaveLength(2);
    expect(readFileSync(join(out, 'Wave-table-evenly-spaced-base.svg'), 'utf8')).toContain('singular at every pose');
  });

  it.each([
    [['--what', 'dwg'], '--what'],
    [['--side', 'top'], '--side'],
    [['--date', '2026-02-30'], '--date'],
    [['--hole', '0'], '--hole'],
    [['--bolts', '3'], '--bolts'],
    [['--at', '1,2,3'], '--at'],
  ])('refuses %j and names it', async (wrong, option) => {
    const printed = await command(['build', DEMO('steady'), ...wrong, '--out', folder]);
    expect(printed.code).toBe(2);
    expect(printed.lines.join()).toContain(option);
    expect(printed.out).toBe('');
  });

  it('a place that cannot be written to leaves nothing behind', async () => {
    // a file where the folder should be: refused for every user, also for one that may write anywhere
    const printed = await command(['build', DEMO('steady'), '--what', 'svg', '--out', DEMO('steady')]);
    expect(printed.code).toBe(2);
    expect(printed.out).toBe('');
    if (process.getuid?.() === 0) return;
    const closed = mkdtempSync(join(folder, 'closed-'));
    chmodSync(closed, 0o500);
    const refused = await command(['build', DEMO('steady'), '--what', 'svg', '--out', closed]);
    expect(refused.code).toBe(2);
    expect(readdirSync(closed)).toEqual([]);
  });

  it('poses of --at are set beside home', async () => {
    const out = join(folder, 'poses');
    await command(['build', DEMO('steady'), '--what', 'csv', '--out', out, '--at', '10,0,150,0,5,0']);
    const lines = readFileSync(join(out, 'Wave-table-steady-settings.csv'), 'utf8').split('\r\n');
    expect(lines[2]).toMatch(/^pose 1,10,0,150,0,5,0,156\.7146/);
  });
});
