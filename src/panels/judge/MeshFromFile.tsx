import { useEffect } from 'react';
import { MeshStages } from './MeshStages.tsx';
import { useMeshImport } from './useMeshImport.ts';

interface MeshFromFileProps {
  readonly file: File;
  /** Is told when the mesh was taken, with its file's name, and when the import was cancelled (null). */
  readonly onEnd: (taken: string | null) => void;
}

/** Imports the payload's shape from a file that is already at hand, such as one dropped on the page. */
export function MeshFromFile({ file, onEnd }: MeshFromFileProps) {
  const importing = useMeshImport(onEnd);
  const { read } = importing;
  useEffect(() => {
    void read(file);
  }, [read, file]);
  return <MeshStages importing={importing} />;
}
