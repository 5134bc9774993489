/**
 * Volumes of the ideal parts: strips and body of the sawn and glued blank, and of the turned form ∩ blank
 * (docs/geometry.md, "Measures"). Nothing is faceted beyond the outline's polyline. Lathe frame, mm.
 *
 * The blank less the later slots, within a strip's own slot, is a set of convex polyhedra (geometry/
 * convexSolids.ts): in a blank with flats their volumes are the answer, to rounding. In a solid of revolution
 * those that its surface cannot reach count whole or not at all; the others are integrated across the kerf,
 * between their corners, over plane sections that are exact (geometry/revolution.ts), by Fejér's nested rule.
 * The whole is a sum of frusta, exact where circles do not meet flats; the body is the rest of it.
 */
import {
  boxSolid,
  isBeyond,
  levelsOf,
  ON_PLANE_MM,
  sidesAt,
  solidVolume,
  splitSolid,
  withoutPiece,
  type ConvexSolid,
  type Side,
} from '../geometry/convexSolids.ts';
import { prismVolumeUnder, type Prism } from '../geometry/discPolygon.ts';
import { halfSpace, type HalfSpace } from '../geometry/halfspace.ts';
import type { Profile } from '../geometry/outline.ts';
import { integrateNested } from '../geometry/quadrature.ts';
import {
  radiiBetween,
  revolutionOf,
  sectionUnder,
  type Revolution,
  type Stretch,
} from '../geometry/revolution.ts';
import { dot, scale } from '../geometry/vector.ts';
import type { SectionGeometry } from './section.ts';
import { slotSpaces, type SlotSpaces } from './slotSpaces.ts';
import type { Slot } from './slots.ts';

export interface PartVolumes {
  /** The whole piece, the sum of all parts. */
  readonly volume_mm3: number;
  readonly body_mm3: number;
  /** One per slot, in cutting order. */
  readonly strips_mm3: Float64Array;
  /** Estimated bound on the error of any one strip. */
  readonly error_mm3: number;
}

/** What the strips are measured in. */
interface Piece {
  readonly volume_mm3: number;
  /** The form, or the blank itself where it is round; null: the prism alone. */
  readonly solid: Revolution | null;
  readonly zLow_mm: number;
  readonly zHigh_mm: number;
  /** No point of the piece is farther from the axis. */
  readonly reach_mm: number;
  readonly flats: readonly HalfSpace[];
  /** Edges of the solid, [radius, z]. */
  readonly circles: readonly (readonly [r: number, z: number])[];
}

export function blockVolumes(
  slots: readonly Slot[],
  section: SectionGeometry,
  length_mm: number,
): PartVolumes {
  const radius = section.circumscribedRadius_mm;
  return partVolumes(slots, {
    volume_mm3: section.area_mm2 * length_mm,
    solid: section.round ? revolutionOf([0, 0, length_mm, length_mm], [0, radius, radius, 0]) : null,
    zLow_mm: 0,
    zHigh_mm: length_mm,
    reach_mm: radius,
    flats: flatsOf(section),
    circles: section.round ? [0, length_mm].map((z) => [radius, z] as const) : [],
  });
}

/** Volumes of the outline's solid ∩ the blank (z in 0 … length). */
export function turnedVolumes(
  slots: readonly Slot[],
  profile: Profile,
  section: SectionGeometry,
  length_mm: number,
): PartVolumes {
  const { z_mm, r_mm, corner } = profile;
  const prism: Prism = {
    corners: section.corners_mm,
    faceDistances: section.faceDistances_mm,
    inscribed: section.inscribedRadius_mm,
    circumscribed: section.circumscribedRadius_mm,
    zLow: 0,
    zHigh: length_mm,
  };
  let volume_mm3 = 0;
  for (let i = 0; i + 1 < z_mm.length; i++)
    volume_mm3 += prismVolumeUnder(z_mm[i], r_mm[i], z_mm[i + 1], r_mm[i + 1], prism);
  const solid = revolutionOf(z_mm, r_mm, section.circumscribedRadius_mm);
  const past = solid.rMost > section.inscribedRadius_mm;
  const circles: [number, number][] = [];
  corner.forEach((isCorner, i) => {
    if (isCorner) circles.push([Math.min(r_mm[i], section.circumscribedRadius_mm), z_mm[i]]);
  });
  return partVolumes(slots, {
    volume_mm3,
    solid,
    zLow_mm: Math.max(0, solid.zLow),
    zHigh_mm: Math.min(length_mm, solid.zHigh),
    reach_mm: solid.rMost,
    flats: past ? flatsOf(section) : [],
    circles,
  });
}

