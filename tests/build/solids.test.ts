import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '../../src/build/exporter.ts';
import { EXPORTERS, type ExporterId } from '../../src/build/exporters.ts';
import { type BuildParts, SIDES } from '../../src/build/parts.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { CASES, designLike, partsFrom, steady } from './build-cases.ts';
import { stlFacts } from './readers/closed-mesh.ts';
import { stepFacts } from './readers/step-reader.ts';

async function written(id: ExporterId, parts: BuildParts): Promise<ReadonlyMap<string, BuildFile>> {
  const result = await EXPORTERS[id].write(parts, SIDES, neverStop);
  if (!result.ok) throw new Error(result.fault.message);
  return new Map(result.value.map((file) => [file.name.replace(/^.*?(base|platform)/, '$1'), file]));
}

const bytesOf = (files: ReadonlyMap<string, BuildFile>, name: string): Uint8Array => {
  const file = files.get(name);
  if (!file) throw new Error(`No ${name} among ${[...files.keys()].join(', ')}`);
  return file.bytes;
};

const DEG = Math.PI / 180;

/** Volume of the steady demo's bracket: block under a sloping flat, less the ball's part of a sphere, less the bolts (closed forms). */
function bracketVolume(side: number, bolts: number): number {
  const length = Math.sqrt(100 ** 2 + 70 ** 2 - 2 * 100 * 70 * Math.cos(40 * DEG) + 150 ** 2);
  const lean = Math.acos(150 / length);
  const [h, r, d] = [12, 5, 5 * Math.cos(60 * DEG)];
  const sphere = Math.PI * ((2 * r ** 3) / 3 + r * r * d - d ** 3 / 3);
  return side * side * (h + d / Math.cos(lean)) - sphere - bolts;
}

describe('STEP, read by a CAD kernel', () => {
  // the kernel gives meshes: their volume is off by what chords leave away, below 0.2 % at these deflections
  const COARSE = 2e-3;

  it('the bracket with a cup and a blind bolt: one closed solid of 9 faces, its volume the closed form', async () => {
    const files = await written('step', partsFrom(steady()));
    const read = await stepFacts(bytesOf(files, 'base-bracket-1.step'), 0.01);
    // six of the block, the cup, the bolt's wall and end
    expect(read).toMatchObject({ solids: 1, faces: 9 });
    const exact = bracketVolume(16, Math.PI * 1.65 ** 2 * (12 - 5 - 1.5));
    expect(Math.abs(read.volume / exact - 1)).toBeLessThan(COARSE);
  });

  it('the bracket with four bolts through its sloping flat, on ellipses', async () => {
    const parts = partsFrom(steady(), { bolts: '4', block: 26, boltSpacing: 18 });
    // a wider block needs a higher joint
    const raised = partsFrom(designLike(steady(), { base: raisedRing(), platform: raisedRing() }), parts.choices);
    const files = await written('step', raised);
    const read = await stepFacts(bytesOf(files, 'base-bracket-1.step'), 0.01);
    expect(read).toMatchObject({ solids: 1, faces: 6 + 1 + 4 });
  });

  it('the plate: two faces, a rim and a hole for every joint and mark, its volume the closed form', async () => {
    const parts = partsFrom(steady(), { holes: 'used' });
    const files = await written('step', parts);
    const read = await stepFacts(bytesOf(files, 'base.step'), 0.05);
    expect(read).toMatchObject({ solids: 1, faces: 3 + 7 });
    const exact = Math.PI * (122 ** 2 - 7 * 1.65 ** 2) * 10;
    expect(Math.abs(read.volume / exact - 1)).toBeLessThan(COARSE);
  });

  it("a stud bore in a rod end's bracket", async () => {
    const files = await written('step', partsFrom(CASES['rod ends'](), { bolts: 'none' }));
    const read = await stepFacts(bytesOf(files, 'platform-bracket-1.step'), 0.01);
    expect(read).toMatchObject({ solids: 1, faces: 8 });
  });
});

function raisedRing() {
  const { base } = steady();
  if (!('ring' in base)) throw new Error('The steady demo has rings.');
  return { ring: { ...base.ring, jointHeight_mm: 20 } };
}

describe('STL', () => {
  it('plates, brackets and jigs are closed, their genus is the number of holes, their volume the closed form', async () => {
    const files = await written('stl', partsFrom(steady()));
    const plate = stlFacts(bytesOf(files, 'base.stl'));
    expect(plate).toMatchObject({ closed: true, genus: 73 });
    expect(Math.abs(plate.volume / (Math.PI * (122 ** 2 - 73 * 1.65 ** 2) * 10) - 1)).toBeLessThan(1e-4);
    const bracket = stlFacts(bytesOf(files, 'base-bracket-1.stl'));
    expect(bracket).toMatchObject({ closed: true, genus: 0 });
    const exact = bracketVolume(16, Math.PI * 1.65 ** 2 * (12 - 5 - 1.5));
    // chords of 0.01 mm on a ball of 5 mm take away some 0.5 % of it, which is 0.1 % of the block
    expect(Math.abs(bracket.volume / exact - 1)).toBeLessThan(2e-3);
    expect(stlFacts(bytesOf(files, 'platform-jig.stl'))).toMatchObject({ closed: true, genus: 8 });
  });

  it('an opening is one hole more', async () => {
    const plates = { base: { openingDiameter_mm: 80 } };
    const files = await written('stl', partsFrom(designLike(steady(), { plates }), { holes: 'used' }));
    expect(stlFacts(bytesOf(files, 'base.stl'))).toMatchObject({ closed: true, genus: 8 });
  });
});

describe('3MF', () => {
  it('is a package that Python unpacks, with as many triangles as the STL', async () => {
    const parts = partsFrom(steady());
    const [packages, meshes] = [await written('3mf', parts), await written('stl', parts)];
    const program = [
      'import io,sys,zipfile,xml.etree.ElementTree as x',
      'z=zipfile.ZipFile(io.BytesIO(sys.stdin.buffer.read()))',
      'assert z.testzip() is None and "[Content_Types].xml" in z.namelist() and "_rels/.rels" in z.namelist()',
      'm=x.fromstring(z.read("3D/3dmodel.model"))',
      'n="{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}"',
      'print(m.get("unit"), len(list(m.iter(n+"triangle"))))',
    ].join('\n');
    const told = execFileSync('python3', ['-c', program], { input: bytesOf(packages, 'base.3mf'), encoding: 'utf8' });
    expect(told.trim()).toBe(`millimeter ${stlFacts(bytesOf(meshes, 'base.stl')).triangles}`);
  });
});

describe('solids that cannot be made', () => {
  it('joint centres in the face leave no room for a bracket; the reason is a warning', async () => {
    const files = await written('stl', partsFrom(CASES['free points']()));
    const warnings = [...files.values()].flatMap((file) => file.warnings).join(' ');
    expect(warnings).toContain('not made, the joint stands');
    expect([...files.keys()].some((name) => name.includes('bracket'))).toBe(false);
  });

  it('holes that run into each other are no solid', async () => {
    const files = await written('step', partsFrom(steady(), { hole: 9 }));
    expect([...files.values()].flatMap((file) => file.warnings).join(' ')).toContain('holes run into each other');
    expect(files.has('base.step')).toBe(false);
  });

  it('a seat that does not let the ball tilt as far as the design asks says so', async () => {
    const files = await written('stl', partsFrom(steady(), { rim: 40 }));
    expect([...files.values()].flatMap((file) => file.warnings).join(' ')).toContain('let the ball tilt');
  });
});
