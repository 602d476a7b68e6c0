import { createStore } from 'zustand/vanilla';
import type { DesignDocument, PayloadShapeDocument } from '../../document/design.ts';
import { boxAround, middleOf } from '../../document/judgement-inputs.ts';
import type { Vec3 } from '../../math/vec3.ts';

/** Triangles of an imported payload, for the drawing; they are no part of the design. */
export interface PayloadMesh {
  /** The hull that bounds it, which the design keeps; moving the hull moves the mesh. */
  readonly hull: HullDocument;
  /** From the middle of the hull, flat 9 numbers each [mm]. */
  readonly triangles: Float32Array;
}

type HullDocument = Extract<PayloadShapeDocument, { readonly hull: unknown }>['hull'];

export interface PayloadMeshState {
  /** The mesh imported last in this session; kept while undo may bring its hull back. */
  readonly mesh: PayloadMesh | null;
}

export const payloadMeshStore = createStore<PayloadMeshState>()(() => ({ mesh: null }));

/** Corners that are moved by fields keep their distances to this [mm]. */
const SAME_PLACE = 1e-3;

/** The imported mesh where a design's payload is its hull, and the hull's middle in the platform's frame [mm]. */
export function meshOf(
  { payload }: DesignDocument,
  { mesh }: PayloadMeshState,
): { readonly triangles: Float32Array; readonly middle: Vec3 } | null {
  const shape = payload?.shape;
  if (!mesh || !shape || !('hull' in shape) || !sameHull(shape.hull, mesh.hull)) return null;
  return { triangles: mesh.triangles, middle: middleOf(shape) };
}

/** Whether two hulls are the same but for where they stand. */
function sameHull(a: HullDocument, b: HullDocument): boolean {
  if (a === b) return true;
  if (a.source !== b.source || a.corners_mm.length !== b.corners_mm.length) return false;
  const [lowA, lowB] = [boxAround(a.corners_mm).low, boxAround(b.corners_mm).low];
  return a.corners_mm.every((corner, n) =>
    corner.every((value, axis) => Math.abs(value - lowA[axis] - (b.corners_mm[n][axis] - lowB[axis])) < SAME_PLACE),
  );
}
