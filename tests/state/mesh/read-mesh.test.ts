import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { meshSizeFault } from '../../../src/state/mesh/mesh-faults.ts';
import { type ReadMesh, readMesh } from '../../../src/state/mesh/read-mesh.ts';
import { binaryStl, boxGltf, boxTriangles, glb, textGltf, textStl } from './mesh-files.ts';

const SEED = 20260915;

async function read(name: string, bytes: Uint8Array): Promise<ReadMesh> {
  const result = await readMesh(name, bytes);
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
}

async function refusal(name: string, bytes: Uint8Array): Promise<string> {
  const result = await readMesh(name, bytes);
  if (result.ok) throw new Error('it was read');
  return result.fault.message;
}

const BOX = boxTriangles([30, 20, 10]);

describe('a mesh file', () => {
  it.each([
    ['binary', binaryStl(BOX)],
    ['text', textStl(BOX)],
  ])('in STL, %s, gives its triangles and its hull', async (_, bytes) => {
    const mesh = await read('box.stl', bytes);
    expect(Array.from(mesh.triangles)).toEqual(BOX);
    expect(mesh).toMatchObject({ kind: 'stl', bound: { low: [0, 0, 0], high: [30, 20, 10], excess: 0 } });
    expect(mesh.bound.corners).toHaveLength(24);
  });

  it.each([
    ['GLB', glb(boxGltf([3, 2, 1]))],
    ['glTF text', textGltf(boxGltf([3, 2, 1]))],
  ])('in %s is placed as its nodes say, and fetches nothing', async (_, bytes) => {
    const mesh = await read('box.glb', bytes);
    expect(mesh.triangles).toHaveLength(12 * 9);
    // twice as large, and moved by 1 along x
    expect(mesh).toMatchObject({ kind: 'gltf', bound: { low: [1, 0, 0], high: [7, 4, 2] } });
  });

  it('whose STL text has a header like a binary one is read as what it is', async () => {
    const bytes = binaryStl(BOX);
    bytes.set(new TextEncoder().encode('solid made by a program'));
    expect((await read('box.stl', bytes)).triangles).toHaveLength(BOX.length);
  });
});

