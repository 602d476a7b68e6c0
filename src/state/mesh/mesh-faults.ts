import { type DesignFault, fault, quoted } from '../../document/faults.ts';

/** Largest mesh file that is read [bytes]: a million triangles in binary STL fit, and it is read within seconds. */
export const MOST_MESH_BYTES = 64 * 2 ** 20;

/** Most triangles that are read: enough for any housing, few enough to be drawn on a small machine. */
export const MOST_TRIANGLES = 500_000;

/** Why a mesh cannot be used: names the file, what it is, what it must be, and what to do. */
export type MeshFault = DesignFault;

const subject = (fileName: string): string => (/^[\w .()+-]{1,80}$/.test(fileName) ? fileName : quoted(fileName));

export const meshFault = (
  reason: MeshFault['reason'],
  fileName: string,
  value: string,
  limit: string,
  remedy: string,
): MeshFault => fault(reason, subject(fileName), value, limit, remedy);

const mebibytes = (bytes: number): string => `${(bytes / 2 ** 20).toFixed(1)} MiB`;

/** Refuses a file by its size alone; call it before reading one. */
export function meshSizeFault(fileName: string, bytes: number): MeshFault | null {
  if (bytes === 0) return meshFault('empty', fileName, 'empty', 'an STL, GLB or glTF file', 'Export it again.');
  if (bytes <= MOST_MESH_BYTES) return null;
  const remedy = 'Export it with fewer triangles, or give a box or cylinder instead.';
  return meshFault('tooLarge', fileName, mebibytes(bytes), `at most ${mebibytes(MOST_MESH_BYTES)}`, remedy);
}

export const noTriangles = (fileName: string): MeshFault =>
  meshFault(
    'missing',
    fileName,
    'without triangles',
    'a surface of at least one triangle',
    'Export the body’s surface, not its lines or points.',
  );

export function tooManyTriangles(fileName: string, count: number): MeshFault {
  const remedy = 'Export it coarser, or give a box or cylinder instead.';
  return meshFault('tooLarge', fileName, `a mesh of ${count} triangles`, `at most ${MOST_TRIANGLES}`, remedy);
}

/** @param place which coordinate, such as "triangle 12, corner 2" */
export const notFinite = (fileName: string, place: string, value: string): MeshFault =>
  meshFault(
    'outOfRange',
    fileName,
    `at fault at ${place}, where a coordinate is ${quoted(value)}`,
    'made of finite numbers only',
    'Repair the mesh in the program that made it and export it again.',
  );

export const notAMesh = (fileName: string, what: string): MeshFault =>
  meshFault('notADesign', fileName, what, 'an STL, GLB or glTF file', 'Export the payload as STL or GLB.');
