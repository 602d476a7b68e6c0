import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { command, DEMO } from './command.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'legroom-move-'));
});

/** Writes a file of the test's folder and gives its path. */
function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const HEAD = 't_s,x_mm,y_mm,z_mm,roll_deg,pitch_deg,yaw_deg';
const heave = (points: number, amplitude: number) =>
  Array.from({ length: points + 1 }, (_, n) => {
    const t = (2 * n) / points;
    return `${t},0,0,${150 + amplitude * Math.sin(Math.PI * t)},0,0,0`;
  });
const csv = (rows: readonly string[], head = HEAD) => `${[head, ...rows].join('\n')}\n`;

/** The steady demo on the reference layout's rings, with what a test states besides. */
function design(more: Readonly<Record<string, unknown>>): string {
  const steady = JSON.parse(readFileSync(DEMO('steady'), 'utf8'));
  const rings = {
    base: { ring: { radius_mm: 100, gap_deg: 20, turn_deg: 0, jointHeight_mm: 0 } },
    platform: { ring: { radius_mm: 70, gap_deg: 20, turn_deg: 0, jointHeight_mm: 0 } },
    home: { position_mm: [0, 0, 150], roll_deg: 0, pitch_deg: 0, yaw_deg: 0 },
    tool: { point_mm: [0, 0, 0] },
    payload: { mass_kg: 2, centre_mm: [0, 0, 0] },
  };
  const { task: _task, parts: _parts, ...rest } = steady;
  const legs = { ...rest.legs, min_mm: 120, max_mm: 200, ...((more['legs'] as object | undefined) ?? {}) };
  return file(
    `design-${JSON.stringify(more).length}-${Math.random()}.json`,
    JSON.stringify({ ...rest, ...rings, ...more, legs }),
  );
}

