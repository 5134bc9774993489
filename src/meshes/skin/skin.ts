/**
 * The finished workpiece as one closed skin with a place in a square picture for every point of it, so that the wood
 * can be drawn into that picture once and be seen in any viewer. Lathe frame in, drawn frame (y-up) out, mm; the
 * picture's x to the right and y down, 0…1, as glTF has it.
 */
import { blockMesh } from '../block.ts';
import { carveWorkpiece, type CutSource } from '../exact.ts';
import { checkClosed, toLathe, weldedIds, type WorkMesh } from '../mesh.ts';
import type { SweptProfile } from '../formProfile.ts';
import { breaksThrough, turnedMesh } from '../turned.ts';
import { layOut } from './atlas.ts';
import { placeTriangle, type Surfaces } from './surfaces.ts';
import { refined, SECTOR_FACETS, sweptArea_mm2, unroll } from './unroll.ts';

export interface Skin {
  readonly mesh: WorkMesh;
  /** x, y in the picture for each vertex. */
  readonly places: Float32Array;
  /** Pairs of vertices: the borders of the islands in the picture. */
  readonly borders: Uint32Array;
  readonly size_px: number;
  /** Pixels to the millimetre of wood, at least. */
  readonly texelsPerMm: number;
  readonly islands: number;
}

/** Facets of a full turn; a multiple of what the sectors need. A radius of 80 mm is off by 0.01 mm between them. */
export const SKIN_COLUMNS = 8 * SECTOR_FACETS;
/** Between two islands: four halvings of the picture and their colours do not meet. */
export const ROOM_PX = 16;

export type SkinSource = Omit<CutSource, 'columns'>;

export function skinOf(source: SkinSource, size_px: number): Skin {
  const { section, length_mm, holes } = source;
  const swept = source.profile ?? (section.round ? cylinder(section.inscribedRadius_mm, length_mm) : null);
  const side_mm = swept ? Math.sqrt(sweptArea_mm2(swept)) : 0;
  const profile = swept ? refined(swept, side_mm) : null;
  const mesh = meshOf({ ...source, profile, columns: SKIN_COLUMNS });
  const surfaces: Surfaces = {
    section,
    holes,
    turned: profile ? { profile, unrolling: unroll(profile, side_mm) } : null,
  };
  const { positions: p, indices } = mesh;
  const at = (v: number) => toLathe(p[3 * v], p[3 * v + 1], p[3 * v + 2]);
  const placed = Array.from({ length: indices.length / 3 }, (_, t) =>
    placeTriangle(surfaces, [at(indices[3 * t]), at(indices[3 * t + 1]), at(indices[3 * t + 2])]),
  );
  const atlas = layOut(placed, size_px, (ROOM_PX * size_px) / 2048);
  return { ...unfolded(mesh, atlas.places, atlas.place_px, size_px), size_px, ...numbersOf(atlas) };
}

function numbersOf({ texelsPerMm, islands }: { texelsPerMm: number; islands: number }) {
  return { texelsPerMm, islands };
}

function cylinder(radius_mm: number, length_mm: number): SweptProfile {
  return {
    z_mm: Float64Array.of(0, 0, length_mm, length_mm),
    r_mm: Float64Array.of(0, radius_mm, radius_mm, 0),
    corner: Uint8Array.of(1, 1, 1, 1),
  };
}

/** The whole piece; where something is bored or broken through, by the exact kernel. */
function meshOf(source: CutSource): WorkMesh {
  const { section, profile, holes, length_mm, columns } = source;
  const mesh =
    holes.length > 0 || breaksThrough(profile, section)
      ? carveWorkpiece(source, null, null).left
      : profile
        ? turnedMesh(profile, section, columns)
        : blockMesh(section, length_mm, columns);
  const { openEdges, triangles } = checkClosed(mesh);
  if (triangles === 0) throw new Error('nothing is left of the piece');
  if (openEdges > 0) throw new Error(`the skin of the piece has ${openEdges} open edges`);
  mendNormals(mesh);
  return mesh;
}

/** A sliver of the kernel may have no direction: its corners take that of others at their places. In place. */
function mendNormals({ positions, normals }: WorkMesh): void {
  const missing: number[] = [];
  for (let v = 0; v < normals.length / 3; v++) if (!isUnit(v)) missing.push(v);
  if (missing.length === 0) return;
  const ids = weldedIds(positions);
  const known = new Map<number, number>();
  ids.forEach((id, v) => {
    if (isUnit(v)) known.set(id, v);
  });
  for (const v of missing) {
    const other = known.get(ids[v]);
    if (other === undefined) normals.set([0, 1, 0], 3 * v);
    else normals.copyWithin(3 * v, 3 * other, 3 * other + 3);
  }

  function isUnit(v: number): boolean {
    return Math.abs(Math.hypot(normals[3 * v], normals[3 * v + 1], normals[3 * v + 2]) - 1) < 1e-3;
  }
}

/** One vertex for each vertex of the mesh and place in the picture. */
function unfolded(
  mesh: WorkMesh,
  places: Uint32Array,
  place_px: Float64Array,
  size_px: number,
): Pick<Skin, 'mesh' | 'places' | 'borders'> {
  const vertices = mesh.radii.length;
  const known = new Map<number, number>();
  const sources: number[] = [];
  const spots: number[] = [];
  const indices = mesh.indices.map((vertex, corner) => {
    const key = places[corner] * vertices + vertex;
    let made = known.get(key);
    if (made === undefined) {
      made = sources.length;
      known.set(key, made);
      sources.push(vertex);
      spots.push(places[corner]);
    }
    return made;
  });
  const taken = (from: Float32Array, size: number): Float32Array => {
    const out = new Float32Array(size * sources.length);
    sources.forEach((vertex, i) => {
      for (let k = 0; k < size; k++) out[size * i + k] = from[size * vertex + k];
    });
    return out;
  };
  const spotsOf = new Float32Array(2 * spots.length);
  spots.forEach((place, i) => {
    spotsOf[2 * i] = place_px[2 * place] / size_px;
    spotsOf[2 * i + 1] = place_px[2 * place + 1] / size_px;
  });
  return {
    mesh: {
      positions: taken(mesh.positions, 3),
      normals: taken(mesh.normals, 3),
      radii: taken(mesh.radii, 1),
      openness: taken(mesh.openness, 1),
      indices,
    },
    places: spotsOf,
    borders: bordersOf(indices, places, place_px.length / 2),
  };
}

/** Edges that only one triangle of the picture has. */
function bordersOf(indices: Uint32Array, places: Uint32Array, count: number): Uint32Array {
  const edges = new Map<number, readonly [number, number] | null>();
  for (let t = 0; t < indices.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const from = t + k;
      const to = t + ((k + 1) % 3);
      const key = Math.min(places[from], places[to]) * count + Math.max(places[from], places[to]);
      edges.set(key, edges.has(key) ? null : [indices[from], indices[to]]);
    }
  return Uint32Array.from([...edges.values()].filter((edge) => edge !== null).flat());
}
