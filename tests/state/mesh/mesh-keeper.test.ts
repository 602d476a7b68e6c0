import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { changePayloadVector, withPayloadShape } from '../../../src/document/edits/payload-shape.ts';
import { emptyDesign } from '../../../src/document/empty-design.ts';
import type { Vec3 } from '../../../src/math/vec3.ts';
import { changeDocument, createDesignStore, type DesignStore, undo } from '../../../src/state/design/design-store.ts';
import type { HullDocument } from '../../../src/state/mesh/hull-identity.ts';
import {
  type KeptMeshes,
  listMeshes,
  MOST_KEPT_BYTES,
  MOST_KEPT_MESHES,
  openKeptMeshes,
} from '../../../src/state/mesh/kept-meshes.ts';
import { followMeshes, type MeshKeepingFault } from '../../../src/state/mesh/mesh-keeper.ts';
import {
  createPayloadMeshStore,
  meshOf,
  type PayloadMesh,
  type PayloadMeshStore,
  takeMesh,
} from '../../../src/state/mesh/payload-mesh-store.ts';

const hull = (source: string, height: number): HullDocument => ({
  corners_mm: [
    [0, 0, 0],
    [30, 0, 0],
    [0, 30, 0],
    [0, 0, height],
  ],
  source,
});

const meshWith = (own: HullDocument, first: number, length = 18): PayloadMesh => ({
  hull: own,
  triangles: Float32Array.from({ length }, (_, n) => first + n),
  solid: { volume: 10, centroid: [1, 2, 3] },
});

interface Visit {
  readonly design: DesignStore;
  readonly meshes: PayloadMeshStore;
  readonly faults: (readonly [MeshKeepingFault, string])[];
}

const ends: (() => void)[] = [];
const databases: KeptMeshes[] = [];

async function opened(): Promise<KeptMeshes> {
  const database = await openKeptMeshes();
  databases.push(database);
  return database;
}

/** A page that is opened on a design. */
function visit(document = emptyDesign(), open: () => Promise<KeptMeshes> = opened): Visit {
  const design = createDesignStore(document);
  const meshes = createPayloadMeshStore();
  const faults: (readonly [MeshKeepingFault, string])[] = [];
  ends.push(followMeshes({ design, meshes, open, onFault: (...fault) => faults.push(fault) }));
  return { design, meshes, faults };
}

function importMesh({ design, meshes }: Visit, mesh: PayloadMesh): void {
  changeDocument(design, withPayloadShape(design.getState().document, { hull: mesh.hull }), 'Import');
  takeMesh(meshes, mesh);
}

const drawn = ({ design, meshes }: Visit) => meshOf(design.getState().document, meshes.getState());

const firstDrawn = (page: Visit) => drawn(page)?.triangles[0];

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});

afterEach(() => {
  for (const end of ends.splice(0)) end();
  for (const database of databases.splice(0)) database.close();
  vi.restoreAllMocks();
});

describe('an imported mesh', () => {
  it('is drawn again after a reload, where its hull stands then', async () => {
    const page = visit();
    importMesh(page, meshWith(hull('a.stl', 40), 7));
    await vi.waitFor(() => expect(page.meshes.getState().kept).toBe('kept'));
    const { document } = page.design.getState();
    const again = visit(changePayloadVector(document, 'middle_mm', 0, 115));
    await vi.waitFor(() => expect(firstDrawn(again)).toBe(7));
    expect(drawn(again)?.middle).toEqual([115, 15, 20]);
    // from the middle of the hull, so it has moved with it
    expect(drawn(again)?.solid).toEqual({ volume: 10, centroid: [116, 17, 23] });
    expect(again.meshes.getState()).toMatchObject({ kept: 'kept', looking: false });
  });

  it('is found again by undo and by another design, each by its own hull', async () => {
    const page = visit();
    importMesh(page, meshWith(hull('a.stl', 40), 7));
    await vi.waitFor(() => expect(page.meshes.getState().kept).toBe('kept'));
    importMesh(page, meshWith(hull('a.stl', 41), 9));
    await vi.waitFor(() => expect(page.meshes.getState().kept).toBe('kept'));
    expect(firstDrawn(page)).toBe(9);
    undo(page.design);
    await vi.waitFor(() => expect(firstDrawn(page)).toBe(7));
  });

  it('is not found in another browser: nothing is drawn, nothing is lost, nobody is troubled', async () => {
    const document = withPayloadShape(emptyDesign(), { hull: hull('a.stl', 40) });
    const page = visit(document);
    expect(page.meshes.getState().looking).toBe(true);
    await vi.waitFor(() => expect(page.meshes.getState().looking).toBe(false));
    expect(drawn(page)).toBeNull();
    expect(page.design.getState().document).toBe(document);
    expect(page.faults).toEqual([]);
  });

  it('is not drawn from a record that was spoilt', async () => {
    const page = visit();
    importMesh(page, meshWith(hull('a.stl', 40), 7));
    await vi.waitFor(() => expect(page.meshes.getState().kept).toBe('kept'));
    const [{ key }] = await listMeshes(databases[0]);
    await databases[0].put('triangles', Float32Array.of(1, Number.NaN, 3, 4, 5, 6, 7, 8, 9), key);
    const again = visit(page.design.getState().document);
    await vi.waitFor(() => expect(again.meshes.getState().looking).toBe(false));
    expect(drawn(again)).toBeNull();
  });
});

