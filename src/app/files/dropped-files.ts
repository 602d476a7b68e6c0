/** What files that were dropped on the page are for. */
export type Dropped =
  | { readonly kind: 'design'; readonly file: File }
  | { readonly kind: 'mesh'; readonly file: File }
  | { readonly kind: 'refused'; readonly message: string };

const ACCEPTED = 'a design file (.json), or a mesh of the payload (.stl, .glb, .gltf)';

/** Bytes looked at where a name says nothing. */
const LOOKED_AT = 256;

/** Tells by their number, by the name's ending, and where that says nothing by the first bytes, what to do with dropped files. */
export async function sortDropped(files: readonly File[]): Promise<Dropped> {
  const [file] = files;
  if (files.length !== 1)
    return {
      kind: 'refused',
      message: `${files.length} files were dropped, and none was opened. Drop one: ${ACCEPTED}.`,
    };
  const ending = /\.(json|stl|glb|gltf)$/i.exec(file.name)?.[1].toLowerCase();
  if (ending) return { kind: ending === 'json' ? 'design' : 'mesh', file };
  const head = await headOf(file);
  if (head === null)
    return { kind: 'refused', message: `${shown(file)} cannot be read; it may be a folder. Drop ${ACCEPTED}.` };
  if (head.startsWith('glTF') || /^\s*solid\s[\s\S]*facet/.test(head)) return { kind: 'mesh', file };
  if (/^[\uFEFF\s]*\{/.test(head)) return { kind: 'design', file };
  return { kind: 'refused', message: `${shown(file)} was not opened: it is neither of what can be. Drop ${ACCEPTED}.` };
}

/** The first characters of a file; null for a folder, or what cannot be read. */
async function headOf(file: File): Promise<string | null> {
  try {
    return await file.slice(0, LOOKED_AT).text();
  } catch {
    return null;
  }
}

/** Longest name that is shown whole. */
const LONGEST_NAME = 60;

const shown = ({ name }: File): string => (name.length <= LONGEST_NAME ? name : `${name.slice(0, LONGEST_NAME)}…`);
