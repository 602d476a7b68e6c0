import fc from 'fast-check';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { describe, expect, it, vi } from 'vitest';
import { seededRandom } from '../../../src/math/random.ts';
import { meshSizeFault } from '../../../src/state/mesh/mesh-faults.ts';
import { type ReadMesh, readMesh } from '../../../src/state/mesh/read-mesh.ts';
import { binaryStl, boxGltf, boxTriangles, glb, knobbly, textGltf, textStl } from './mesh-files.ts';

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

describe('a glTF file', () => {
  /** One part of the binary, four-byte aligned, as its view. */
  const packed = (...parts: readonly (ArrayBufferView & { readonly buffer: ArrayBufferLike })[]) => {
    const views: { buffer: 0; byteOffset: number; byteLength: number }[] = [];
    const bytes: number[] = [];
    for (const part of parts) {
      views.push({ buffer: 0, byteOffset: bytes.length, byteLength: part.byteLength });
      bytes.push(...new Uint8Array(part.buffer, part.byteOffset, part.byteLength));
      while (bytes.length % 4 > 0) bytes.push(0);
    }
    return { views, binary: Uint8Array.from(bytes) };
  };
  const scene = (nodes: readonly object[]) => ({
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: nodes.map((_, n) => n) }],
    nodes,
    meshes: [{ primitives: [{ attributes: { POSITION: 0 } }] }],
  });
  // a tetrahedron without indices
  const tetra = [
    0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0, 1, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1,
  ];

  it('with quantized positions has them in 0 to 1 (glTF 2.0, 3.6.2.2: f = c / 65535, and max(c / 32767, -1))', async () => {
    for (const [type, componentType, largest] of [
      [Uint16Array, 5123, 65_535],
      [Int16Array, 5122, 32_767],
      [Uint8Array, 5121, 255],
      [Int8Array, 5120, 127],
    ] as const) {
      // rows of positions are padded to four bytes, as the format asks
      const row = 4;
      const values = new type(row * 12);
      for (let n = 0; n < 12; n++)
        for (let axis = 0; axis < 3; axis++) values[row * n + axis] = tetra[3 * n + axis] * largest;
      const { views, binary } = packed(values);
      const json = {
        ...scene([{ mesh: 0, scale: [10, 10, 10], translation: [1, 0, 0] }]),
        extensionsUsed: ['KHR_mesh_quantization'],
        extensionsRequired: ['KHR_mesh_quantization'],
        accessors: [{ bufferView: 0, componentType, normalized: true, count: 12, type: 'VEC3' }],
        bufferViews: [{ ...views[0], byteStride: row * values.BYTES_PER_ELEMENT }],
        buffers: [{ byteLength: binary.length }],
      };
      const { bound, triangles } = await read('quantized.glb', glb({ json, binary }));
      expect(triangles).toHaveLength(36);
      expect(bound).toMatchObject({ low: [1, 0, 0], high: [11, 10, 10] });
    }
  });

  it('shows a mesh without indices under each of its nodes as that node says', async () => {
    const { views, binary } = packed(Float32Array.from(tetra));
    const json = {
      ...scene([
        { mesh: 0, translation: [10, 0, 0] },
        { mesh: 0, translation: [0, 20, 0], scale: [2, 2, 2] },
      ]),
      accessors: [{ bufferView: 0, componentType: 5126, count: 12, type: 'VEC3' }],
      bufferViews: views,
      buffers: [{ byteLength: binary.length }],
    };
    const { triangles } = await read('two.glb', glb({ json, binary }));
    const expected = [
      ...tetra.map((value, n) => value + (n % 3 === 0 ? 10 : 0)),
      ...tetra.map((value, n) => 2 * value + (n % 3 === 1 ? 20 : 0)),
    ];
    expect(Array.from(triangles)).toEqual(expected);
  });

  it('with positions and normals in turn takes the positions only', async () => {
    const rows = Float32Array.from(
      Array.from({ length: 12 }, (_, n) => [...tetra.slice(3 * n, 3 * n + 3), 7, 8, 9]).flat(),
    );
    const { views, binary } = packed(rows);
    const json = {
      ...scene([{ mesh: 0 }]),
      meshes: [{ primitives: [{ attributes: { POSITION: 0, NORMAL: 1 } }] }],
      accessors: [
        { bufferView: 0, byteOffset: 0, componentType: 5126, count: 12, type: 'VEC3' },
        { bufferView: 0, byteOffset: 12, componentType: 5126, count: 12, type: 'VEC3' },
      ],
      bufferViews: [{ ...views[0], byteStride: 24 }],
      buffers: [{ byteLength: binary.length }],
    };
    expect(Array.from((await read('rows.glb', glb({ json, binary }))).triangles)).toEqual(tetra);
  });

  it('counts a mesh as often as its scene shows it, before it is built', async () => {
    const built = vi.spyOn(GLTFLoader.prototype, 'parseAsync');
    const nodes = Array.from({ length: 50_000 }, () => ({ mesh: 0 }));
    const parts = boxGltf([1, 1, 1], { nodes, scenes: [{ nodes: nodes.map((_, n) => n) }] });
    expect(await refusal('many.glb', glb(parts))).toBe(
      'many.glb is a mesh of 600000 triangles; it must be at most 500000. Export it coarser, or give a box or cylinder instead.',
    );
    const empty = Array.from({ length: 100_001 }, () => ({}));
    const parted = boxGltf([1, 1, 1], { nodes: empty, scenes: [{ nodes: empty.map((_, n) => n) }] });
    expect(await refusal('parts.glb', glb(parted))).toContain('a scene of 100001 parts; it must be at most 100000');
    const twice = boxGltf([1, 1, 1], { nodes: [{ mesh: 0 }], scenes: [{ nodes: [0, 0] }] });
    expect(await refusal('twice.glb', glb(twice))).toContain('its scene shows a node twice');
    expect(built).not.toHaveBeenCalled();
    built.mockRestore();
  });
});

