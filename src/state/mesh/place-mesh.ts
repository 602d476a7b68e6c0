import type { PayloadShapeDocument } from '../../document/design.ts';
import { middleOf } from '../../document/judgement-inputs.ts';
import { RANGES } from '../../document/ranges.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { subtract, type Vec3 } from '../../math/vec3.ts';
import type { MeshSolid } from './closed-solid.ts';
import { type MeshFault, meshFault } from './mesh-faults.ts';
import type { ReadMesh } from './read-mesh.ts';

/** Units a mesh file can be in, in millimetres: STL names none, glTF asks for metres. */
export const MESH_UNITS = { mm: 1, cm: 10, m: 1000, inch: 25.4 } as const;

export type MeshUnit = keyof typeof MESH_UNITS;

/** How a mesh is put on the platform. */
export interface MeshPlacing {
  readonly unit: MeshUnit;
  /** The axis of the file that points up. */
  readonly up: 'y' | 'z';
  /** With its middle over the platform's middle, standing at a height [mm]; or null: as the file's own coordinates say. */
  readonly standsAt: number | null;
}

/** A mesh placed in the platform's frame. */
export interface PlacedMesh {
  readonly shape: PayloadShapeDocument;
  /** Corners of the triangles from the middle of the shape, flat 9 numbers each [mm]. */
  readonly triangles: Float32Array;
  /** The solid inside, where the triangles close it: its volume [mm^3], its centroid from the middle of the shape [mm]. */
  readonly solid: MeshSolid | null;
}

/** What a file of this kind most likely means. */
export const likelyPlacing = ({ kind }: Pick<ReadMesh, 'kind'>, standsAt: number): MeshPlacing =>
  kind === 'gltf' ? { unit: 'm', up: 'y', standsAt } : { unit: 'mm', up: 'z', standsAt };

/** Size along the platform's x, y, z in a unit [mm]. */
export function placedSize({ bound: { low, high } }: Pick<ReadMesh, 'bound'>, { unit, up }: MeshPlacing): Vec3 {
  const size = [0, 1, 2].map((axis) => MESH_UNITS[unit] * (high[axis] - low[axis]));
  return up === 'z' ? [size[0], size[1], size[2]] : [size[0], size[2], size[1]];
}

/** Corners in the file are kept to a thousandth of a millimetre. */
const KEPT_DECIMALS = 3;

const kept = (value: number): number => Number(value.toFixed(KEPT_DECIMALS)) + 0;

/** Puts a mesh on the platform: its bound as a shape of the design, its triangles for the drawing. */
export function placeMesh(mesh: ReadMesh, placing: MeshPlacing): Result<PlacedMesh, MeshFault> {
  const { bound, source } = mesh;
  const size = placedSize(mesh, placing);
  const largest = Math.max(...size);
  const smallest = RANGES.size_mm.min;
  if (!(largest >= smallest)) {
    const limit = `at least ${smallest} mm in some direction`;
    return failed(meshFault('outOfRange', source, `${largest} mm large`, limit, 'Choose a larger unit.'));
  }
  const toPlatform = placer(mesh, placing);
  const corners = bound.corners
    ? Array.from({ length: bound.corners.length / 3 }, (_, n) => placedCorner(bound.corners, n, toPlatform))
    : null;
  const farthest = Math.max(
    ...[...(corners ?? []), toPlatform(bound.low), toPlatform(bound.high)].flat().map(Math.abs),
  );
  const limit = RANGES.corners_mm.max;
  if (!(farthest <= limit)) {
    const shown = `${farthest.toPrecision(3)} mm away from the platform’s middle`;
    return failed(meshFault('outOfRange', source, shown, `within ${limit} mm`, 'Choose a smaller unit, or centre it.'));
  }
  const shape: PayloadShapeDocument = corners
    ? { hull: { corners_mm: corners, source: source.slice(0, 200) } }
    : { box: boxOf(bound.low, bound.high, toPlatform) };
  const middle = middleOf(shape);
  return ok({
    shape,
    triangles: movedTriangles(mesh.triangles, toPlatform, middle),
    solid: mesh.solid && placedSolid(mesh.solid, placing, subtract(toPlatform(mesh.solid.centroid), middle)),
  });
}

function placedSolid({ volume, second }: MeshSolid, { unit, up }: MeshPlacing, centroid: Vec3): MeshSolid {
  const factor = MESH_UNITS[unit];
  const placed = { volume: volume * factor ** 3, centroid };
  if (!second) return placed;
  const [xx, yy, zz, xy, xz, yz] = second.map((entry) => entry * factor ** 5);
  // y up: x, y, z of the platform are x, -z, y of the file
  return { ...placed, second: up === 'z' ? [xx, yy, zz, xy, xz, yz] : [xx, zz, yy, -xz, xy, -yz] };
}

const placedCorner = (corners: Float64Array | null, n: number, toPlatform: (point: Vec3) => Vec3): Vec3 => {
  if (!corners) return [0, 0, 0];
  const [x, y, z] = toPlatform([corners[3 * n], corners[3 * n + 1], corners[3 * n + 2]]);
  return [kept(x), kept(y), kept(z)];
};

/** From the file's unit and axes into the platform's frame. */
function placer({ bound: { low, high } }: ReadMesh, { unit, up, standsAt }: MeshPlacing): (point: Vec3) => Vec3 {
  const factor = MESH_UNITS[unit];
  const turned = ([x, y, z]: Vec3): Vec3 =>
    up === 'z' ? [factor * x, factor * y, factor * z] : [factor * x, -factor * z, factor * y];
  if (standsAt === null) return turned;
  const [a, b] = [turned(low), turned(high)];
  const shift: Vec3 = [-(a[0] + b[0]) / 2, -(a[1] + b[1]) / 2, standsAt - Math.min(a[2], b[2])];
  return (point) => {
    const [x, y, z] = turned(point);
    return [x + shift[0], y + shift[1], z + shift[2]];
  };
}

/** The box around a flat mesh, at least as thick as a box of the file may be. */
function boxOf(low: Vec3, high: Vec3, toPlatform: (point: Vec3) => Vec3) {
  const [a, b] = [toPlatform(low), toPlatform(high)];
  const [x, y, z] = [0, 1, 2].map((axis) => (a[axis] + b[axis]) / 2);
  const along = (axis: 0 | 1 | 2) => Math.max(kept(Math.abs(b[axis] - a[axis])), RANGES.size_mm.min);
  const middle_mm: Vec3 = [kept(x), kept(y), kept(z)];
  const size_mm: Vec3 = [along(0), along(1), along(2)];
  return { middle_mm, size_mm };
}

function movedTriangles(triangles: Float32Array, toPlatform: (point: Vec3) => Vec3, middle: Vec3): Float32Array {
  const moved = new Float32Array(triangles.length);
  for (let i = 0; i < triangles.length; i += 3) {
    const [x, y, z] = toPlatform([triangles[i], triangles[i + 1], triangles[i + 2]]);
    moved[i] = x - middle[0];
    moved[i + 1] = y - middle[1];
    moved[i + 2] = z - middle[2];
  }
  return moved;
}