describe('the room for meshes', () => {
  const importing = async (page: Visit, mesh: PayloadMesh) => {
    importMesh(page, mesh);
    await vi.waitFor(() => expect(page.meshes.getState().kept).toBe('kept'));
  };

  it('is bounded by their number: the one used longest ago goes', async () => {
    let now = 1000;
    vi.spyOn(Date, 'now').mockImplementation(() => now++);
    const page = visit();
    for (let n = 0; n <= MOST_KEPT_MESHES; n++) await importing(page, meshWith(hull('a.stl', 40 + n), n));
    const kept = await listMeshes(databases[0]);
    expect(kept).toHaveLength(MOST_KEPT_MESHES);
    expect(kept.some(({ text }) => text.includes('0.000,0.000,40.000'))).toBe(false);
    expect(await databases[0].count('triangles')).toBe(MOST_KEPT_MESHES);
  });

  it('is bounded by their bytes', async () => {
    const page = visit();
    const third = 9 * Math.ceil(MOST_KEPT_BYTES / 4 / 3 / 9);
    for (let n = 0; n < 3; n++) await importing(page, meshWith(hull('a.stl', 40 + n), n, third));
    expect(await listMeshes(databases[0])).toHaveLength(2);
  });

  it('may be none: the mesh is drawn while the page lives, also after undo and redo, and that is said once', async () => {
    const full = async () => {
      const database = await opened();
      vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
        throw new DOMException('no room', 'QuotaExceededError');
      });
      return database;
    };
    const page = visit(emptyDesign(), full);
    importMesh(page, meshWith(hull('a.stl', 40), 7));
    await vi.waitFor(() => expect(page.meshes.getState().kept).toBe('refused'));
    expect(page.faults).toEqual([['full', 'a.stl']]);
    importMesh(page, meshWith(hull('b.stl', 41), 9));
    await vi.waitFor(() => expect(page.faults).toHaveLength(2));
    undo(page.design);
    await vi.waitFor(() => expect(firstDrawn(page)).toBe(7));
    expect(page.meshes.getState().kept).toBe('refused');
  });

  it('may be missing altogether, in a private window', async () => {
    const page = visit(emptyDesign(), () => Promise.reject(new Error('no storage')));
    importMesh(page, meshWith(hull('a.stl', 40), 7));
    await vi.waitFor(() => expect(page.faults).toEqual([['unavailable', 'a.stl']]));
    expect(firstDrawn(page)).toBe(7);
  });

  it('is made by dropping the other meshes when the browser itself is full', async () => {
    const page = visit();
    await importing(page, meshWith(hull('a.stl', 40), 7));
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementationOnce(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    await importing(page, meshWith(hull('b.stl', 41), 9));
    const kept = await listMeshes(databases[0]);
    expect(kept.map(({ text }) => text.split('\n')[0])).toEqual(['b.stl']);
  });
});

it('keeps nothing of the corners themselves: two meshes with one hull are one record, the later', async () => {
  const page = visit();
  const corners_mm: readonly Vec3[] = hull('a.stl', 40).corners_mm;
  importMesh(page, meshWith(hull('a.stl', 40), 7));
  await vi.waitFor(() => expect(page.meshes.getState().kept).toBe('kept'));
  const aside = corners_mm.map(([x, y, z]): Vec3 => [x + 0.1, y - 200.3, z + 12.7]);
  importMesh(page, meshWith({ corners_mm: aside, source: 'a.stl' }, 9));
  await vi.waitFor(() => expect(page.meshes.getState().kept).toBe('kept'));
  expect(await listMeshes(databases[0])).toHaveLength(1);
  const again = visit(page.design.getState().document);
  await vi.waitFor(() => expect(firstDrawn(again)).toBe(9));
});
