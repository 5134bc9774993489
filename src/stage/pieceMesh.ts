/** One drawn mesh of a variant: its geometry, its paint, and the stand-in that casts its shadow. */
import { BufferAttribute, BufferGeometry, Mesh, type ShaderMaterial } from 'three';
import type { WorkMesh } from '../meshes/mesh.ts';
import { depthMaterial, workpieceMaterial, type OwnUniforms, type Uniforms } from './material.ts';

/** Overlays and see-through meshes cast no shadow; they are on a layer that the light does not look at. */
export const UNSHADED_LAYER = 1;

export class PieceMesh {
  readonly object: Mesh<BufferGeometry, ShaderMaterial>;
  readonly paint: ShaderMaterial;
  private readonly depth: ShaderMaterial;
  /** The arrays now in the geometry; null: empty. */
  source: WorkMesh | null = null;
  private full = new BufferGeometry();
  private coarse: BufferGeometry | null = null;

  constructor(variant: Uniforms, own: OwnUniforms = {}) {
    this.paint = workpieceMaterial(variant, own);
    this.depth = depthMaterial(variant, own);
    this.object = new Mesh(this.full, this.paint);
    this.object.visible = false;
    if ((own.opacity ?? 1) < 1) this.object.layers.set(UNSHADED_LAYER);
  }

  show(mesh: WorkMesh | null): void {
    if (mesh === this.source) return;
    this.source = mesh;
    this.full.dispose();
    this.coarse?.dispose();
    this.coarse = null;
    this.full = geometryOf(mesh);
    this.object.geometry = this.full;
    this.object.visible = mesh !== null && mesh.indices.length > 0;
  }

  /** For a frame while something moves: fewer facets, where there is a coarser mesh. */
  detail(coarse: boolean, make: () => WorkMesh | null): void {
    if (coarse && !this.coarse) {
      const mesh = make();
      if (mesh) this.coarse = geometryOf(mesh);
    }
    this.object.geometry = coarse && this.coarse ? this.coarse : this.full;
  }

  castShadow(casting: boolean): void {
    this.object.material = casting ? this.depth : this.paint;
  }

  dispose(): void {
    this.full.dispose();
    this.coarse?.dispose();
    this.paint.dispose();
    this.depth.dispose();
  }
}

function geometryOf(mesh: WorkMesh | null): BufferGeometry {
  const geometry = new BufferGeometry();
  if (!mesh) return geometry;
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(mesh.normals, 3));
  geometry.setAttribute('radius', new BufferAttribute(mesh.radii, 1));
  geometry.setAttribute('openness', new BufferAttribute(mesh.openness, 1));
  geometry.setIndex(new BufferAttribute(mesh.indices, 1));
  geometry.computeBoundingSphere();
  return geometry;
}
