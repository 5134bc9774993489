/**
 * What the graphics card holds, let go. A lost context takes everything on the card with it; three would still free the old
 * buffers in the new context when the piece changes. Told of the loss, it makes each anew at the next frame instead.
 */
import { Mesh, ShaderMaterial, Texture, type Object3D } from 'three';
import type { Uniforms } from './material.ts';

/** Geometries, materials and textures of all that hangs under an object. */
export function forgetUnder(root: Object3D): void {
  root.traverse((object) => {
    if (!(object instanceof Mesh)) return;
    const mesh = object as Mesh;
    mesh.geometry.dispose();
    if (!(mesh.material instanceof ShaderMaterial)) return;
    mesh.material.dispose();
    forgetTextures(mesh.material.uniforms);
  });
}

export function forgetTextures(uniforms: Uniforms): void {
  for (const { value } of Object.values(uniforms)) if (value instanceof Texture) value.dispose();
}
