import { type RefObject, useState } from 'react';
import { liveDocument } from '../../state/design-store.ts';
import { withPayloadShape } from '../../state/edit-payload-shape.ts';
import { platformTop } from '../../state/edit-plate-body.ts';
import { readMeshFile } from '../../state/mesh/mesh-reader.ts';
import { payloadMeshStore } from '../../state/mesh/payload-mesh-store.ts';
import { likelyPlacing, type MeshPlacing, placeMesh } from '../../state/mesh/place-mesh.ts';
import type { ReadMesh } from '../../state/mesh/read-mesh.ts';
import { designStore } from '../../state/stores.ts';
import { makeEdit } from '../design-binding.ts';
import styles from './judge.module.css';
import { MeshPlacingForm } from './MeshPlacingForm.tsx';

type Stage =
  | { readonly at: 'idle' }
  | { readonly at: 'reading'; readonly name: string; readonly giveUp: () => void }
  | { readonly at: 'refused'; readonly message: string }
  | { readonly at: 'placing'; readonly mesh: ReadMesh; readonly placing: MeshPlacing };

const standsAt = (): number => platformTop(liveDocument(designStore.getState()));

/** Imports the payload's shape from a file. Until the person takes it, the design stays as it was. */
export function MeshImport({ input }: { readonly input: RefObject<HTMLInputElement | null> }) {
  const [stage, setStage] = useState<Stage>({ at: 'idle' });
  const read = async (file: File | undefined) => {
    if (!file) return;
    const reading = new AbortController();
    setStage({ at: 'reading', name: file.name, giveUp: () => reading.abort() });
    const result = await readMeshFile(file, reading.signal);
    if (reading.signal.aborted) {
      setStage({ at: 'idle' });
      return;
    }
    setStage(
      result.ok
        ? { at: 'placing', mesh: result.value, placing: likelyPlacing(result.value, standsAt()) }
        : { at: 'refused', message: result.fault.message },
    );
  };
  const take = (mesh: ReadMesh, placing: MeshPlacing) => {
    const refused = takeMesh(mesh, placing);
    setStage(refused === null ? { at: 'idle' } : { at: 'refused', message: refused });
  };
  return (
    <>
      <label className={styles['file']}>
        <input
          ref={input}
          type="file"
          accept=".stl,.glb,.gltf"
          aria-label="Import STL, GLB or glTF… as the payload"
          disabled={stage.at === 'reading'}
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            // so that the same file can be chosen again
            event.target.value = '';
            void read(file);
          }}
        />
        <span className={styles['button']}>Import STL, GLB or glTF…</span>
      </label>
      <div role="status">
        {stage.at === 'reading' ? (
          <p className={styles['buttons']}>
            <span className={styles['note']}>Reading {stage.name}…</span>
            <button type="button" className={styles['button']} onClick={stage.giveUp}>
              Cancel
            </button>
          </p>
        ) : null}
        {stage.at === 'refused' ? <p className={styles['alarm']}>▲ {stage.message} The design is as it was.</p> : null}
      </div>
      {stage.at === 'placing' ? (
        <MeshPlacingForm
          mesh={stage.mesh}
          placing={stage.placing}
          standsAt={standsAt()}
          onChange={(placing) => setStage({ ...stage, placing })}
          onTake={() => take(stage.mesh, stage.placing)}
          onCancel={() => setStage({ at: 'idle' })}
        />
      ) : null}
    </>
  );
}

/** Makes a mesh the payload's shape as one step; returns why the design refuses it, or null. */
function takeMesh(mesh: ReadMesh, placing: MeshPlacing): string | null {
  const placed = placeMesh(mesh, placing);
  if (!placed.ok) return placed.fault.message;
  const { shape, triangles } = placed.value;
  const refused = makeEdit((document) => withPayloadShape(document, shape), `Payload from ${mesh.source}`);
  if (refused === null && 'hull' in shape) payloadMeshStore.setState({ mesh: { hull: shape.hull, triangles } });
  return refused;
}
