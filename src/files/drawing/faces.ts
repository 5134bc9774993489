/**
 * What a slot holds of a flat of the blank, as a polygon in the flat's own frame: t across the flat
 * (counter-clockwise round the blank, 0 in its middle), z along it. Lathe frame, mm.
 */
import { cosDeg, sinDeg } from '../../geometry/angle.ts';
import { dot, type Vec3 } from '../../geometry/vector.ts';
import type { SectionGeometry } from '../../blank/section.ts';
import type { Slot } from '../../blank/slots.ts';
import type { Point } from './pen.ts';

export interface Flat {
  readonly letter: string;
  readonly azimuth_deg: number;
  readonly distance_mm: number;
  /** t of the flat's two edges. */
  readonly from_mm: number;
  readonly to_mm: number;
}

/** The flats of a section in order; none for a round one. */
export function flatsOf(section: SectionGeometry): Flat[] {
  return section.faceAzimuths_deg.map((azimuth_deg, i) => {
    const count = section.corners_mm.length;
    const across = (corner: readonly [number, number]) =>
      -corner[0] * sinDeg(azimuth_deg) + corner[1] * cosDeg(azimuth_deg);
    return {
      letter: 'ABCDEFGH'[i],
      azimuth_deg,
      distance_mm: section.faceDistances_mm[i],
      from_mm: across(section.corners_mm[(i + count - 1) % count]),
      to_mm: across(section.corners_mm[i]),
    };
  });
}

/** Point of the flat in the lathe frame. */
export function flatPoint(flat: Flat, [t, z]: Point): Vec3 {
  const c = cosDeg(flat.azimuth_deg);
  const s = sinDeg(flat.azimuth_deg);
  return [flat.distance_mm * c - t * s, flat.distance_mm * s + t * c, z];
}

/** The part of the flat that the slot holds; empty where it misses. */
export function slotOnFlat(slot: Slot, flat: Flat, length_mm: number): Point[] {
  const whole: Point[] = [
    [flat.from_mm, 0],
    [flat.to_mm, 0],
    [flat.to_mm, length_mm],
    [flat.from_mm, length_mm],
  ];
  const excess = (sign: 1 | -1) => (point: Point) =>
    sign * (dot(slot.normal, flatPoint(flat, point)) - slot.offset_mm) - slot.kerf_mm / 2;
  const pastStop = (point: Point) => dot(slot.stopNormal, flatPoint(flat, point)) - slot.stop_mm;
  return [excess(1), excess(-1), pastStop].reduce(clipWhereNotPositive, whole);
}

/** The kerf's mid-plane on the flat, from edge to edge, as far as the flat goes; null where it misses. */
export function midlineOnFlat(slot: Slot, flat: Flat, length_mm: number): [Point, Point] | null {
  const [nx, ny, nz] = slot.normal;
  const height = (t: number): number => {
    const [x, y] = flatPoint(flat, [t, 0]);
    return (slot.offset_mm - nx * x - ny * y) / nz;
  };
  const ends = [flat.from_mm, flat.to_mm].map((t): Point => [t, height(t)]);
  return cutToHeights(ends[0], ends[1], 0, length_mm);
}

function cutToHeights(a: Point, b: Point, low: number, high: number): [Point, Point] | null {
  if (Math.max(a[1], b[1]) < low || Math.min(a[1], b[1]) > high) return null;
  const at = (from: Point, to: Point): Point => {
    const z = Math.min(Math.max(from[1], low), high);
    if (z === from[1]) return from;
    const share = (z - from[1]) / (to[1] - from[1]);
    return [from[0] + share * (to[0] - from[0]), z];
  };
  return [at(a, b), at(b, a)];
}

/** Convex polygon ∩ {excess ≤ 0}, excess linear (Sutherland and Hodgman). */
export function clipWhereNotPositive(polygon: readonly Point[], excess: (point: Point) => number): Point[] {
  const kept: Point[] = [];
  polygon.forEach((point, i) => {
    const next = polygon[(i + 1) % polygon.length];
    const here = excess(point);
    const there = excess(next);
    if (here <= 0) kept.push(point);
    if (here * there < 0) {
      const share = here / (here - there);
      kept.push([point[0] + share * (next[0] - point[0]), point[1] + share * (next[1] - point[1])]);
    }
  });
  return kept.length < 3 ? [] : kept;
}
