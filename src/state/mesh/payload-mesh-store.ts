import { createStore } from 'zustand/vanilla';
import type { DesignDocument } from '../../document/design.ts';
import { middleOf } from '../../document/judgement-inputs.ts';
import { add, type Vec3 } from '../../math/vec3.ts';
import type { MeshSolid } from './closed-solid.ts';
import { type HullDocument, sameHull } from './hull-identity.ts';

/** Triangles of an imported payload, for the drawing; they are no part of the design. */
export interface PayloadMesh {
  /** The hull that bounds it, which the design keeps; moving the hull moves the mesh. */
  readonly hull: HullDocument;
  /** From the middle of the hull, flat 9 numbers each [mm]. */
  readonly triangles: Float32Array;
  /** The solid inside a closed mesh: its volume [mm^3], its centroid from the middle of the hull [mm]. */
  readonly solid: MeshSolid | null;
}

export interface PayloadMeshState {
  /** The mesh imported or found last; it stays while undo may bring its hull back. */
  readonly mesh: PayloadMesh | null;
  /** Whether this browser has the mesh for the next visit. */
  readonly kept: 'kept' | 'not yet' | 'refused';
  /** Whether the browser is being asked for the mesh of the hull on screen. */
  readonly looking: boolean;
}

export const createPayloadMeshStore = () =>
  createStore<PayloadMeshState>()(() => ({ mesh: null, kept: 'not yet', looking: false }));

export type PayloadMeshStore = ReturnType<typeof createPayloadMeshStore>;

/** The page's one store of it. */
export const payloadMeshStore = createPayloadMeshStore();

/** Takes a mesh that has just been imported. */
export const takeMesh = (store: PayloadMeshStore, mesh: PayloadMesh): void => store.setState({ mesh, kept: 'not yet' });

/** The hull that is a design's payload, if it is one. */
export function hullOf({ payload }: DesignDocument): HullDocument | null {
  const shape = payload?.shape;
  return shape && 'hull' in shape ? shape.hull : null;
}

/** The imported mesh where a design's payload is its hull, and the hull's middle in the platform's frame [mm]. */
export function meshOf(
  document: DesignDocument,
  { mesh }: Pick<PayloadMeshState, 'mesh'>,
): { readonly triangles: Float32Array; readonly solid: MeshSolid | null; readonly middle: Vec3 } | null {
  const hull = hullOf(document);
  if (!mesh || !hull || !sameHull(hull, mesh.hull)) return null;
  const middle = middleOf({ hull });
  const { triangles, solid } = mesh;
  return { triangles, middle, solid: solid && { ...solid, centroid: add(solid.centroid, middle) } };
}
