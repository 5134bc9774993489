/**
 * Volumes of the ideal parts: strips and body of the sawn and glued blank, and of the turned form ∩ blank
 * (docs/geometry.md, "Measures"). Nothing is faceted beyond the outline's polyline. Lathe frame, mm.
 *
 * Each strip is integrated across its kerf: in the plane f = const its section is a convex polygon (section of
 * the blank, its ends, the slot's own stop) less the later slots, as convex cells; within the solid of
 * revolution the area is exact (geometry/revolution.ts). Across the kerf: Fejér's nested rule, by halves where
 * it does not settle, divided first where an edge of the form or the blank passes through the kerf. The whole
 * is a sum of frusta, exact where circles do not meet flats; the body is the rest of it.
 */
import {
  cellArea,
  clipped,
  isBeyond,
  rectangleCell,
  withoutPiece,
  type Cell,
  type HalfPlane,
} from '../geometry/convexCells.ts';
import { prismVolumeUnder, type Prism } from '../geometry/discPolygon.ts';
import type { HalfSpace } from '../geometry/halfspace.ts';
import { halfSpace } from '../geometry/halfspace.ts';
import type { Profile } from '../geometry/outline.ts';
import { integrateNested } from '../geometry/quadrature.ts';
import { revolutionOf, sectionArea, type CuttingPlane, type Revolution } from '../geometry/revolution.ts';
import { dot, type Vec3 } from '../geometry/vector.ts';
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
  /** Points where an edge of the piece can touch a plane first: corners of the prism, and [radius, z] circles. */
  readonly corners: readonly Vec3[];
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
    corners: cornersOf(section, length_mm),
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
    corners: past ? cornersOf(section, length_mm) : [],
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

function cornersOf(section: SectionGeometry, length_mm: number): Vec3[] {
  return section.corners_mm.flatMap(([x, y]) => [0, length_mm].map((z): Vec3 => [x, y, z]));
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

/** Of the volume that a full slot through the middle of the piece has: the change at which the rule may stop. */
const SETTLED = 1e-5;

function stripVolume(
  slot: Slot,
  own: SlotSpaces,
  later: readonly SlotSpaces[],
  piece: Piece,
): { value: number; error: number } {
  const half = slot.kerf_mm / 2;
  const meanSection = piece.volume_mm3 / (piece.zHigh_mm - piece.zLow_mm) / slot.normal[2];
  const area = (f: number) => stripArea(slot, f, own, later, piece);
  const stops = [-half, ...kinksOf(slot, piece), half];
  let value = 0;
  let error = 0;
  for (let i = 0; i + 1 < stops.length; i++) {
    const part = integrateNested(
      area,
      stops[i],
      stops[i + 1],
      SETTLED * meanSection * (stops[i + 1] - stops[i]),
      8,
    );
    value += part.value;
    error += part.error;
  }
  return { value, error };
}

/** f of the planes parallel to the kerf, within it, that touch an edge of the piece; ascending. */
function kinksOf(slot: Slot, piece: Piece): number[] {
  const kinks: number[] = [];
  const horizontal = Math.hypot(slot.normal[0], slot.normal[1]);
  for (const corner of piece.corners) kinks.push(dot(slot.normal, corner) - slot.offset_mm);
  for (const [r, z] of piece.circles)
    kinks.push(
      slot.normal[2] * z - horizontal * r - slot.offset_mm,
      slot.normal[2] * z + horizontal * r - slot.offset_mm,
    );
  const half = slot.kerf_mm / 2;
  const least = 1e-9 * slot.kerf_mm;
  return kinks
    .filter((f) => Math.abs(f) < half - least)
    .sort((a, b) => a - b)
    .filter((f, i, all) => i === 0 || f - all[i - 1] > least);
}

/** Area of the strip's section by the plane at distance f from the kerf's mid-plane. */
function stripArea(
  slot: Slot,
  f: number,
  own: SlotSpaces,
  later: readonly SlotSpaces[],
  piece: Piece,
): number {
  // Axes of the plane: s up the slope (toward the fence), v along the blade.
  const across = slot.normal[2];
  const rise = -dot(slot.normal, slot.fenceDirection);
  const plane: CuttingPlane = {
    u0: -rise * f,
    u1: across,
    z0: slot.offset_mm / across + across * f,
    z1: rise,
  };
  const reach = piece.reach_mm;
  let sLow = (-reach - plane.u0) / plane.u1;
  let sHigh = (reach - plane.u0) / plane.u1;
  if (rise === 0) {
    if (plane.z0 < piece.zLow_mm || plane.z0 > piece.zHigh_mm) return 0;
  } else {
    const a = (piece.zLow_mm - plane.z0) / rise;
    const b = (piece.zHigh_mm - plane.z0) / rise;
    sLow = Math.max(sLow, Math.min(a, b));
    sHigh = Math.min(sHigh, Math.max(a, b));
  }
  if (!(sLow < sHigh)) return 0;
  const lineOf = (space: HalfSpace): HalfPlane => {
    const nu = space.nx * slot.fenceDirection[0] + space.ny * slot.fenceDirection[1];
    const nv = space.nx * slot.bladeDirection[0] + space.ny * slot.bladeDirection[1];
    return {
      a: nu * plane.u1 + space.nz * plane.z1,
      b: nv,
      c: space.c_mm - nu * plane.u0 - space.nz * plane.z0,
    };
  };
  let region: Cell = rectangleCell(sLow, sHigh, -reach, reach);
  for (const space of [...piece.flats, own[2]]) {
    region = clipped(region, lineOf(space), 1);
    if (region.length === 0) return 0;
  }
  let cells: readonly Cell[] = [region];
  const least = 1e-14 * cellArea(region);
  for (const spaces of later) {
    const lines = spaces.map(lineOf);
    if (lines.some((line) => isBeyond(region, line))) continue;
    cells = withoutPiece(cells, lines, least);
    if (cells.length === 0) return 0;
  }
  if (piece.solid) return sectionArea(piece.solid, plane, cells);
  return cells.reduce((sum, cell) => sum + cellArea(cell), 0);
}