describe('an unusable mesh file is refused with file, value, limit and remedy', () => {
  const nan = [...BOX];
  nan[9 * 3 + 4] = Number.NaN;
  const external = boxGltf([1, 1, 1], { buffers: [{ byteLength: 168, uri: 'box.bin' }] });
  it.each([
    ['empty.stl', new Uint8Array(), 'empty.stl is empty; it must be an STL, GLB or glTF file. Export it again.'],
    [
      'none.stl',
      binaryStl([]),
      'none.stl is without triangles; it must be a surface of at least one triangle. Export the body’s surface, not its lines or points.',
    ],
    [
      'none.stl',
      textStl([]),
      'none.stl is without triangles; it must be a surface of at least one triangle. Export the body’s surface, not its lines or points.',
    ],
    [
      'nan.stl',
      binaryStl(nan),
      'nan.stl is at fault at triangle 4, corner 2, where a coordinate is "NaN"; it must be made of finite numbers only. Repair the mesh in the program that made it and export it again.',
    ],
    [
      'nan.stl',
      textStl(BOX.map((value, n) => (n === 5 ? 'nan' : value))),
      'nan.stl is at fault at triangle 1, corner 2, where a coordinate is "nan"; it must be made of finite numbers only. Repair the mesh in the program that made it and export it again.',
    ],
    [
      'cut.stl',
      binaryStl(BOX).subarray(0, 500),
      'cut.stl is 500 bytes long; it must be 684 bytes for the 12 triangles that it announces. Export it again; it may be cut short, or not an STL file.',
    ],
    [
      'picture.png',
      Uint8Array.from({ length: 300 }, (_, n) => (n * 37) % 256),
      'picture.png is of another kind; it must be an STL, GLB or glTF file. Export the payload as STL or GLB.',
    ],
    [
      'design.json',
      new TextEncoder().encode('{"format":"legroom-design"}'),
      'design.json is not as glTF 2.0 asks at asset; it must be an STL, GLB or glTF file. Export the payload as STL or GLB.',
    ],
    [
      'box.gltf',
      new TextEncoder().encode(JSON.stringify(external.json)),
      'box.gltf is in need of another file, box.bin; it must be complete in itself. Export it as GLB, which holds everything in one file.',
    ],
    [
      'small.glb',
      glb(boxGltf([1, 1, 1], { extensionsRequired: ['KHR_draco_mesh_compression'] })),
      'small.glb is in need of KHR_draco_mesh_compression; it must be plain glTF 2.0. Export it without compression and without extensions.',
    ],
    [
      'old.glb',
      glb(boxGltf([1, 1, 1], { asset: { version: '1.0' } })),
      'old.glb is glTF 1.0; it must be glTF 2.0. Export it as glTF 2.0.',
    ],
    [
      'lines.glb',
      glb(boxGltf([1, 1, 1], { meshes: [{ primitives: [{ attributes: { POSITION: 0 }, mode: 1 }] }] })),
      'lines.glb is without triangles; it must be a surface of at least one triangle. Export the body’s surface, not its lines or points.',
    ],
    [
      'empty.gltf',
      new TextEncoder().encode(JSON.stringify({ asset: { version: '2.0' } })),
      'empty.gltf is without triangles; it must be a surface of at least one triangle. Export the body’s surface, not its lines or points.',
    ],
    [
      'circle.glb',
      glb(boxGltf([1, 1, 1], { nodes: [{ children: [1] }, { children: [0], mesh: 0 }] })),
      'circle.glb is broken inside (its nodes form a circle); it must be a glTF 2.0 file with all its parts. Export it again.',
    ],
  ])('%s', async (name, bytes, message) => {
    expect(await refusal(name, bytes)).toBe(message);
  });

  it('when it is too large, before it is read', () => {
    expect(meshSizeFault('huge.stl', 500 * 2 ** 20)?.message).toBe(
      'huge.stl is 500.0 MiB; it must be at most 64.0 MiB. Export it with fewer triangles, or give a box or cylinder instead.',
    );
    expect(meshSizeFault('fine.stl', 64 * 2 ** 20)).toBeNull();
  });

  it('when it announces more triangles than are drawn', async () => {
    const bytes = glb(
      boxGltf([1, 1, 1], {
        accessors: [
          { componentType: 5126, count: 400_000_000, type: 'VEC3' },
          { componentType: 5125, count: 3, type: 'SCALAR' },
        ],
      }),
    );
    expect(await refusal('swollen.glb', bytes)).toMatch(
      /^swollen\.glb is a mesh of \d+ triangles; it must be at most 500000\./,
    );
  });
});

describe('whatever is read as a mesh', { timeout: 60_000 }, () => {
  /** What must hold for any input at all. */
  async function holds(bytes: Uint8Array): Promise<void> {
    const result = await readMesh('some.stl', bytes);
    if (result.ok) {
      expect(result.value.triangles.length).toBeGreaterThan(0);
      expect(result.value.triangles.every(Number.isFinite)).toBe(true);
    } else expect(result.fault.message).toMatch(/^some\.stl is .+; it must be .+\. .+\.$/s);
  }

  it('random bytes are refused without a throw', async () => {
    await fc.assert(fc.asyncProperty(fc.uint8Array({ maxLength: 400 }), holds), { seed: SEED, numRuns: 500 });
  });

  it('files with bytes changed or cut off are refused or read', async () => {
    const files = [binaryStl(BOX), textStl(BOX), glb(boxGltf([3, 2, 1])), textGltf(boxGltf([3, 2, 1]))];
    const change = fc.record({
      file: fc.constantFrom(...files),
      at: fc.array(fc.nat(), { maxLength: 4 }),
      put: fc.uint8Array({ minLength: 4, maxLength: 4 }),
      cut: fc.option(fc.nat(), { freq: 4 }),
    });
    await fc.assert(
      fc.asyncProperty(change, async ({ file, at, put, cut }) => {
        const bytes = file.slice(0, cut === null ? file.length : cut % file.length);
        for (const [n, place] of at.entries()) if (bytes.length > 0) bytes[place % bytes.length] = put[n];
        await holds(bytes);
      }),
      { seed: SEED, numRuns: 1500 },
    );
  });
});