function flatsOf(section: SectionGeometry): HalfSpace[] {
  return section.corners_mm.map(([x, y], i) => {
    // Corner i lies between face i and face i + 1, so face i runs from corner i − 1 to corner i.
    const [fromX, fromY] = section.corners_mm.at(i - 1) as readonly [number, number];
    const length = Math.hypot(x - fromX, y - fromY);
    return halfSpace([(y - fromY) / length, (fromX - x) / length, 0], section.faceDistances_mm[i]);
  });
}

function partVolumes(slots: readonly Slot[], piece: Piece): PartVolumes {
  const spaces = slots.map(slotSpaces);
  let error_mm3 = 0;
  let body_mm3 = piece.volume_mm3;
  const strips_mm3 = Float64Array.from(slots, (slot, i) => {
    const { value, error } = stripVolume(slot, spaces[i], spaces.slice(i + 1), piece);
    error_mm3 = Math.max(error_mm3, error);
    body_mm3 -= value;
    return value;
  });
  return { volume_mm3: piece.volume_mm3, body_mm3, strips_mm3, error_mm3 };
}

/** Of the volume that a full slot through the middle of the piece has: the error at which the rule may stop. */
const SETTLED = 1e-6;

function stripVolume(
  slot: Slot,
  own: SlotSpaces,
  later: readonly SlotSpaces[],
  piece: Piece,
): { value: number; error: number } {
  const frame = frameOf(slot);
  const solids = visibleSolids(slot, frame, own, later, piece);
  if (!piece.solid) return { value: solids.reduce((sum, solid) => sum + solidVolume(solid), 0), error: 0 };
  const meanSection = piece.volume_mm3 / (piece.zHigh_mm - piece.zLow_mm) / frame.across;
  const tolerance = SETTLED * meanSection;
  const kinks = kinksOf(slot, piece);
  let value = 0;
  let error = 0;
  for (const solid of solids)
    for (const stretch of piece.solid.stretches) {
      const part = volumeUnder(stretch, solid, frame, kinks, tolerance);
      value += stretch.sign * part.value;
      error += part.error;
    }
  return { value, error };
}

/** Axes of a slot: s up the slope (toward the fence), v along the blade, f across the kerf. */
interface Frame {
  readonly across: number;
  readonly rise: number;
  readonly z0: number;
}

function frameOf(slot: Slot): Frame {
  const across = slot.normal[2];
  return { across, rise: -dot(slot.normal, slot.fenceDirection), z0: slot.offset_mm / across };
}

