/** The worker that takes regions out of workpieces and makes the meshes of their parts. */
import { expose, transfer } from 'comlink';
import { cutOut, type CutAnswer, type CutRequest } from './cut.ts';
import type { WorkMesh } from './mesh.ts';
import { partMeshes, type PartMesh, type PartsRequest } from './parts.ts';

const api = {
  async cutOut(request: CutRequest): Promise<CutAnswer> {
    const answer = await cutOut(request);
    return transfer(answer, buffersOf(answer.left));
  },
  partMeshes(request: PartsRequest): PartMesh[] {
    const parts = partMeshes(request);
    return transfer(
      parts,
      parts.flatMap((part) => buffersOf(part.mesh)),
    );
  },
};

function buffersOf({ positions, normals, radii, openness, indices }: WorkMesh): ArrayBuffer[] {
  return [positions, normals, radii, openness, indices].map((array) => array.buffer as ArrayBuffer);
}

export type MeshWorkerApi = typeof api;

expose(api);