describe('an STL text', () => {
  it('is read in time that grows with its length only', async () => {
    // a box, and 480 kB of facets that never end
    const box = new TextDecoder().decode(textStl(BOX)).replace('endsolid test', 'facet '.repeat(80_000));
    const start = process.cpuUsage();
    expect(await refusal('facets.stl', new TextEncoder().encode(box))).toContain('13 facets with 36 corners');
    const { user } = process.cpuUsage(start);
    expect(user / 1e6).toBeLessThan(1);
  });

  it('of 300,000 triangles is read and bounded within 3 s of computing, telling how far it is', {
    timeout: 60_000,
  }, async () => {
    const bytes = textStl(knobbly(274));
    const shares: number[] = [];
    const start = process.cpuUsage();
    const result = await readMesh('large.stl', bytes, (share) => shares.push(share));
    const { user } = process.cpuUsage(start);
    if (!result.ok) throw new Error(result.fault.message);
    expect(result.value.triangles.length / 9).toBeGreaterThan(299_000);
    expect(result.value.solid).not.toBeNull();
    expect(user / 1e6).toBeLessThan(3);
    expect(shares.length).toBeGreaterThan(50);
    expect(shares.every((share, n) => n === 0 || share >= shares[n - 1])).toBe(true);
    expect(shares.at(-1)).toBeLessThanOrEqual(1);
  });

  it('gives the numbers that JavaScript itself reads (seed 78)', async () => {
    const random = seededRandom(78);
    const texts = Array.from({ length: 9 * 400 }, (_, n) => {
      const value = (random() - 0.5) * 10 ** (40 * random() - 20);
      return [String(value), value.toExponential(3), `+${Math.abs(value).toFixed(3)}`, value.toFixed(18), '-.5E+2'][
        n % 5
      ];
    });
    const mesh = await read('numbers.stl', textStl(texts));
    expect(Array.from(mesh.triangles)).toEqual(texts.map((text) => Math.fround(Number(text))));
  });

  it('stands words of the format in its name and numbers that are none in its normals', async () => {
    const text = new TextDecoder().decode(textStl(BOX));
    const named = text
      .replace('solid test', 'solid a vertex of a facet, endfacet')
      .replace('endsolid test', 'endsolid a vertex of a facet')
      .replaceAll('normal 0 0 0', 'normal nan -inf 0x12');
    expect(Array.from((await read('named.stl', new TextEncoder().encode(named))).triangles)).toEqual(BOX);
  });

  it.each([
    [
      'a facet with four corners and one with two',
      (text: string) =>
        text.replace(
          /endloop\nendfacet\nfacet normal 0 0 0\nouter loop\n(vertex .+)\n/,
          '$1\nendloop\nendfacet\nfacet normal 0 0 0\nouter loop\n',
        ),
      'with 4 corners',
    ],
    ['a word of no STL', (text: string) => text.replace('endloop', 'endlop'), 'unknown words'],
    ['a number with letters behind it', (text: string) => text.replace('vertex 0 0 0', 'vertex 0 0x 0'), '"0x"'],
    [
      'an end in the middle of a corner',
      (text: string) => text.slice(0, text.lastIndexOf('vertex') + 10),
      'where a coordinate is',
    ],
  ])('with %s is refused', async (_, change, message) => {
    const text = new TextDecoder().decode(textStl(BOX));
    expect(await refusal('bad.stl', new TextEncoder().encode(change(text)))).toContain(message);
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
