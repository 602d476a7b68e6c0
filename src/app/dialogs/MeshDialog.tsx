import { MeshFromFile } from '../../panels/judge/MeshFromFile.tsx';
import { closeDialog } from '../../state/session/dialog-store.ts';
import { notify } from '../../state/session/notices-store.ts';
import { dialogStore, noticesStore } from '../../state/stores.ts';
import { DialogFrame } from './DialogFrame.tsx';

/** Makes a mesh file that was dropped on the page the payload's shape. */
export function MeshDialog({ file }: { readonly file: File }) {
  const end = (taken: string | null) => {
    closeDialog(dialogStore);
    if (taken !== null) notify(noticesStore, `${taken} is the payload’s shape now. Undo takes it off again.`);
  };
  return (
    <DialogFrame
      title="Payload from a mesh"
      description="The design keeps the mesh’s convex hull as the payload’s shape. It stays as it is until you take the mesh."
    >
      <MeshFromFile file={file} onEnd={end} />
    </DialogFrame>
  );
}
