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
  /** The form's holes are drilled. */
  readonly drilled: boolean;
  readonly columns: number;
}

export interface PartMesh {
  readonly name: string;
  /** null: the blank's own timber. */
  readonly slot: SlotId | null;
  readonly layer: number;
  readonly mesh: WorkMesh;
}

export function partMeshes({ design, filled, profile, drilled, columns }: PartsRequest): PartMesh[] {
  const options = { filled, facets: columns };
  const parts = profile
    ? turnedParts(asTurned(design, profile, drilled), options)
    : blockParts(design, options);
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
function asTurned(design: Design, profile: SweptProfile, drilled: boolean): Design {
  const { z_mm: z, r_mm: r } = profile;
  const last = z.length - 1;
  const loop = r[0] > 0 && z[0] === z[last] && r[0] === r[last];
  const outline = Array.from({ length: loop ? last : last + 1 }, (_, i) => ({ z_mm: z[i], r_mm: r[i] }));
  return { ...design, form: { outline, loop, holes: drilled ? design.form?.holes : [] } };
}
