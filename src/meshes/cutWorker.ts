/** The worker that takes regions out of workpieces. */
import { expose, transfer } from 'comlink';
import { cutOut, type CutAnswer, type CutRequest } from './cut.ts';

const api = {
  cutOut(request: CutRequest): CutAnswer {
    const answer = cutOut(request);
    const { positions, normals, radii, openness, indices } = answer.left;
    const buffers = [positions, normals, radii, openness, indices].map(
      (array) => array.buffer as ArrayBuffer,
    );
    return transfer(answer, buffers);
  },
};

export type CutWorkerApi = typeof api;

expose(api);
