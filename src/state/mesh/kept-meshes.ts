import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { z } from '../../document/zod.ts';
import { openInTime } from '../kept/browser-store.ts';
import type { HullIdentity } from './hull-identity.ts';
import { MOST_TRIANGLES } from './mesh-faults.ts';
import type { PayloadMesh } from './payload-mesh-store.ts';

/** What is known of a kept mesh without reading its triangles. */
export interface KeptEntry extends HullIdentity {
  /** When it was written or drawn last: milliseconds since 1970. */
  readonly usedAt: number;
  readonly bytes: number;
  readonly solid: PayloadMesh['solid'];
}

interface KeptSchema extends DBSchema {
  entries: { key: string; value: unknown };
  triangles: { key: string; value: unknown };
}

export type KeptMeshes = IDBPDatabase<KeptSchema>;

const DATABASE_NAME = 'legroom-meshes';

/** Meshes that are kept, and bytes of their triangles in all: the one that was used longest ago goes first. */
export const MOST_KEPT_MESHES = 12;
export const MOST_KEPT_BYTES = 64 * 2 ** 20;

/** Opens, or makes, the store of meshes; rejects where the browser allows none. */
export const openKeptMeshes = (): Promise<KeptMeshes> =>
  openInTime(() =>
    openDB<KeptSchema>(DATABASE_NAME, 1, {
      upgrade(database) {
        database.createObjectStore('entries');
        database.createObjectStore('triangles');
      },
    }),
  );

const entrySchema = z.object({
  key: z.string(),
  text: z.string(),
  usedAt: z.number(),
  bytes: z.number(),
  solid: z
    .object({
      volume: z.number(),
      centroid: z.tuple([z.number(), z.number(), z.number()]),
      second: z.tuple([z.number(), z.number(), z.number(), z.number(), z.number(), z.number()]).exactOptional(),
    })
    .nullable(),
});

/** All that is kept, used last first; what another version of the program wrote is left out. */
export async function listMeshes(database: KeptMeshes): Promise<readonly KeptEntry[]> {
  const found = await database.getAll('entries');
  return found
    .flatMap((value) => {
      const entry = entrySchema.safeParse(value);
      return entry.success ? [entry.data] : [];
    })
    .sort((a, b) => b.usedAt - a.usedAt);
}

/** Keeps a mesh, all or nothing of it; the ones used longest ago make room, all others where the browser itself has none left. */
export async function writeMesh(
  database: KeptMeshes,
  identity: HullIdentity,
  { triangles, solid }: PayloadMesh,
): Promise<void> {
  const entry: KeptEntry = { ...identity, usedAt: Date.now(), bytes: triangles.byteLength, solid };
  const others = (await listMeshes(database)).filter(({ key }) => key !== entry.key);
  try {
    await replace(database, beyondLimits(others, entry.bytes), entry, triangles);
  } catch (thrown) {
    if (!isFull(thrown) || others.length === 0) throw thrown;
    await replace(database, others, null, triangles);
    await replace(database, [], entry, triangles);
  }
}

/** Whether the browser refused for want of room. */
export const isFull = (thrown: unknown): boolean =>
  thrown instanceof DOMException && thrown.name === 'QuotaExceededError';

function beyondLimits(others: readonly KeptEntry[], added: number): readonly KeptEntry[] {
  let bytes = added;
  return others.filter((entry, n) => {
    bytes += entry.bytes;
    return n >= MOST_KEPT_MESHES - 1 || bytes > MOST_KEPT_BYTES;
  });
}

async function replace(
  database: KeptMeshes,
  dropped: readonly KeptEntry[],
  entry: KeptEntry | null,
  triangles: Float32Array,
): Promise<void> {
  const transaction = database.transaction(['entries', 'triangles'], 'readwrite');
  const [entries, meshes] = [transaction.objectStore('entries'), transaction.objectStore('triangles')];
  try {
    await Promise.all([
      ...dropped.flatMap(({ key }) => [entries.delete(key), meshes.delete(key)]),
      ...(entry ? [entries.put(entry, entry.key), meshes.put(triangles, entry.key)] : []),
      transaction.done,
    ]);
  } catch (thrown) {
    // the requests only say that they were given up; the transaction says why
    throw transaction.error ?? thrown;
  }
}

/** The mesh of a hull, if it is kept and sound; it then counts as used now. */
export async function readMeshOf(
  database: KeptMeshes,
  { key, text }: HullIdentity,
): Promise<Pick<PayloadMesh, 'triangles' | 'solid'> | null> {
  const [found, triangles] = await Promise.all([database.get('entries', key), database.get('triangles', key)]);
  const entry = entrySchema.safeParse(found);
  if (!entry.success || entry.data.text !== text || !isSound(triangles)) return null;
  await database.put('entries', { ...entry.data, usedAt: Date.now() }, key);
  return { triangles, solid: entry.data.solid };
}

const isSound = (triangles: unknown): triangles is Float32Array =>
  triangles instanceof Float32Array &&
  triangles.length > 0 &&
  triangles.length % 9 === 0 &&
  triangles.length <= 9 * MOST_TRIANGLES &&
  triangles.every(Number.isFinite);
