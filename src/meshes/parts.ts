/** The parts of a piece as drawn meshes: for parts pulled apart and strips seen inside the wood. Runs in the worker. */
import { blockParts, turnedParts } from '../blank/solids.ts';
import type { Design, SlotId } from '../design/document.ts';
import { dressSolid } from './dress.ts';
import type { SweptProfile } from './formProfile.ts';
import type { WorkMesh } from './mesh.ts';
import { profileOpenness } from './occlusion.ts';

export interface PartsRequest {
  readonly design: Design;
  /** Strips glued in. */
  readonly filled: number;
  /** The half-section as turned so far; null: the block. */
  readonly profile: SweptProfile | null;
  readonly columns: number;
}

export interface PartMesh {
  readonly name: string;
  /** null: the blank's own timber. */
  readonly slot: SlotId | null;
  readonly layer: number;
  readonly mesh: WorkMesh;
}

export function partMeshes({ design, filled, profile, columns }: PartsRequest): PartMesh[] {
  const options = { filled, facets: columns };
  const parts = profile ? turnedParts(asTurned(design, profile), options) : blockParts(design, options);
  const openness = profile ? profileOpenness(profile) : null;
  return parts
    .filter((part) => part.triangles.length > 0)
    .map(({ name, slot, layer, positions_mm, triangles }) => ({
      name,
      slot,
      layer,
      mesh: dressSolid(positions_mm, triangles, profile, openness),
    }));
}

/** The design with the half-section of the moment for its form; every vertex of it is a corner, so it stays as it is. */
function asTurned(design: Design, profile: SweptProfile): Design {
  const outline = Array.from(profile.z_mm, (z_mm, i) => ({ z_mm, r_mm: profile.r_mm[i] }));
  return { ...design, form: { outline } };
}
