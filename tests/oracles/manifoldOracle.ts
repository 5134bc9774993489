/**
 * The parts of a piece by ordered booleans of manifold-3d, an independent library, as an oracle for the exact
 * solids and as the yardstick of the bench. Lathe frame, mm.
 *
 * The library takes meshes in single precision only, so nothing here goes in as a mesh: the prism is an
 * extrusion, the turned form a revolution (the library puts slice k of n at azimuth 360° · k / n), a cutter
 * the hull of eight points; all three take double precision. Its objects live outside the garbage
 * collector: every one made here is deleted here.
 */
import Module, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import { HOLE_SIDES, holeCylinder, type HoleCylinder } from '../../src/blank/holes.ts';
import { clipProfile, polylineOf, resampleProfile } from '../../src/blank/lathe.ts';
import { partName, sectionCorners } from '../../src/blank/solids.ts';
import { layerBounds_mm, slotsOf, type Slot } from '../../src/blank/slots.ts';
import { sectionGeometry } from '../../src/blank/section.ts';
import type { Design } from '../../src/design/document.ts';
import { flattenOutline } from '../../src/geometry/outline.ts';
import { cross, dot, type Vec3 } from '../../src/geometry/vector.ts';

export interface OracleOptions {
  /** Whether the piece is turned; else it is the block. */
  readonly turned: boolean;
  /** Facets of a full turn of a round surface. */
  readonly facets: number;
  /** Rows along the outline; left out: as many as its curve needs. */
  readonly rows?: number;
}

export interface OraclePart {
  readonly name: string;
  readonly volume_mm3: number;
}

let loading: Promise<ManifoldToplevel> | undefined;

/** The library, loaded and set up once. */
export async function manifoldLibrary(): Promise<ManifoldToplevel> {
  loading ??= Module().then((library) => {
    library.setup();
    return library;
  });
  return loading;
}

export interface OracleResult {
  /** Body first, then strip layers in cutting order: the names and the order of the exact solids. */
  readonly parts: readonly OraclePart[];
  readonly whole_mm3: number;
}

/** How far the oracle's own parts may be from its whole, relatively, before it is asked another way. */
const SELF_CHECK = 1e-8;

/**
 * Volume of every part. Splitting slot by slot is quick, but about one random design in three thousand, with
 * faces that coincide, loses up to 7e-5 of the whole on the way; the library's parts then do not add up to
 * its own whole, and every part is computed from clean solids instead. Throws if that does not add up either.
 */
export function oracleParts(library: ManifoldToplevel, design: Design, options: OracleOptions): OracleResult {
  const quick = splitParts(library, design, options);
  if (addsUp(quick)) return quick;
  const careful = separateParts(library, design, options);
  if (addsUp(careful)) return careful;
  throw new Error(`manifold-3d contradicts itself on ${design.name}`);
}

function addsUp({ parts, whole_mm3 }: OracleResult): boolean {
  const sum = parts.reduce((total, { volume_mm3 }) => total + volume_mm3, 0);
  return Math.abs(sum - whole_mm3) <= SELF_CHECK * whole_mm3;
}

/** From the last cut to the first: what falls in a slot is its strip's, the rest goes on to earlier cuts. */
export function splitParts(library: ManifoldToplevel, design: Design, options: OracleOptions): OracleResult {
  let rest = wholeSolid(library, design, options);
  const whole_mm3 = rest.volume();
  const parts: OraclePart[] = [];
  for (const slot of slotsOf(design).reverse()) {
    const bounds = layerBounds_mm(slot);
    for (let layer = slot.layers.length - 1; layer >= 0; layer--) {
      const cutter = cutterSolid(library, design, slot, bounds[layer], bounds[layer + 1]);
      const [inside, outside] = rest.split(cutter);
      parts.push({ name: partName(slot, layer), volume_mm3: inside.volume() });
      [cutter, inside, rest].forEach((solid) => solid.delete());
      rest = outside;
    }
  }
  parts.push({ name: partName(null, 0), volume_mm3: rest.volume() });
  rest.delete();
  return { parts: parts.reverse(), whole_mm3 };
}

/** Each part on its own: (whole ∩ layer) − union of all later slots. */
function separateParts(library: ManifoldToplevel, design: Design, options: OracleOptions): OracleResult {
  const slots = slotsOf(design);
  const whole = wholeSolid(library, design, options);
  const cutters = slots.map((slot) =>
    cutterSolid(library, design, slot, -slot.kerf_mm / 2, slot.kerf_mm / 2),
  );
  const volumeLess = (solid: Manifold, later: readonly Manifold[]): number => {
    const union = library.Manifold.union(later);
    const left = library.Manifold.difference(solid, union);
    const volume_mm3 = left.volume();
    [union, left].forEach((made) => made.delete());
    return volume_mm3;
  };
  const parts: OraclePart[] = [{ name: partName(null, 0), volume_mm3: volumeLess(whole, cutters) }];
  slots.forEach((slot, i) => {
    const bounds = layerBounds_mm(slot);
    for (let layer = 0; layer < slot.layers.length; layer++) {
      const cutter = cutterSolid(library, design, slot, bounds[layer], bounds[layer + 1]);
      const inside = library.Manifold.intersection(whole, cutter);
      parts.push({ name: partName(slot, layer), volume_mm3: volumeLess(inside, cutters.slice(i + 1)) });
      [cutter, inside].forEach((solid) => solid.delete());
    }
  });
  const whole_mm3 = whole.volume();
  [whole, ...cutters].forEach((solid) => solid.delete());
  return { parts, whole_mm3 };
}

