import { expose, transfer } from 'comlink';
import { readMesh } from './read-mesh.ts';

const jobs = {
  async read(source: string, bytes: Uint8Array, onShare: (share: number) => void) {
    const result = await readMesh(source, bytes, onShare);
    return result.ok ? transfer(result, [result.value.triangles.buffer]) : result;
  },
};

export type MeshJobs = typeof jobs;

expose(jobs);