/** What the later slots leave of the slot, in its own axes (s, v, f). */
function visibleSolids(
  slot: Slot,
  { across, rise, z0 }: Frame,
  own: SlotSpaces,
  later: readonly SlotSpaces[],
  piece: Piece,
): readonly ConvexSolid[] {
  const sideOf = (space: HalfSpace): Side => {
    const nu = space.nx * slot.fenceDirection[0] + space.ny * slot.fenceDirection[1];
    return {
      a: nu * across + space.nz * rise,
      b: space.nx * slot.bladeDirection[0] + space.ny * slot.bladeDirection[1],
      c: space.nz * across - nu * rise,
      d: space.c_mm - space.nz * z0,
    };
  };
  const reach = piece.reach_mm;
  const low = rise * (piece.zLow_mm - z0);
  const high = rise * (piece.zHigh_mm - z0);
  const box = boxSolid(
    [Math.min(low, high) - across * reach, -reach, -slot.kerf_mm / 2],
    [Math.max(low, high) + across * reach, reach, slot.kerf_mm / 2],
  );
  const ends = [halfSpace([0, 0, 1], piece.zHigh_mm), halfSpace([0, 0, -1], -piece.zLow_mm)];
  const sides = [
    halfSpace(slot.fenceDirection, reach),
    halfSpace(scale(slot.fenceDirection, -1), reach),
    ...piece.flats,
  ];
  let whole: ConvexSolid | null = box;
  for (const space of [...ends, ...sides, own[2]]) {
    whole = splitSolid(whole, sideOf(space)).inside;
    if (!whole) return [];
  }
  let solids = [whole];
  for (const spaces of later) {
    const lines = spaces.map(sideOf);
    const region = whole;
    if (!lines.some((line) => isBeyond(region, line))) solids = withoutPiece(solids, lines);
    if (solids.length === 0) break;
  }
  return solids;
}

/** Volume that a convex solid has in common with what lies between a stretch of the outline and the axis. */
function volumeUnder(
  stretch: Stretch,
  solid: ConvexSolid,
  { across, rise, z0 }: Frame,
  kinks: readonly number[],
  tolerance: number,
): { value: number; error: number } {
  const { points } = solid;
  let zLow = Infinity;
  let zHigh = -Infinity;
  let uLow = Infinity;
  let uHigh = -Infinity;
  let vLow = Infinity;
  let vHigh = -Infinity;
  let farthest = 0;
  for (let i = 0; i < points.length; i += 3) {
    const u = across * points[i] - rise * points[i + 2];
    const v = points[i + 1];
    const z = z0 + rise * points[i] + across * points[i + 2];
    zLow = Math.min(zLow, z);
    zHigh = Math.max(zHigh, z);
    uLow = Math.min(uLow, u);
    uHigh = Math.max(uHigh, u);
    vLow = Math.min(vLow, v);
    vHigh = Math.max(vHigh, v);
    farthest = Math.max(farthest, u * u + v * v);
  }
  const radii = radiiBetween(stretch, zLow, zHigh);
  const nearest = Math.hypot(Math.max(0, uLow, -uHigh), Math.max(0, vLow, -vHigh));
  if (!radii || nearest >= radii.most) return { value: 0, error: 0 };
  const contained = zLow >= stretch.z[0] && zHigh <= stretch.z[stretch.z.length - 1];
  if (contained && farthest <= radii.least * radii.least) return { value: solidVolume(solid), error: 0 };
  const area = (f: number) =>
    sectionUnder(stretch, { u0: -rise * f, u1: across, z0: z0 + across * f, z1: rise }, sidesAt(solid, f));
  const levels = levelsOf(solid);
  const inner = kinks.filter((f) => f > levels[0] && f < levels[levels.length - 1]);
  const stops = [...levels, ...inner].sort((a, b) => a - b);
  let value = 0;
  let error = 0;
  for (let i = 0; i + 1 < stops.length; i++) {
    const height = stops[i + 1] - stops[i];
    if (height <= ON_PLANE_MM) continue;
    const part = integrateNested(area, stops[i], stops[i + 1], tolerance * height, 8, 2);
    value += part.value;
    error += part.error;
  }
  return { value, error };
}

/** f of the planes parallel to the kerf, within it, that touch an edge of the piece; ascending. */
function kinksOf(slot: Slot, piece: Piece): number[] {
  const horizontal = Math.hypot(slot.normal[0], slot.normal[1]);
  const kinks = piece.circles.flatMap(([r, z]) =>
    [-r, r].map((reach) => slot.normal[2] * z + horizontal * reach - slot.offset_mm),
  );
  return kinks.filter((f) => Math.abs(f) < slot.kerf_mm / 2).sort((a, b) => a - b);
}
