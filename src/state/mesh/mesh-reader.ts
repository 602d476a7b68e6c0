import { proxy, transfer, wrap } from 'comlink';
import { failed, type Result } from '../../math/result.ts';
import type { MeshJobs } from './mesh.worker.ts';
import { type MeshFault, meshFault, meshSizeFault } from './mesh-faults.ts';
import type { ReadMesh } from './read-mesh.ts';

/** Longest that a mesh is read for [ms]: some ten times what the largest one takes. */
const PATIENCE = 60_000;

/**
 * Reads a chosen mesh file in a worker of its own, which ends with it, or at once when the reading is given up. Its size is looked at
 * before anything is read.
 * @param onShare is told how much of it is done, 0 to 1
 */
export async function readMeshFile(
  file: File,
  givenUp: AbortSignal,
  onShare: (share: number) => void,
): Promise<Result<ReadMesh, MeshFault>> {
  const tooLarge = meshSizeFault(file.name, file.size);
  if (tooLarge) return failed(tooLarge);
  let worker: Worker | null = null;
  try {
    worker = new Worker(new URL('./mesh.worker.ts', import.meta.url), { type: 'module', name: 'mesh' });
    const bytes = new Uint8Array(await file.arrayBuffer());
    const remote = wrap<MeshJobs>(worker);
    return await Promise.race([
      remote.read(file.name, transfer(bytes, [bytes.buffer]), proxy(onShare)),
      ended(worker, file.name, givenUp),
    ]);
  } catch {
    return failed(unreadable(file.name));
  } finally {
    worker?.terminate();
  }
}

const unreadable = (fileName: string): MeshFault =>
  meshFault('notText', fileName, 'impossible to read', 'a readable STL, GLB or glTF file', 'Export it again.');

const tooSlow = (fileName: string): MeshFault =>
  meshFault(
    'tooLarge',
    fileName,
    `still being read after ${PATIENCE / 1000} s`,
    'read within that time',
    'Export it with fewer triangles, or give a box or cylinder instead.',
  );

/** Settles when the worker dies, takes too long, or is not wanted any more. */
const ended = (worker: Worker, fileName: string, givenUp: AbortSignal): Promise<Result<never, MeshFault>> =>
  new Promise((resolve) => {
    const stop = (event: Event) => {
      event.preventDefault();
      resolve(failed(unreadable(fileName)));
    };
    worker.addEventListener('error', stop);
    givenUp.addEventListener('abort', stop);
    setTimeout(() => resolve(failed(tooSlow(fileName))), PATIENCE);
  });
