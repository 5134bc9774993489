/**
 * The exact kernel's answer where the boolean library's result does not pass: the same workpiece and region carved
 * in double precision (geometry/carve.ts), then dressed for drawing. Slower than the library on turned forms, and
 * always closed. Lathe frame in, drawn frame out, mm.
 */
import { sectionCorners } from '../blank/solids.ts';
import type { SectionGeometry } from '../blank/section.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { carve } from '../geometry/carve.ts';
import { extractSolids, type Solid } from '../geometry/extract.ts';
import { latheComplex, prismComplex, VOID, type FaceComplex } from '../geometry/faceComplex.ts';
import type { Plane } from '../geometry/plane.ts';
import type { HoleCylinder } from '../blank/holes.ts';
import { dressSolid, smoothHoles } from './dress.ts';
import { reachesPast } from './turned.ts';
import type { SweptProfile } from './formProfile.ts';
import type { WorkMesh } from './mesh.ts';

export interface CutSource {
  readonly section: SectionGeometry;
  readonly length_mm: number;
  /** null: the sawn block. */
  readonly profile: SweptProfile | null;
  /** Facets of a full turn. */
  readonly columns: number;
  /** Drilled holes. */
  readonly holes: readonly Drilled[];
}

export interface Drilled {
  /** The hole as half-spaces, for the kernel and the boolean library. */
  readonly region: readonly Plane[];
  /** The hole as it is, for the smooth look of its wall. */
  readonly cylinder: HoleCylinder;
}

export interface ExactCut {
  readonly left: WorkMesh;
  readonly taken: WorkMesh;
  readonly leftVolume_mm3: number;
  readonly takenVolume_mm3: number;
}

const LEFT = 0;
const TAKEN = 1;

/** The workpiece, holes drilled, less a convex region (null: none), and what the region took. */
export function carveWorkpiece(
  source: CutSource,
  region: readonly Plane[] | null,
  openness: Float64Array | null,
): ExactCut {
  const complex = workpieceComplex(source);
  for (const hole of source.holes) carve(complex, [...hole.region], VOID, tolerance_mm(source));
  if (region) carve(complex, [...region], TAKEN, tolerance_mm(source));
  const [left, taken] = extractSolids(complex, 2, (owner) => owner);
  return {
    left: dressed(left, source, openness),
    taken: dressed(taken, source, openness),
    leftVolume_mm3: left.volume,
    takenVolume_mm3: taken.volume,
  };
}

function tolerance_mm(source: CutSource): number {
  return 1e-9 * Math.max(source.length_mm, source.section.circumscribedRadius_mm, 1);
}

function workpieceComplex({ section, length_mm, profile, columns }: CutSource): FaceComplex {
  if (!profile) return prismComplex(sectionCorners(section, columns), 0, length_mm, LEFT);
  const n = profile.z_mm.length;
  const loop =
    profile.r_mm[0] > 0 && profile.r_mm[0] === profile.r_mm[n - 1] && profile.z_mm[0] === profile.z_mm[n - 1];
  const end = loop ? n - 1 : n;
  const complex = latheComplex(
    profile.z_mm.subarray(0, end),
    profile.r_mm.subarray(0, end),
    columns,
    LEFT,
    loop,
  );
  if (!reachesPast(profile, section)) return complex;
  section.faceAzimuths_deg.forEach((azimuth, i) => {
    const inward = [-cosDeg(azimuth), -sinDeg(azimuth), 0] as const;
    carve(complex, [{ normal: inward, offset_mm: -section.faceDistances_mm[i] }], VOID, 1e-9 * length_mm);
  });
  return complex;
}

function dressed(solid: Solid, source: CutSource, openness: Float64Array | null): WorkMesh {
  const profile = source.profile ?? (source.section.round ? roundProfile(source) : null);
  const mesh = dressSolid(solid.positions, solid.triangles, profile, source.profile ? openness : null);
  return smoothHoles(mesh, source.holes);
}

function roundProfile({ section, length_mm }: CutSource): SweptProfile {
  const r = section.inscribedRadius_mm;
  return {
    z_mm: Float64Array.of(0, 0, length_mm, length_mm),
    r_mm: Float64Array.of(0, r, r, 0),
    corner: Uint8Array.of(1, 1, 1, 1),
  };
}
