import { type DesignStore, liveDocument } from '../design/design-store.ts';
import { answered } from '../kept/browser-store.ts';
import { type HullDocument, hullIdentity, sameHull } from './hull-identity.ts';
import { isFull, type KeptMeshes, readMeshOf, writeMesh } from './kept-meshes.ts';
import { hullOf, type PayloadMesh, type PayloadMeshStore } from './payload-mesh-store.ts';

/** Why a mesh is not there for the next visit. */
export type MeshKeepingFault = 'full' | 'unavailable';

interface MeshKeeperParts {
  readonly design: DesignStore;
  readonly meshes: PayloadMeshStore;
  /** Opens the browser's store of meshes; a rejection ends the keeping. */
  readonly open: () => Promise<KeptMeshes>;
  /** Is told once for each mesh that cannot be kept, with the file it came from. */
  readonly onFault: (fault: MeshKeepingFault, source: string) => void;
}

/**
 * Keeps imported meshes in the browser, and finds the one whose hull a design has: after a reload, with another design, after
 * undo. The store is not opened before a hull is seen. Without it nothing is lost but the drawing of the triangles.
 */
export function followMeshes({ design, meshes, open, onFault }: MeshKeeperParts): () => void {
  /** Meshes that the browser refused: they last as long as the page. */
  const unkept: PayloadMesh[] = [];
  let opened: Promise<KeptMeshes | null> | null = null;
  let asked: HullDocument | null = null;
  let turn = 0;

  const database = (): Promise<KeptMeshes | null> => {
    opened ??= open().catch(() => null);
    return opened;
  };

  const keep = async (mesh: PayloadMesh): Promise<void> => {
    const refuse = (fault: MeshKeepingFault) => {
      unkept.push(mesh);
      if (meshes.getState().mesh === mesh) meshes.setState({ kept: 'refused' });
      onFault(fault, mesh.hull.source ?? 'The mesh');
    };
    const to = await database();
    if (!to) return refuse('unavailable');
    try {
      await answered(writeMesh(to, hullIdentity(mesh.hull), mesh));
      if (meshes.getState().mesh === mesh) meshes.setState({ kept: 'kept' });
    } catch (thrown) {
      refuse(isFull(thrown) ? 'full' : 'unavailable');
    }
  };

  const find = async (hull: HullDocument): Promise<void> => {
    const own = ++turn;
    const known = unkept.find((mesh) => sameHull(mesh.hull, hull));
    if (known) {
      meshes.setState({ mesh: known, kept: 'refused', looking: false });
      return;
    }
    meshes.setState({ looking: true });
    const found = await read(hull);
    if (own !== turn) return;
    meshes.setState(found ? { mesh: { hull, ...found }, kept: 'kept', looking: false } : { looking: false });
  };

  const read = async (hull: HullDocument) => {
    const from = await database();
    try {
      return from ? await answered(readMeshOf(from, hullIdentity(hull))) : null;
    } catch {
      // a store that cannot be read is one without this mesh
      return null;
    }
  };

  const look = (): void => {
    const hull = hullOf(liveDocument(design.getState()));
    if (hull === asked) return;
    // a hull that only moved has been asked for
    const moved = hull !== null && asked !== null && sameHull(hull, asked);
    asked = hull;
    const { mesh } = meshes.getState();
    if (hull && !moved && !(mesh && sameHull(mesh.hull, hull))) void find(hull);
    else if (!moved) {
      turn += 1;
      meshes.setState({ looking: false });
    }
  };

  const stops = [
    design.subscribe(look),
    meshes.subscribe(({ mesh, kept }, before) => {
      if (mesh && kept === 'not yet' && mesh !== before.mesh) {
        turn += 1;
        meshes.setState({ looking: false });
        void keep(mesh);
      }
    }),
  ];
  look();
  return () => {
    for (const stop of stops) stop();
  };
}
