import { Mesh, Vector3 } from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { failed, ok, type Result } from '../../math/result.ts';
import { type GltfShapes, gltfShapes, isGlb, joinGlb, splitGlb } from './gltf-parts.ts';
import { type MeshFault, MOST_TRIANGLES, meshFault, noTriangles, notAMesh, tooManyTriangles } from './mesh-faults.ts';

/** Extensions that a file may demand: they change looks only, or are read. */
const HARMLESS = /^(KHR_mesh_quantization|KHR_texture_|KHR_materials_|KHR_lights_|EXT_texture_)/;

/**
 * Corners of the triangles of a glTF or GLB file, flat 9 numbers each, in metres with Y up as glTF has it. Only what says
 * something of shapes is handed to the loader, with all buffers in one, so that nothing is ever fetched from anywhere.
 */
export async function readGltf(fileName: string, bytes: Uint8Array): Promise<Result<Float32Array, MeshFault>> {
  const parts = isGlb(bytes) ? splitGlb(bytes) : { json: new TextDecoder().decode(bytes), binary: null };
  if (!parts) return failed(meshFault('notADesign', fileName, 'cut short', 'a whole GLB file', 'Export it again.'));
  const shapes = parsed(fileName, parts.json);
  if (!shapes.ok) return shapes;
  const buffers = wholeBuffers(fileName, shapes.value, parts.binary);
  if (!buffers.ok) return buffers;
  const fault = structureFault(fileName, shapes.value);
  if (fault) return failed(fault);
  try {
    return trianglesOf(fileName, await loaded(shapes.value, buffers.value));
  } catch (reason) {
    return failed(broken(fileName, reason));
  }
}

const broken = (fileName: string, reason: unknown): MeshFault =>
  meshFault(
    'notADesign',
    fileName,
    `broken inside (${reason instanceof Error ? reason.message.slice(0, 80) : 'unknown reason'})`,
    'a glTF 2.0 file with all its parts',
    'Export it again.',
  );

function parsed(fileName: string, json: string): Result<GltfShapes, MeshFault> {
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch {
    return failed(notAMesh(fileName, 'of another kind'));
  }
  const result = gltfShapes.safeParse(value);
  if (!result.success) {
    const [{ path }] = result.error.issues;
    const where = path.length === 0 ? 'at its root' : `at ${path.join('.')}`;
    return failed(notAMesh(fileName, `not as glTF 2.0 asks ${where}`));
  }
  const { asset, extensionsRequired = [] } = result.data;
  if (!/^2\./.test(asset.version)) {
    return failed(meshFault('otherVersion', fileName, `glTF ${asset.version}`, 'glTF 2.0', 'Export it as glTF 2.0.'));
  }
  const demanded = extensionsRequired.find((name) => !HARMLESS.test(name));
  if (demanded === undefined) return ok(result.data);
  const remedy = 'Export it without compression and without extensions.';
  return failed(meshFault('notADesign', fileName, `in need of ${demanded}`, 'plain glTF 2.0', remedy));
}

/** All buffers of a file; one that lies in another file is a fault. */
function wholeBuffers(
  fileName: string,
  { buffers = [] }: GltfShapes,
  binary: Uint8Array | null,
): Result<readonly Uint8Array[], MeshFault> {
  const found: Uint8Array[] = [];
  for (const [n, { uri, byteLength }] of buffers.entries()) {
    const data = uri === undefined ? (n === 0 ? binary : null) : decoded(uri);
    if (!data) {
      const remedy = 'Export it as GLB, which holds everything in one file.';
      const value = uri === undefined ? 'without its buffer' : `in need of another file, ${uri.slice(0, 60)}`;
      return failed(meshFault('missing', fileName, value, 'complete in itself', remedy));
    }
    if (data.length < byteLength) {
      return failed(meshFault('notADesign', fileName, 'cut short', 'a whole glTF file', 'Export it again.'));
    }
    found.push(data.subarray(0, byteLength));
  }
  return ok(found);
}

/** Bytes of a data address; null for any other address. */
function decoded(uri: string): Uint8Array | null {
  const base64 = /^data:[^,]*;base64,(.*)$/s.exec(uri)?.[1];
  if (base64 === undefined) return null;
  try {
    return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  } catch {
    return null;
  }
}

/** Most parts of a scene: more than any housing has, few enough to be built at once. */
const MOST_PARTS = 100_000;

/** Triangles of a strip or a fan for its corners, and of a list; points and lines have none. */
const TRIANGLES = 4;
const STRIPS_AND_FANS: readonly number[] = [5, 6];

const trianglesOfMode = (mode: number, corners: number): number =>
  mode === TRIANGLES ? corners / 3 : STRIPS_AND_FANS.includes(mode) ? Math.max(corners - 2, 0) : 0;

/** The nodes that the shown scene begins with; a file without scenes shows nothing. */
const shownRoots = ({ scene = 0, scenes = [] }: GltfShapes): readonly number[] => scenes.at(scene)?.nodes ?? [];

/**
 * What would make the loader wait for ever or take all memory: nodes in circles, and counts beyond the limit. A mesh counts as often as
 * the scene shows it, before any of it is built.
 */
