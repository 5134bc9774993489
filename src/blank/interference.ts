/**
 * Whether two slots overlap in the blank with positive volume, and whether one saws through the web that
 * another slot leaves. Lathe frame, mm.
 *
 * All bodies are convex: the blank (a prism or the ideal cylinder), a slot (three half-spaces), a web. Their
 * intersection is tested by taking z out of the inequalities (Fourier–Motzkin elimination: every lower bound
 * of z under every upper bound of z), which leaves the intersection's shadow on the plane z = 0 as half-planes
 * in (x, y); the blank's section is clipped with them. For a round blank the distance of the shadow from the
 * axis is compared with the radius, so the cylinder is exact too.
 *
 * Tolerance: every boundary is moved inward by ROOM_MM first, so bodies overlap when a ball of that radius
 * finds room in all of them. Faces that only touch, even after rounding, do not overlap; a real overlap of
 * 2e-6 mm does. Saw and strip are a hundred thousand times coarser.
 */
import type { Blank } from '../design/document.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { sectionGeometry, type SectionGeometry } from './section.ts';
import type { Slot } from './slots.ts';

/** Radius of the ball that must find room in an overlap, mm. */
export const ROOM_MM = 1e-6;

/** The blank as this file needs it; made once for many pairs. */
export interface BlankSolid {
  readonly section: SectionGeometry;
  readonly length_mm: number;
  /** Convex polygon that holds the section moved inward by ROOM_MM (round: the square around it). */
  readonly shadow: Polygon;
}

export function blankSolid(blank: Blank): BlankSolid {
  const section = sectionGeometry(blank.section);
  const reach = section.circumscribedRadius_mm;
  let shadow: Polygon = [
    [reach, reach],
    [-reach, reach],
    [-reach, -reach],
    [reach, -reach],
  ];
  section.faceAzimuths_deg.forEach((azimuth, face) => {
    shadow = clip(shadow, cosDeg(azimuth), sinDeg(azimuth), section.faceDistances_mm[face] - ROOM_MM);
  });
  return { section, length_mm: blank.length_mm, shadow };
}

/** Corners of a convex polygon in order, [x, y] mm; empty when nothing is left of it. */
type Polygon = readonly (readonly [x: number, y: number])[];

/** normal · p ≤ offset, |normal| = 1. */
interface HalfSpace {
  readonly normal: Vec3;
  readonly offset: number;
}

/** Whether the slots overlap in the blank with positive volume (touching is no overlap). */
export function interfere(a: Slot, b: Slot, blank: BlankSolid): boolean {
  if (apart(a, b, blank)) return false;
  return haveRoom([...slotHalfSpaces(a), ...slotHalfSpaces(b)], blank);
}

/** Whether `cutter`'s slot takes wood from the web that `open` leaves: inside its kerf, beyond its stop. */
export function sawsThroughWeb(cutter: Slot, open: Slot, blank: BlankSolid): boolean {
  if (apart(cutter, open, blank)) return false;
  const [foot, head, stop] = slotHalfSpaces(open);
  const web = { normal: negative(stop.normal), offset: -stop.offset };
  return haveRoom([...slotHalfSpaces(cutter), foot, head, web], blank);
}

/** Whether the slot takes any wood from the blank at all. */
export function reachesBlank(slot: Slot, blank: BlankSolid): boolean {
  return haveRoom(slotHalfSpaces(slot), blank);
}

/**
 * Where the slab of a slot's kerf lies along the axis, mm: lowest and highest z inside the section's
 * circumscribed circle, web included.
 */
export function kerfReach_mm(slot: Slot, section: SectionGeometry): readonly [low: number, high: number] {
  const sine = slot.normal[2];
  const across = Math.hypot(slot.normal[0], slot.normal[1]) * section.circumscribedRadius_mm;
  const half = slot.kerf_mm / 2 + across;
  return [(slot.offset_mm - half) / sine, (slot.offset_mm + half) / sine];
}

function apart(a: Slot, b: Slot, blank: BlankSolid): boolean {
  const [aLow, aHigh] = kerfReach_mm(a, blank.section);
  const [bLow, bHigh] = kerfReach_mm(b, blank.section);
  return Math.max(aLow, bLow, 0) >= Math.min(aHigh, bHigh, blank.length_mm);
}

function slotHalfSpaces(slot: Slot): [HalfSpace, HalfSpace, HalfSpace] {
  return [
    { normal: negative(slot.normal), offset: slot.kerf_mm / 2 - slot.offset_mm },
    { normal: slot.normal, offset: slot.kerf_mm / 2 + slot.offset_mm },
    { normal: slot.stopNormal, offset: slot.stop_mm },
  ];
}

function negative(v: Vec3): Vec3 {
  return [-v[0], -v[1], -v[2]];
}

/** Bound of z at (x, y): a · x + b · y + c. */
interface Bound {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

function haveRoom(halfSpaces: readonly HalfSpace[], blank: BlankSolid): boolean {
  const lower: Bound[] = [{ a: 0, b: 0, c: ROOM_MM }];
  const upper: Bound[] = [{ a: 0, b: 0, c: blank.length_mm - ROOM_MM }];
  let shadow = blank.shadow;
  for (const { normal, offset } of halfSpaces) {
    const [x, y, z] = normal;
    if (z === 0) shadow = clip(shadow, x, y, offset - ROOM_MM);
    else (z > 0 ? upper : lower).push({ a: -x / z, b: -y / z, c: (offset - ROOM_MM) / z });
  }
  for (const low of lower)
    for (const high of upper) {
      if (shadow.length === 0) return false;
      shadow = clip(shadow, low.a - high.a, low.b - high.b, high.c - low.c);
    }
  if (shadow.length === 0) return false;
  if (!blank.section.round) return true;
  return distanceFromAxis(shadow) <= blank.section.circumscribedRadius_mm - ROOM_MM;
}

/** The part of a convex polygon where a · x + b · y ≤ c. */
function clip(polygon: Polygon, a: number, b: number, c: number): Polygon {
  const kept: [number, number][] = [];
  let cut = false;
  for (let i = 0; i < polygon.length; i++) {
    const [px, py] = polygon[i];
    const [qx, qy] = polygon[i + 1 === polygon.length ? 0 : i + 1];
    const p = a * px + b * py - c;
    const q = a * qx + b * qy - c;
    if (p <= 0) kept.push([px, py]);
    if (p <= 0 !== q <= 0) {
      const t = p / (p - q);
      kept.push([px + (qx - px) * t, py + (qy - py) * t]);
    }
    if (p > 0) cut = true;
  }
  return cut ? kept : polygon;
}

/** Distance of a convex polygon (counter-clockwise) from the origin; 0 when it holds the origin. */
function distanceFromAxis(polygon: Polygon): number {
  let inside = true;
  let nearest = Infinity;
  for (let i = 0; i < polygon.length; i++) {
    const [px, py] = polygon[i];
    const [qx, qy] = polygon[i + 1 === polygon.length ? 0 : i + 1];
    const dx = qx - px;
    const dy = qy - py;
    if (px * qy - py * qx < 0) inside = false;
    const squared = dx * dx + dy * dy;
    const t = squared === 0 ? 0 : Math.min(1, Math.max(0, -(px * dx + py * dy) / squared));
    nearest = Math.min(nearest, Math.hypot(px + dx * t, py + dy * t));
  }
  return inside ? 0 : nearest;
}
