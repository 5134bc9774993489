/**
 * The workpiece with a convex region taken out, ready to be shown: one boolean, its check, and the exact kernel's
 * solid where the check fails. Runs in the worker; a plain function, so that tests run it too.
 */
import type { Plane } from '../geometry/plane.ts';
import { blockMesh } from './block.ts';
import { cutWorkpiece } from './boolean.ts';
import { convexMesh } from './convex.ts';
import { regionSolid } from './cutters.ts';
import { carveWorkpiece, type CutSource } from './exact.ts';
import { checkClosed, meshVolume_mm3, type WorkMesh } from './mesh.ts';
import { profileOpenness } from './occlusion.ts';
import { turnedMesh } from './turned.ts';

export interface CutRequest {
  readonly source: CutSource;
  /** Half-spaces of the region; what lies in all of them is taken out. */
  readonly region: readonly Plane[];
}

export interface CutAnswer {
  readonly left: WorkMesh;
  /** What was taken, mm³. */
  readonly taken_mm3: number;
  readonly left_mm3: number;
  /** `whole`: the region misses the workpiece. */
  readonly method: 'boolean' | 'exact' | 'whole';
  /** Why the boolean's result was not used; null when it was. */
  readonly fault: string | null;
}

/** Takes a region out of a workpiece. */
export function cutOut({ source, region }: CutRequest): CutAnswer {
  const openness = source.profile ? profileOpenness(source.profile) : null;
  const workpiece = source.profile
    ? turnedMesh(source.profile, source.section, source.columns, openness ?? undefined)
    : blockMesh(source.section, source.length_mm, source.columns);
  const whole_mm3 = meshVolume_mm3(workpiece);
  const cutter = regionSolid(region, source.section.circumscribedRadius_mm, source.length_mm);
  if (!cutter) return { left: workpiece, left_mm3: whole_mm3, taken_mm3: 0, method: 'whole', fault: null };
  const result = cutWorkpiece(workpiece, convexMesh(cutter));
  if (!result.fault) {
    const left_mm3 = meshVolume_mm3(result.left);
    return {
      left: result.left,
      left_mm3,
      taken_mm3: meshVolume_mm3(result.taken),
      method: 'boolean',
      fault: null,
    };
  }
  const exact = carveWorkpiece(source, region, openness);
  const { openEdges } = checkClosed(exact.left);
  if (openEdges > 0) throw new Error(`the exact kernel left ${openEdges} open edges`);
  return {
    left: exact.left,
    left_mm3: exact.leftVolume_mm3,
    taken_mm3: exact.takenVolume_mm3,
    method: 'exact',
    fault: result.fault,
  };
}