function structureFault(fileName: string, shapes: GltfShapes): MeshFault | null {
  const { nodes = [], meshes = [], accessors = [] } = shapes;
  const parents = new Uint8Array(nodes.length);
  for (const { children = [] } of nodes) {
    for (const child of children) {
      if (child >= nodes.length || parents[child] > 0) return broken(fileName, new Error('its nodes form no tree'));
      parents[child] = 1;
    }
  }
  const roots = nodes.flatMap((_, n) => (parents[n] > 0 ? [] : [n]));
  let reached = 0;
  for (const waiting = [...roots]; waiting.length > 0; reached++)
    for (const child of nodes[waiting.pop() ?? 0].children ?? []) waiting.push(child);
  if (reached !== nodes.length) return broken(fileName, new Error('its nodes form a circle'));
  const shown = shownRoots(shapes);
  if (new Set(shown).size < shown.length) return broken(fileName, new Error('its scene shows a node twice'));
  const trianglesIn = meshes.map(({ primitives }) =>
    primitives.reduce((sum, { attributes, indices, mode = TRIANGLES }) => {
      const which = indices ?? attributes.POSITION;
      return sum + trianglesOfMode(mode, which === undefined ? 0 : (accessors[which]?.count ?? 0));
    }, 0),
  );
  let [triangles, parts] = [0, 0];
  for (const waiting = shown.filter((n) => n < nodes.length); waiting.length > 0; parts++) {
    const { mesh, children = [] } = nodes[waiting.pop() ?? 0];
    if (mesh !== undefined) triangles += trianglesIn.at(mesh) ?? 0;
    for (const child of children) waiting.push(child);
  }
  if (triangles > MOST_TRIANGLES) return tooManyTriangles(fileName, Math.ceil(triangles));
  if (parts > MOST_PARTS) {
    const remedy = 'Export it with its parts joined, or give a box or cylinder instead.';
    return meshFault('tooLarge', fileName, `a scene of ${parts} parts`, `at most ${MOST_PARTS}`, remedy);
  }
  // what no scene shows is decoded all the same
  const points = accessors.reduce((sum, { count }) => sum + count, 0);
  return points > 12 * MOST_TRIANGLES ? tooManyTriangles(fileName, Math.ceil(points / 12)) : null;
}

async function loaded(shapes: GltfShapes, buffers: readonly Uint8Array[]): Promise<readonly Mesh[]> {
  const starts: number[] = [];
  let size = 0;
  for (const buffer of buffers) {
    starts.push(size);
    // accessors need their alignment
    size += 4 * Math.ceil(buffer.length / 4);
  }
  const binary = new Uint8Array(size);
  for (const [n, buffer] of buffers.entries()) binary.set(buffer, starts[n]);
  const bufferViews = (shapes.bufferViews ?? []).map(({ buffer, byteOffset = 0, ...rest }) => ({
    ...rest,
    buffer: 0,
    byteOffset: byteOffset + (starts[buffer] ?? 0),
  }));
  const meshes = (shapes.meshes ?? []).map(({ primitives }) => ({
    primitives: primitives.filter(({ attributes }) => attributes.POSITION !== undefined),
  }));
  const { asset, nodes } = shapes;
  const roots = shownRoots(shapes);
  if (roots.length === 0) return [];
  // the loader asks for bounds, and uses them for what is not used here
  const accessors = (shapes.accessors ?? []).map((accessor) => ({ ...accessor, min: [0, 0, 0], max: [0, 0, 0] }));
  const scenes = [{ nodes: roots }];
  const plain = { asset, scene: 0, scenes, nodes, accessors, meshes, bufferViews, buffers: [{ byteLength: size }] };
  const { scene: root } = await new GLTFLoader().parseAsync(joinGlb(plain, binary), '');
  root.updateMatrixWorld(true);
  const found: Mesh[] = [];
  root.traverse((part) => part instanceof Mesh && found.push(part));
  return found;
}

/** Corners of all meshes where their nodes put them. Each is asked for one by one: they may be shared, interleaved or whole numbers. */
function trianglesOf(fileName: string, meshes: readonly Mesh[]): Result<Float32Array, MeshFault> {
  const count = meshes.reduce((sum, { geometry }) => sum + Math.floor(cornersOf(geometry) / 3), 0);
  if (count === 0) return failed(noTriangles(fileName));
  if (count > MOST_TRIANGLES) return failed(tooManyTriangles(fileName, count));
  const all = new Float32Array(9 * count);
  const corner = new Vector3();
  let at = 0;
  for (const { geometry, matrixWorld } of meshes) {
    const positions = geometry.getAttribute('position');
    const whole = 3 * Math.floor(cornersOf(geometry) / 3);
    for (let n = 0; n < whole; n++, at += 3)
      corner
        .fromBufferAttribute(positions, geometry.index ? geometry.index.getX(n) : n)
        .applyMatrix4(matrixWorld)
        .toArray(all, at);
  }
  return ok(all);
}

const cornersOf = (geometry: Mesh['geometry']): number =>
  geometry.index ? geometry.index.count : geometry.getAttribute('position').count;
