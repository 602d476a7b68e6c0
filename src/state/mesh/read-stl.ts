import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
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

/** Bytes before the first triangle of a binary STL, of its count, and of one triangle. */
const HEADER = 80;
const COUNT = 4;
const TRIANGLE = 50;

/** Bytes looked at to tell text from numbers. */
const LOOKED_AT = 1024;

/** Whether a file can be a binary STL: its size says so. */
const binaryTriangles = (bytes: Uint8Array): number | null => {
  if (bytes.length < HEADER + COUNT) return null;
  const count = new DataView(bytes.buffer, bytes.byteOffset).getUint32(HEADER, true);
  return HEADER + COUNT + TRIANGLE * count === bytes.length ? count : null;
};

/**
 * Corners of the triangles of an STL file, flat 9 numbers each, in the file's own unit. The loader trusts a file's count and skips
 * over what it does not understand, so both are checked first.
 */
export function readStl(fileName: string, bytes: Uint8Array): Result<Float32Array, MeshFault> {
  const count = binaryTriangles(bytes);
  if (count === null) return readText(fileName, bytes);
  if (count === 0) return failed(noTriangles(fileName));
  if (count > MOST_TRIANGLES) return failed(tooManyTriangles(fileName, count));
  return ok(loaded(bytes));
}

function readText(fileName: string, bytes: Uint8Array): Result<Float32Array, MeshFault> {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, LOOKED_AT));
  if (!/^\s*solid\b/i.test(head)) return failed(brokenBinary(fileName, bytes));
  const text = new TextDecoder('latin1').decode(bytes);
  let corners = 0;
  for (const [, x, y, z] of text.matchAll(/\bvertex\s+(\S+)\s+(\S+)\s+(\S+)/gi)) {
    for (const value of [x, y, z]) {
      if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(value) || !Number.isFinite(Math.fround(Number(value))))
        return failed(
          notFinite(fileName, `triangle ${Math.floor(corners / 3) + 1}, corner ${(corners % 3) + 1}`, value),
        );
    }
    corners += 1;
  }
  const facets = text.match(/\bendfacet\b/gi)?.length ?? 0;
  if (corners === 0) return failed(noTriangles(fileName));
  if (corners !== 3 * facets) {
    const value = `a list of ${facets} facets with ${corners} corners`;
    return failed(
      meshFault(
        'notADesign',
        fileName,
        value,
        'triangles with three corners each',
        'Export it again; it may be cut short.',
      ),
    );
  }
  if (facets > MOST_TRIANGLES) return failed(tooManyTriangles(fileName, facets));
  // normals are not used, often wrong, and sometimes no numbers
  const plain = text.replace(/\bfacet\b.*?\bouter\b/gis, 'facet normal 0 0 0 outer');
  const read = loaded(new TextEncoder().encode(plain));
  return read.length === 3 * corners ? ok(read) : failed(notAMesh(fileName, 'an STL text with unknown words in it'));
}

/** A file that is neither text nor as long as its count of triangles asks for. */
function brokenBinary(fileName: string, bytes: Uint8Array): MeshFault {
  if (bytes.length < HEADER + COUNT || !/\.stl$/i.test(fileName)) return notAMesh(fileName, 'of another kind');
  const count = new DataView(bytes.buffer, bytes.byteOffset).getUint32(HEADER, true);
  const value = `${bytes.length} bytes long`;
  const limit = `${HEADER + COUNT + TRIANGLE * count} bytes for the ${count} triangles that it announces`;
  return meshFault('notADesign', fileName, value, limit, 'Export it again; it may be cut short, or not an STL file.');
}

function loaded(bytes: Uint8Array): Float32Array {
  const own = bytes.slice();
  const geometry = new STLLoader().parse(own.buffer);
  const positions = Float32Array.from(geometry.getAttribute('position').array);
  geometry.dispose();
  return positions;
}
