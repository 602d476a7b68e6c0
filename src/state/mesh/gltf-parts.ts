import { z } from '../../document/zod.ts';

const index = z.int().nonnegative();
const number = z.number();

/**
 * What a glTF 2.0 file says of the shapes in it; materials, pictures, animations and names are left out. From the glTF 2.0
 * specification of the Khronos Group (ISO/IEC 12113), sections 3.5 to 3.7.
 */
export const gltfShapes = z.object({
  asset: z.object({ version: z.string() }),
  extensionsRequired: z.array(z.string()).optional(),
  scene: index.optional(),
  scenes: z.array(z.object({ nodes: z.array(index).optional() })).optional(),
  nodes: z
    .array(
      z.object({
        mesh: index.optional(),
        children: z.array(index).optional(),
        matrix: z.array(number).length(16).optional(),
        translation: z.array(number).length(3).optional(),
        rotation: z.array(number).length(4).optional(),
        scale: z.array(number).length(3).optional(),
      }),
    )
    .optional(),
  meshes: z
    .array(
      z.object({
        primitives: z.array(
          z.object({
            attributes: z.object({ POSITION: index.optional() }),
            indices: index.optional(),
            mode: z.int().optional(),
          }),
        ),
      }),
    )
    .optional(),
  accessors: z
    .array(
      z.object({
        bufferView: index.optional(),
        byteOffset: index.optional(),
        componentType: z.int(),
        count: z.int().positive(),
        type: z.string(),
        normalized: z.boolean().optional(),
        sparse: z
          .object({
            count: z.int().positive(),
            indices: z.object({ bufferView: index, byteOffset: index.optional(), componentType: z.int() }),
            values: z.object({ bufferView: index, byteOffset: index.optional() }),
          })
          .optional(),
      }),
    )
    .optional(),
  bufferViews: z
    .array(
      z.object({
        buffer: index,
        byteOffset: index.optional(),
        byteLength: index,
        byteStride: index.optional(),
      }),
    )
    .optional(),
  buffers: z.array(z.object({ byteLength: index, uri: z.string().optional() })).optional(),
});

export type GltfShapes = z.output<typeof gltfShapes>;

/** "glTF" as the first four bytes of a binary file, and its two kinds of chunks. */
const MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BINARY_CHUNK = 0x004e4942;

export const isGlb = (bytes: Uint8Array): boolean =>
  bytes.length >= 12 && new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true) === MAGIC;

/** The JSON and the first buffer of a binary file; null when its lengths do not fit. */
export function splitGlb(bytes: Uint8Array): { readonly json: string; readonly binary: Uint8Array | null } | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const total = view.getUint32(8, true);
  if (view.getUint32(4, true) !== 2 || total > bytes.length) return null;
  let json: string | null = null;
  let binary: Uint8Array | null = null;
  for (let at = 12; at + 8 <= total; ) {
    const size = view.getUint32(at, true);
    const kind = view.getUint32(at + 4, true);
    const chunk = bytes.subarray(at + 8, at + 8 + size);
    if (chunk.length < size) return null;
    if (kind === JSON_CHUNK && json === null) json = new TextDecoder().decode(chunk);
    if (kind === BINARY_CHUNK && binary === null) binary = chunk;
    at += 8 + size;
  }
  return json === null ? null : { json, binary };
}

/** A binary file of one JSON and one buffer. */
export function joinGlb(json: object, binary: Uint8Array): ArrayBuffer {
  const text = padded(new TextEncoder().encode(JSON.stringify(json)), 0x20);
  const body = padded(binary, 0);
  const bytes = new Uint8Array(12 + 8 + text.length + 8 + body.length);
  const view = new DataView(bytes.buffer);
  [MAGIC, 2, bytes.length, text.length, JSON_CHUNK].forEach((word, n) => view.setUint32(4 * n, word, true));
  bytes.set(text, 20);
  view.setUint32(20 + text.length, body.length, true);
  view.setUint32(24 + text.length, BINARY_CHUNK, true);
  bytes.set(body, 28 + text.length);
  return bytes.buffer;
}

/** Filled up to whole words. */
function padded(bytes: Uint8Array, filling: number): Uint8Array {
  const whole = new Uint8Array(4 * Math.ceil(bytes.length / 4)).fill(filling);
  whole.set(bytes);
  return whole;
}