describe('move', () => {
  it('gives lengths, forces and the table of a heave as closed forms do', async () => {
    const table = join(folder, 'heave-out.csv');
    const printed = await command([
      'move',
      design({}),
      '--path',
      file('heave.csv', csv(heave(100, 20))),
      '--table',
      table,
    ]);
    const output = JSON.parse(printed.out);
    expect(printed.code, printed.err).toBe(0);
    expect(output.fits).toBe(true);
    expect(output.duration_s).toBeCloseTo(2, 12);
    // L^2 = rho^2 + h^2, rho = 64.617163 mm; the spline through 100 points a period is off by some 1e-5 mm
    expect(output.legs[3].length_mm.max).toBeCloseTo(181.866373, 4);
    expect(output.legs[3].length_mm.min).toBeCloseTo(145.173613, 4);
    expect(output.legs[3].length_mm.maxAt_s).toBeCloseTo(0.5, 3);
    const lines = readFileSync(table, 'utf8').trim().split('\r\n');
    expect(lines).toHaveLength(102);
    expect(lines[0].startsWith('t_s,l1_mm,l2_mm')).toBe(true);
    const row = lines[26].split(',').map(Number);
    const names = lines[0].split(',');
    const of = (name: string) => row[names.indexOf(name)];
    expect(of('t_s')).toBeCloseTo(0.5, 12);
    const h = 170;
    const a = -20 * Math.PI ** 2;
    const length = Math.hypot(64.617163, h);
    expect(of('l5_mm')).toBeCloseTo(length, 6);
    expect(of('v5_mm_s')).toBeCloseTo(0, 3);
    // the second derivative of a cubic spline is off by step^2 / 12 of the fourth: 3.3e-4 at 100 points a period
    expect(Math.abs(of('a5_mm_s2') / ((a * h) / length) - 1)).toBeLessThan(4e-4);
    expect(Math.abs(of('f5_N') / ((2 * (9.80665 + a / 1000) * length) / (6 * h)) - 1)).toBeLessThan(1e-5);
  });

  it('states every excursion, exits 1, and writes the table all the same', async () => {
    const table = join(folder, 'long-out.csv');
    const legs = { max_mm: 175, push_N: 3.5, speed_mm_s: 40 };
    const printed = await command([
      'move',
      design({ legs }),
      '--path',
      file('heave2.csv', csv(heave(100, 20))),
      '--table',
      table,
    ]);
    const output = JSON.parse(printed.out);
    expect(printed.code).toBe(1);
    expect(output.fits).toBe(false);
    const limits = new Set(output.violations.map(({ limit }: { limit: string }) => limit));
    expect([...limits].sort()).toEqual(['longestLeg', 'push', 'speed']);
    const long = output.violations.find(
      ({ limit, leg }: { limit: string; leg: number }) => limit === 'longestLeg' && leg === 2,
    );
    const from = Math.asin((Math.sqrt(175 ** 2 - 64.617163 ** 2) - 150) / 20) / Math.PI;
    expect(long.from_s).toBeCloseTo(from, 4);
    expect(long.to_s).toBeCloseTo(1 - from, 4);
    expect(long.worst).toBeCloseTo(181.866373, 4);
    expect(readFileSync(table, 'utf8').split('\r\n').length).toBeGreaterThan(100);
    expect(printed.lines.some((line) => line.startsWith('Leg 2 is too long from'))).toBe(true);
  });

  it('catches a yaw of 90 deg passed between two good rows', async () => {
    const path = file('yaw.csv', csv(['0,0,0,150,0,0,60', '1,0,0,150,0,0,120']));
    const legs = { min_mm: 20, max_mm: 400 };
    const printed = await command(['move', design({ legs }), '--path', path]);
    expect(JSON.parse(printed.out).singularCrossings_s).toEqual([expect.closeTo(0.5, 6)]);
    expect(printed.code).toBe(1);
  });

  it('shows the bulge of a move in leg space (60 mm along x: 2.75 mm, a trade figure computed beforehand)', async () => {
    const path = file('bulge.csv', csv(['0,-30,0,150,0,0,0', '1,30,0,150,0,0,0']));
    const printed = await command(['move', design({}), '--path', path]);
    expect(JSON.parse(printed.out).deviationLegSpace_mm).toBeCloseTo(2.75, 2);
  });

  it('finds the fastest law within leg speed and acceleration, and its ramps (closed form for a heave)', async () => {
    const legs = { min_mm: 100, speed_mm_s: 50, acceleration_mm_s2: 200 };
    const path = file('up.csv', csv(['0,0,0,150,0,0,0', '1,0,0,170,0,0,0']));
    const bare = await command(['move', design({ legs }), '--path', path, '--law', 'fastest', '--ramp', '0']);
    expect(bare.code, bare.err).toBe(0);
    // a trapezoid in leg length from h = 150 to 170
    const way = Math.hypot(64.617163, 170) - Math.hypot(64.617163, 150);
    const expected = way >= 50 ** 2 / 200 ? way / 50 + 50 / 200 : 2 * Math.sqrt(way / 200);
    const output = JSON.parse(bare.out);
    expect(Math.abs(output.fastest.bareDuration_s / expected - 1)).toBeLessThan(1e-3);
    expect(output.duration_s / output.fastest.bareDuration_s).toBeLessThan(1.003);
    const eased = JSON.parse((await command(['move', design({ legs }), '--path', path, '--law', 'fastest'])).out);
    expect(eased.duration_s).toBeGreaterThan(output.duration_s);
    expect(eased.fits).toBe(true);
    expect(eased.legs[0].speed_mm_s.max).toBeLessThanOrEqual(50);
  });

  it('says what is wrong with a path, line by line, and touches nothing', async () => {
    const cases: readonly (readonly [string, string])[] = [
      ['t_s,x_mm\n0,1\n', 'names of columns, with t_s, x_mm, y_mm, z_mm, roll_deg, pitch_deg, yaw_deg among them'],
      [csv(['0,0,0,150,0,0,0', '1,0,0']), 'Line 3 is a row of 3 fields; it must be 7 fields'],
      [csv(['0,0,0,150,0,0,0', '0,0,0,150,0,0,0']), 'Line 3, t_s is 0; it must be later than 0'],
      [csv(['0,0,0,150,0,0,0', '1,0,0,NaN,0,0,0']), 'Line 3, z_mm is "NaN"; it must be a number from'],
      [csv(['0,0,0,150,0,0,0', '1,0,0,1e999,0,0,0']), 'Line 3, z_mm is "1e999"'],
      [csv(['0,0,0,150,0,0,0', '1,0,0,150,0,0,=1+1']), 'Line 3, yaw_deg is "=1+1"'],
      [csv(['0,0,0,150,0,0,0', '1,0,0,150,0,0,270']), 'half a turn'],
      [csv(['0,0,0,150,0,0,0']), 'a path of 1 rows'],
      ['', 'a path of 0 rows'],
    ];
    for (const [text, message] of cases) {
      const out = join(folder, 'never.csv');
      const printed = await command(['move', design({}), '--path', file('bad.csv', text), '--table', out]);
      expect(printed.code).toBe(2);
      expect(printed.out).toBe('');
      expect(printed.err).toContain(message);
      expect(() => readFileSync(out)).toThrow();
    }
  });

  it('reads semicolons, decimal commas, a byte order mark and columns in another order', async () => {
    const german =
      '\ufeffz_mm;x_mm;y_mm;roll_deg;pitch_deg;yaw_deg;t_s\r\n150,5;0;0;0;0;0;10,0\r\n151,5;0;0;0;0;0;10,5\r\n';
    const printed = await command(['move', design({}), '--path', file('german.csv', german)]);
    const output = JSON.parse(printed.out);
    expect(output.duration_s).toBeCloseTo(0.5, 12);
    expect(output.legs[0].length_mm.min).toBeCloseTo(Math.hypot(64.617163, 150.5), 6);
  });

  it('asks for a path, and for limits where the fastest law is wanted', async () => {
    expect((await command(['move', design({})])).err).toContain('Write --path P.csv.');
    const path = file('short.csv', csv(['0,0,0,150,0,0,0', '1,0,0,151,0,0,0']));
    const printed = await command(['move', design({}), '--path', path, '--law', 'fastest']);
    expect(printed.code).toBe(2);
    expect(printed.err).toContain('legs.speed_mm_s');
  });

  it('says what is odd about masses without failing for it', async () => {
    const legs = { barrelMass_kg: 0.3, barrelCentre_mm: 900, rotorInertia_kg_mm2: 3, screwLead_mm: 0 };
    const path = file('odd.csv', csv(['0,0,0,150,0,0,0', '1,0,0,151,0,0,0']));
    const printed = await command(['move', design({ legs }), '--path', path]);
    expect(printed.code, printed.err).toBe(0);
    expect(printed.err).toContain('The mass centre of the barrel lies outside of it');
    expect(printed.err).toContain('counts nothing without legs.screwLead_mm');
  });
});
