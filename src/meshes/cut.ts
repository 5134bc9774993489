/**
 * The workpiece with a convex region taken out, ready to be shown: one boolean, its check, and the exact kernel's
 * solid where the check fails. Runs in the worker; a plain function, so that tests run it too.
 */
import type { Plane } from '../geometry/plane.ts';
import { blockMesh } from './block.ts';
import { convexMesh } from './convex.ts';
import { regionSolid } from './cutters.ts';
import { smoothHoles } from './dress.ts';
import { carveWorkpiece, type CutSource } from './exact.ts';
import { checkClosed, meshVolume_mm3, type WorkMesh } from './mesh.ts';
import { profileOpenness } from './occlusion.ts';
import { breaksThrough, turnedMesh } from './turned.ts';

export interface CutRequest {
  readonly source: CutSource;
  /** Half-spaces of the region; what lies in all of them is taken out. null: only the holes are. */
  readonly region: readonly Plane[] | null;
}

export interface CutAnswer {
  readonly left: WorkMesh;
  /** What was taken by the region, or by the hole where there is no region, mm³. */
  readonly taken_mm3: number;
  readonly left_mm3: number;
  /** `whole`: nothing was taken. */
  readonly method: 'boolean' | 'exact' | 'whole';
  /** Why a boolean's result was not used; null when it was, or when none was tried. */
  readonly fault: string | null;
}

/**
 * Takes a region, or a drilled hole, out of a workpiece. One cutter is one boolean; several, and forms whose inside
 * breaks through the blank's flats, are not clean solids for the library any more and go to the exact kernel.
 */
export async function cutOut({ source, region }: CutRequest): Promise<CutAnswer> {
  const openness = source.profile ? profileOpenness(source.profile) : null;
  const cutters = [...source.holes.map((hole) => hole.region), ...(region ? [region] : [])];
  if (cutters.length > 1 || breaksThrough(source.profile, source.section))
    return exactly({ source, region }, openness, null);
  const workpiece = source.profile
    ? turnedMesh(source.profile, source.section, source.columns, openness ?? undefined)
    : blockMesh(source.section, source.length_mm, source.columns);
  const cutter =
    cutters.length === 0
      ? null
      : regionSolid(cutters[0], source.section.circumscribedRadius_mm, source.length_mm);
  if (!cutter)
    return {
      left: workpiece,
      left_mm3: meshVolume_mm3(workpiece),
      taken_mm3: 0,
      method: 'whole',
      fault: null,
    };
  // The library is the larger part of the worker: it is loaded with the first cut.
  const { cutWorkpiece } = await import('./boolean.ts');
  const result = cutWorkpiece(workpiece, convexMesh(cutter));
  if (result.fault) return exactly({ source, region }, openness, result.fault);
  return {
    left: smoothHoles(result.left, source.holes),
    left_mm3: meshVolume_mm3(result.left),
    taken_mm3: meshVolume_mm3(result.taken),
    method: 'boolean',
    fault: null,
  };
}

function exactly(
  { source, region }: CutRequest,
  openness: Float64Array | null,
  fault: string | null,
): CutAnswer {
  const exact = carveWorkpiece(source, region, openness);
  const { openEdges } = checkClosed(exact.left);
  if (openEdges > 0) throw new Error(`the exact kernel left ${openEdges} open edges`);
  return {
    left: exact.left,
    left_mm3: exact.leftVolume_mm3,
    taken_mm3: exact.takenVolume_mm3,
    method: 'exact',
    fault,
  };
}
