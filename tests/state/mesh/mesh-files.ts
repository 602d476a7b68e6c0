import type { Vec3 } from '../../../src/math/vec3.ts';

/** Corners of a box from (0, 0, 0) to its size, and its twelve triangles, outward. */
const CORNERS = Array.from({ length: 8 }, (_, n): Vec3 => [n & 1, (n >> 1) & 1, n >> 2]);
// biome-ignore format: faces in rows
const FACES = [
  [0, 2, 1], [1, 2, 3], [4, 5, 6], [5, 7, 6], [0, 1, 4], [1, 5, 4],
  [2, 6, 3], [3, 6, 7], [0, 4, 2], [2, 4, 6], [1, 3, 5], [3, 7, 5],
];

/** Corners of a box's triangles, nine numbers each. */
export const boxTriangles = ([x, y, z]: Vec3): readonly number[] =>
  FACES.flatMap((face) => face.flatMap((n) => [CORNERS[n][0] * x, CORNERS[n][1] * y, CORNERS[n][2] * z]));

/** As many decimals as programs write. */
const short = (value: number): number => Number(value.toFixed(4));

/** A closed body with knobs of `rings` by twice as many patches: 4 rings (rings - 1) triangles. */
export function knobbly(rings: number): readonly number[] {
  const around = 2 * rings;
  const corner = (i: number, j: number): Vec3 => {
    const [a, b] = [(Math.PI * i) / rings, (2 * Math.PI * (j % around)) / around];
    const r = 50 * (1 + 0.2 * Math.sin(9 * a) * Math.sin(7 * b));
    const flat = i === 0 || i === rings ? 0 : r * Math.sin(a);
    return [short(flat * Math.cos(b)), short(flat * Math.sin(b)), short(r * Math.cos(a))];
  };
  const triangles: number[] = [];
  for (let i = 0; i < rings; i++)
    for (let j = 0; j < around; j++) {
      if (i > 0) triangles.push(...corner(i, j), ...corner(i + 1, j), ...corner(i, j + 1));
      if (i < rings - 1) triangles.push(...corner(i, j + 1), ...corner(i + 1, j), ...corner(i + 1, j + 1));
    }
  return triangles;
}

/** A binary STL, written by the format's description: 80 bytes, a count, and 50 bytes a triangle. */
export function binaryStl(triangles: readonly number[], count = triangles.length / 9): Uint8Array {
  const bytes = new Uint8Array(84 + (50 * triangles.length) / 9);
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (let t = 0; t < triangles.length / 9; t++) {
    for (let k = 0; k < 9; k++) view.setFloat32(84 + 50 * t + 12 + 4 * k, triangles[9 * t + k], true);
  }
  return bytes;
}

/** The same as STL text. */
export function textStl(triangles: readonly (number | string)[]): Uint8Array {
  const lines = ['solid test'];
  for (let t = 0; t < triangles.length; t += 9) {
    lines.push('facet normal 0 0 0', 'outer loop');
    for (let k = 0; k < 9; k += 3) lines.push(`vertex ${triangles.slice(t + k, t + k + 3).join(' ')}`);
    lines.push('endloop', 'endfacet');
  }
  return new TextEncoder().encode(`${lines.join('\n')}\nendsolid test\n`);
}

interface GltfParts {
  readonly json: object;
  readonly binary: Uint8Array;
}

/** A glTF of an indexed box under a node that is moved and scaled, as the specification lays it out. */
export function boxGltf(size: Vec3, more: object = {}): GltfParts {
  const positions = Float32Array.from(CORNERS.flatMap(([x, y, z]) => [x * size[0], y * size[1], z * size[2]]));
  const indices = Uint16Array.from(FACES.flat());
  const binary = new Uint8Array(positions.byteLength + indices.byteLength);
  binary.set(new Uint8Array(positions.buffer));
  binary.set(new Uint8Array(indices.buffer), positions.byteLength);
  const json = {
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: [0] }],
    nodes: [
      { children: [1], translation: [1, 0, 0] },
      { mesh: 0, scale: [2, 2, 2] },
    ],
    meshes: [{ primitives: [{ attributes: { POSITION: 0 }, indices: 1, material: 0 }] }],
    materials: [{ pbrMetallicRoughness: { baseColorTexture: { index: 0 } } }],
    textures: [{ source: 0 }],
    images: [{ uri: 'https://example.invalid/picture.png' }],
    accessors: [
      { bufferView: 0, componentType: 5126, count: 8, type: 'VEC3', min: [0, 0, 0], max: [...size] },
      { bufferView: 1, componentType: 5123, count: 36, type: 'SCALAR' },
    ],
    bufferViews: [
      { buffer: 0, byteOffset: 0, byteLength: positions.byteLength },
      { buffer: 0, byteOffset: positions.byteLength, byteLength: indices.byteLength },
    ],
    buffers: [{ byteLength: binary.length }],
    ...more,
  };
  return { json, binary };
}

/** A binary glTF of both parts. */
export function glb({ json, binary }: GltfParts): Uint8Array {
  const text = new TextEncoder().encode(JSON.stringify(json).padEnd(4 * Math.ceil(JSON.stringify(json).length / 4)));
  const body = new Uint8Array(4 * Math.ceil(binary.length / 4));
  body.set(binary);
  const bytes = new Uint8Array(28 + text.length + body.length);
  const view = new DataView(bytes.buffer);
  [0x46546c67, 2, bytes.length, text.length, 0x4e4f534a].forEach((word, n) => view.setUint32(4 * n, word, true));
  bytes.set(text, 20);
  view.setUint32(20 + text.length, body.length, true);
  view.setUint32(24 + text.length, 0x004e4942, true);
  bytes.set(body, 28 + text.length);
  return bytes;
}

/** The same as text with its buffer in a data address. */
export function textGltf({ json, binary }: GltfParts): Uint8Array {
  const uri = `data:application/octet-stream;base64,${Buffer.from(binary).toString('base64')}`;
  return new TextEncoder().encode(JSON.stringify({ ...json, buffers: [{ byteLength: binary.length, uri }] }));
}
