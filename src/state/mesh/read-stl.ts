import { failed, ok, type Result } from '../../math/result.ts';
import {
  type MeshFault,
  MOST_TRIANGLES,
  meshFault,
  noTriangles,
  notAMesh,
  notFinite,
  tooManyTriangles,
} from './mesh-faults.ts';
import { StlWords } from './stl-words.ts';

/** Bytes before the first triangle of a binary STL, of its count, and of one triangle; a triangle's corners follow its normal. */
const HEADER = 80;
const COUNT = 4;
const TRIANGLE = 50;
const NORMAL = 12;

/** Bytes looked at to tell text from numbers. */
const LOOKED_AT = 1024;

/** Triangles between two reports of how far the reading is. */
const REPORT_EVERY = 4096;

/** Whether a file can be a binary STL: its size says so. */
const binaryTriangles = (bytes: Uint8Array): number | null => {
  if (bytes.length < HEADER + COUNT) return null;
  const count = new DataView(bytes.buffer, bytes.byteOffset).getUint32(HEADER, true);
  return HEADER + COUNT + TRIANGLE * count === bytes.length ? count : null;
};

/**
 * Corners of the triangles of an STL file, flat 9 numbers each, in the file's own unit; normals are not used, for they are often wrong.
 * Each byte is looked at once, so that the time goes with the length of the file whatever is in it.
 * @param onShare is told how much of the file has been read, 0 to 1
 */
export function readStl(
  fileName: string,
  bytes: Uint8Array,
  onShare: (share: number) => void = () => undefined,
): Result<Float32Array, MeshFault> {
  const count = binaryTriangles(bytes);
  if (count === null) return readText(fileName, bytes, onShare);
  if (count === 0) return failed(noTriangles(fileName));
  if (count > MOST_TRIANGLES) return failed(tooManyTriangles(fileName, count));
  return ok(readBinary(bytes, count));
}

function readBinary(bytes: Uint8Array, count: number): Float32Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const corners = new Float32Array(9 * count);
  for (let t = 0; t < count; t++) {
    const start = HEADER + COUNT + TRIANGLE * t + NORMAL;
    for (let k = 0; k < 9; k++) corners[9 * t + k] = view.getFloat32(start + 4 * k, true);
  }
  return corners;
}

/** solid NAME, then facets: facet normal ... outer loop, three times vertex x y z, endloop, endfacet; then endsolid NAME. */
function readText(
  fileName: string,
  bytes: Uint8Array,
  onShare: (share: number) => void,
): Result<Float32Array, MeshFault> {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, LOOKED_AT));
  if (!/^\s*solid\b/i.test(head)) return failed(brokenBinary(fileName, bytes));
  const words = new StlWords(bytes);
  let corners = new Float32Array(9 * 1024);
  let [vertices, facets] = [0, 0];
  // whether words are those of a normal, which are not looked at
  let inNormal = false;
  while (words.next()) {
    if (inNormal) inNormal = !words.is('outer');
    else if (words.is('vertex')) {
      if (3 * vertices + 3 > corners.length) {
        const more = new Float32Array(2 * corners.length);
        more.set(corners);
        corners = more;
      }
      for (let axis = 0; axis < 3; axis++) {
        const value = words.next() ? Math.fround(words.number()) : Number.NaN;
        if (!Number.isFinite(value)) {
          const place = `triangle ${Math.floor(vertices / 3) + 1}, corner ${(vertices % 3) + 1}`;
          return failed(notFinite(fileName, place, words.text()));
        }
        corners[3 * vertices + axis] = value;
      }
      vertices += 1;
    } else if (words.is('facet')) inNormal = true;
    else if (words.is('endfacet')) {
      facets += 1;
      if (vertices !== 3 * facets) return failed(notThreeEach(fileName, facets, vertices));
      if (facets > MOST_TRIANGLES) return failed(tooManyTriangles(fileName, facets));
      if (facets % REPORT_EVERY === 0) onShare(words.share());
    } else if (words.is('solid') || words.is('endsolid')) words.skipLine();
    else if (!words.is('loop') && !words.is('endloop'))
      return failed(notAMesh(fileName, 'an STL text with unknown words in it'));
  }
  if (vertices === 0) return failed(noTriangles(fileName));
  // the text ends within a facet
  if (inNormal) facets += 1;
  if (vertices !== 3 * facets) return failed(notThreeEach(fileName, facets, vertices));
  return ok(corners.slice(0, 9 * facets));
}

function notThreeEach(fileName: string, facets: number, vertices: number): MeshFault {
  const value = `a list of ${facets} facets with ${vertices} corners`;
  const remedy = 'Export it again; it may be cut short.';
  return meshFault('notADesign', fileName, value, 'triangles with three corners each', remedy);
}

/** A file that is neither text nor as long as its count of triangles asks for. */
function brokenBinary(fileName: string, bytes: Uint8Array): MeshFault {
  if (bytes.length < HEADER + COUNT || !/\.stl$/i.test(fileName)) return notAMesh(fileName, 'of another kind');
  const count = new DataView(bytes.buffer, bytes.byteOffset).getUint32(HEADER, true);
  const value = `${bytes.length} bytes long`;
  const limit = `${HEADER + COUNT + TRIANGLE * count} bytes for the ${count} triangles that it announces`;
  return meshFault('notADesign', fileName, value, limit, 'Export it again; it may be cut short, or not an STL file.');
}