/** The block, or outline ∩ block. The caller deletes it. */
export function wholeSolid(
  library: ManifoldToplevel,
  design: Design,
  { turned, facets, rows }: OracleOptions,
): Manifold {
  const section = sectionGeometry(design.blank.section);
  const corners = sectionCorners(section, facets).map(([x, y]): [number, number] => [x, y]);
  const prism = library.Manifold.extrude([corners], design.blank.length_mm);
  if (!turned) return checked(prism);
  if (!design.form) throw new Error('the design has no form');
  const { outline, loop = false, holes = [] } = design.form;
  const profile = clipProfile(
    rows === undefined
      ? polylineOf(flattenOutline(outline, undefined, loop), loop)
      : resampleProfile(outline, rows, loop),
    design.blank.length_mm,
    Infinity,
  );
  const polygon = Array.from(profile.z_mm, (z, i): [number, number] => [profile.r_mm[i], z]);
  const form = library.Manifold.revolve([polygon], facets);
  let piece = library.Manifold.intersection(form, prism);
  prism.delete();
  form.delete();
  for (const hole of holes) {
    const drill = drillSolid(library, design, holeCylinder(hole, design.form));
    const drilled = library.Manifold.difference(piece, drill);
    [drill, piece].forEach((solid) => solid.delete());
    piece = drilled;
  }
  return checked(piece);
}

/** A hole as the prism of the area of its circle that the faceted solids use (blank/holes.ts). */
function drillSolid(library: ManifoldToplevel, design: Design, hole: HoleCylinder): Manifold {
  const reach_mm = reachOf(design);
  const a: Vec3 = Math.abs(hole.inward[2]) > 0.5 ? [1, 0, 0] : [0, 0, 1];
  const b = cross(hole.inward, a);
  const step = (2 * Math.PI) / HOLE_SIDES;
  // Area of a regular polygon of n sides about a circle of radius R through its corners: n/2 R² sin(2π/n).
  const corner_mm = hole.radius_mm * Math.sqrt((2 * Math.PI) / (HOLE_SIDES * Math.sin(step)));
  const points: [number, number, number][] = [];
  for (const t of [-reach_mm, Math.min(hole.depth_mm, reach_mm)])
    for (let i = 0; i < HOLE_SIDES; i++) {
      const across = corner_mm * Math.cos(i * step);
      const along = corner_mm * Math.sin(i * step);
      const at = (axis: 0 | 1 | 2) =>
        hole.origin_mm[axis] + t * hole.inward[axis] + across * a[axis] + along * b[axis];
      points.push([at(0), at(1), at(2)]);
    }
  return checked(library.Manifold.hull(points));
}

/** A length that reaches past the blank from any point in it, mm. */
function reachOf({ blank }: Design): number {
  return 2 * Math.hypot(blank.length_mm, sectionGeometry(blank.section).circumscribedRadius_mm) + 10;
}

/** One layer of a slot, from f = low to f = high, reaching past the blank on every open side. The caller deletes it. */
export function cutterSolid(
  library: ManifoldToplevel,
  design: Design,
  slot: Slot,
  low_mm: number,
  high_mm: number,
): Manifold {
  const reach_mm = reachOf(design);
  const along = cross(slot.normal, slot.stopNormal);
  const points: Vec3[] = [];
  for (const f of [slot.offset_mm + low_mm, slot.offset_mm + high_mm])
    for (const stop of [-reach_mm, slot.stop_mm])
      for (const t of [-reach_mm, reach_mm])
        points.push(pointOn([slot.normal, slot.stopNormal, along], [f, stop, t]));
  return checked(library.Manifold.hull(points.map(([x, y, z]): [number, number, number] => [x, y, z])));
}

/** The point on three planes normal · p = offset (Cramer's rule). */
function pointOn([a, b, c]: readonly [Vec3, Vec3, Vec3], [da, db, dc]: readonly number[]): Vec3 {
  const bc = cross(b, c);
  const ca = cross(c, a);
  const ab = cross(a, b);
  const determinant = dot(a, bc);
  return [0, 1, 2].map((i) => (da * bc[i] + db * ca[i] + dc * ab[i]) / determinant) as unknown as Vec3;
}

function checked(solid: Manifold): Manifold {
  const status = solid.status();
  if (status !== 'NoError') throw new Error(`manifold-3d: ${status}`);
  return solid;
}
