import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { EXPORTERS } from '../../src/build/exporters.ts';
import { type BuildParts, SIDES } from '../../src/build/parts.ts';
import { tableCsv } from '../../src/build/tables/csv.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { angleBetween, type Vec3 } from '../../src/math/vec3.ts';
import { designLike, partsFrom, steady } from './build-cases.ts';
import { randomDesign } from './random-design.ts';

/** Rows of CSV as Python's csv module reads them, strict. */
function readByPython(csv: string): readonly (readonly string[])[] {
  const program =
    'import csv,io,json,sys; t=sys.stdin.buffer.read().decode("utf-8"); print(json.dumps(list(csv.reader(io.StringIO(t,newline=""),strict=True))))';
  return JSON.parse(execFileSync('python3', ['-c', program], { input: csv, encoding: 'utf8' }));
}

async function tables(parts: BuildParts): Promise<ReadonlyMap<string, string>> {
  const files = await EXPORTERS.csv.write(parts, SIDES, neverStop);
  if (!files.ok) throw new Error(files.fault.message);
  const decoder = new TextDecoder();
  return new Map(
    files.value.map(({ name, bytes }) => [name.replace(/^.*?-(?=[a-z]+(-holes)?\.csv)/, ''), decoder.decode(bytes)]),
  );
}

/** Rows of a table as records of text. */
async function records(parts: BuildParts, id: string): Promise<readonly Readonly<Record<string, string>>[]> {
  const all = await tables(parts);
  const csv = [...all].find(([name]) => name.endsWith(`${id}.csv`))?.[1] ?? '';
  const [head, ...rows] = readByPython(csv);
  return rows.map((row) => Object.fromEntries(row.map((cell, n) => [head[n], cell])));
}

const DEG = Math.PI / 180;

describe('tables, read by Python', () => {
  it('every table has rows as wide as its header and ends its lines with CR LF', async () => {
    for (const [, csv] of await tables(partsFrom(steady()))) {
      const rows = readByPython(csv);
      for (const row of rows) expect(row).toHaveLength(rows[0].length);
      expect(csv.split('\r\n')).toHaveLength(rows.length + 1);
    }
  });

  it('quotes, commas, line ends and formulas come back as text, and no cell begins a formula', () => {
    const texts = ['=1+1', '+a', '-b', '@c', '\t=d', ' =e', 'x,"y"', 'two\r\nlines', 'æøå 波'];
    const csv = tableCsv({ id: 'x', title: 'x', columns: ['a'], rows: texts.map((text) => [text]) });
    const read = readByPython(csv).slice(1);
    for (const [n, [cell]] of read.entries()) {
      expect(cell.replace(/^'/, '')).toBe(texts[n]);
      expect(cell).not.toMatch(/^\s*[=+\-@]/);
    }
  });

  it('numbers are plain decimals, also very small and negative ones', () => {
    const csv = tableCsv({ id: 'x', title: 'x', columns: ['a'], rows: [[-1e-9], [1e-7], [-12.5], [123456789.123]] });
    expect(readByPython(csv).flat()).toEqual(['a', '0', '0', '-12.5', '123456789.123']);
  });

  it('the steady demo: legs of 163.326 mm at home and brackets of 23.305 deg (closed form of symmetric rings)', async () => {
    const parts = partsFrom(steady());
    // L^2 = R^2 + r^2 - 2 R r cos 40 deg + h^2; the aimed mount leans acos(h / L)
    const length = Math.sqrt(100 ** 2 + 70 ** 2 - 2 * 100 * 70 * Math.cos(40 * DEG) + 150 ** 2);
    for (const row of await records(parts, 'legs')) expect(Number(row['home_mm'])).toBeCloseTo(length, 5);
    for (const row of await records(parts, 'brackets')) {
      expect(Number(row['lean_deg'])).toBeCloseTo(Math.acos(150 / length) / DEG, 5);
      expect(row['in_words']).toMatch(/^leaning 23\.3 deg (in|out)ward, [\d.]+ deg to the (left|right)/);
    }
  });

  for (let seed = 1; seed <= 20; seed++)
    it(`joints, bracket angles and leg lengths of a random design to 1 um and 0.001 deg (seed ${seed})`, async () => {
      const design = randomDesign(seed);
      const parts = partsFrom(design);
      const joints = await records(parts, 'joints');
      const place = (plate: string, leg: number): Vec3 => {
        const row = joints.find((found) => found['plate'] === plate && found['leg'] === String(leg));
        return [Number(row?.['base_x_mm']), Number(row?.['base_y_mm']), Number(row?.['base_z_mm'])];
      };
      const legs = await records(parts, 'legs');
      for (let leg = 1; leg <= 6; leg++) {
        const [a, b] = [place('base', leg), place('platform', leg)];
        const apart = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
        expect(Math.abs(apart - Number(legs[leg - 1]['home_mm']))).toBeLessThan(1e-3);
      }
      for (const row of await records(parts, 'brackets')) {
        const { mechanism } = parts;
        const base = row['plate'] === 'base';
        const [lean, toward] = [Number(row['lean_deg']) * DEG, Number(row['toward_deg']) * DEG];
        const up = (base ? 1 : -1) * Math.cos(lean);
        const told: Vec3 = [Math.sin(lean) * Math.cos(toward), Math.sin(lean) * Math.sin(toward), up];
        const axes = base ? mechanism.baseAxes_B : mechanism.platformAxes_P;
        const i = 3 * (Number(row['leg']) - 1);
        expect(angleBetween(told, [axes[i], axes[i + 1], axes[i + 2]])).toBeLessThan(0.001 * DEG);
      }
    });

  it('a name that is a formula does no harm', async () => {
    const parts = partsFrom(designLike(steady(), { name: '=HYPERLINK("x")' }));
    for (const [, csv] of await tables(parts))
      for (const row of readByPython(csv)) for (const cell of row) expect(cell).not.toMatch(/^[=@]/);
  });
});
