import type { RefObject } from 'react';
import styles from './judge.module.css';
import { MeshStages } from './MeshStages.tsx';
import { useMeshImport } from './useMeshImport.ts';

/** Imports the payload's shape from a file that is chosen here. */
export function MeshImport({ input }: { readonly input: RefObject<HTMLInputElement | null> }) {
  const importing = useMeshImport();
  return (
    <>
      <label className={styles['file']}>
        <input
          ref={input}
          type="file"
          accept=".stl,.glb,.gltf"
          aria-label="Import STL, GLB or glTF… as the payload"
          disabled={importing.stage.at === 'reading'}
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            // so that the same file can be chosen again
            event.target.value = '';
            if (file) void importing.read(file);
          }}
        />
        <span className={styles['button']}>Import STL, GLB or glTF…</span>
      </label>
      <MeshStages importing={importing} />
    </>
  );
}
