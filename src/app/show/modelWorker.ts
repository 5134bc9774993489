/** The worker that makes the solids and the skin of a design for its 3D files. */
import { expose, transfer } from 'comlink';
import type { Design } from '../../design/document.ts';
import { modelFile, type ModelRequest, type ModelResult } from '../../files/model.ts';
import { skinOf, type Skin } from '../../meshes/skin/skin.ts';
import { FINISHED, shapeAt } from '../../stage/shape.ts';

const api = {
  skin(design: Design, size_px: number): Skin {
    const { section, profile, holes } = shapeAt(design, FINISHED);
    const skin = skinOf({ section, length_mm: design.blank.length_mm, profile, holes }, size_px);
    const { positions, normals, radii, openness, indices } = skin.mesh;
    return transfer(
      skin,
      [positions, normals, radii, openness, indices, skin.places, skin.borders].map((array) => array.buffer),
    );
  },
  model(design: Design, request: ModelRequest): ModelResult {
    return modelFile(design, request);
  },
};

export type ModelWorkerApi = typeof api;

expose(api);
