import { useCallback, useEffect, useRef, useState } from 'react';
import { withPayloadShape } from '../../document/edits/payload-shape.ts';
import { platformTop } from '../../document/edits/plate-body.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { readMeshFile } from '../../state/mesh/mesh-reader.ts';
import { payloadMeshStore, takeMesh } from '../../state/mesh/payload-mesh-store.ts';
import { likelyPlacing, type MeshPlacing, placeMesh } from '../../state/mesh/place-mesh.ts';
import type { ReadMesh } from '../../state/mesh/read-mesh.ts';
import { designStore } from '../../state/stores.ts';
import { makeEdit } from '../design-binding.ts';

/** How far the import of a mesh is. */
export type MeshStage =
  | { readonly at: 'idle' }
  | { readonly at: 'reading'; readonly name: string; readonly share: number }
  | { readonly at: 'refused'; readonly message: string }
  | { readonly at: 'placing'; readonly mesh: ReadMesh; readonly placing: MeshPlacing };

/** An import that is steered from the page. Until the mesh is taken, the design stays as it was. */
export interface MeshImporting {
  readonly stage: MeshStage;
  readonly read: (file: File) => Promise<void>;
  readonly place: (placing: MeshPlacing) => void;
  readonly take: () => void;
  /** Gives up the reading or the placing. */
  readonly cancel: () => void;
}

/** Height at which a mesh on the plate stands [mm]. */
export const standsAt = (): number => platformTop(liveDocument(designStore.getState()));

const IDLE: MeshStage = { at: 'idle' };

/** @param onEnd is told when the mesh was taken, with its file's name, and when the import was cancelled (null) */
export function useMeshImport(onEnd: (taken: string | null) => void = () => undefined): MeshImporting {
  const [stage, setStage] = useState<MeshStage>(IDLE);
  const reading = useRef<AbortController | null>(null);
  const read = useCallback(async (file: File) => {
    reading.current?.abort();
    const own = new AbortController();
    reading.current = own;
    setStage({ at: 'reading', name: file.name, share: 0 });
    const result = await readMeshFile(file, own.signal, (share) =>
      setStage((now) => (now.at === 'reading' && !own.signal.aborted ? { ...now, share } : now)),
    );
    if (own.signal.aborted) return;
    setStage(
      result.ok
        ? { at: 'placing', mesh: result.value, placing: likelyPlacing(result.value, standsAt()) }
        : { at: 'refused', message: result.fault.message },
    );
  }, []);
  useEffect(() => () => reading.current?.abort(), []);
  return {
    stage,
    read,
    place: (placing) => setStage((now) => (now.at === 'placing' ? { ...now, placing } : now)),
    take: () => {
      if (stage.at !== 'placing') return;
      const refused = makePayload(stage.mesh, stage.placing);
      setStage(refused === null ? IDLE : { at: 'refused', message: refused });
      if (refused === null) onEnd(stage.mesh.source);
    },
    cancel: () => {
      reading.current?.abort();
      setStage(IDLE);
      onEnd(null);
    },
  };
}

/** Makes a mesh the payload's shape as one step; returns why the design refuses it, or null. */
function makePayload(mesh: ReadMesh, placing: MeshPlacing): string | null {
  const placed = placeMesh(mesh, placing);
  if (!placed.ok) return placed.fault.message;
  const { shape, triangles, solid } = placed.value;
  const refused = makeEdit((document) => withPayloadShape(document, shape), `Payload from ${mesh.source}`);
  if (refused === null && 'hull' in shape) takeMesh(payloadMeshStore, { hull: shape.hull, triangles, solid });
  return refused;
}
