/**
 * The blank's section: a convex prism along z (docs/geometry.md). Frame: lathe axis z, azimuth 0 along +x,
 * counter-clockwise seen from the head.
 */
import { cosDeg, normalizeDegrees, sameAzimuth, sinDeg } from '../geometry/angle.ts';
import type { Section } from './document.ts';

export interface SectionGeometry {
  readonly round: boolean;
  /** Azimuth of each flat, degrees, ascending from 0; empty for round. */
  readonly faceAzimuths_deg: readonly number[];
  /** Distance of each flat from the axis, mm; same order. */
  readonly faceDistances_mm: readonly number[];
  /** Corners counter-clockwise, [x, y] mm; corner i lies between face i and face i + 1. Empty for round. */
  readonly corners_mm: readonly (readonly [number, number])[];
  /** Radius of the largest circle about the axis inside the section, mm. */
  readonly inscribedRadius_mm: number;
  /** Radius of the smallest circle about the axis around the section, mm. */
  readonly circumscribedRadius_mm: number;
  readonly area_mm2: number;
}

/** Of the faces as they follow each other counter-clockwise, seen from the head. */
export const FACE_LETTERS = 'ABCDEFGH';

const FACE_COUNT = { square: 4, rectangle: 4, hexagon: 6, octagon: 8 } as const;

/** Geometry of a section. The section must be valid (schema.ts). */
export function sectionGeometry(section: Section): SectionGeometry {
  if (section.shape === 'round') {
    const radius = section.width_mm / 2;
    return {
      round: true,
      faceAzimuths_deg: [],
      faceDistances_mm: [],
      corners_mm: [],
      inscribedRadius_mm: radius,
      circumscribedRadius_mm: radius,
      area_mm2: Math.PI * radius * radius,
    };
  }
  const count = FACE_COUNT[section.shape];
  const faceAzimuths_deg = Array.from({ length: count }, (_, i) => (i * 360) / count);
  const faceDistances_mm = faceAzimuths_deg.map((azimuth) =>
    section.shape === 'rectangle' && azimuth % 180 === 90
      ? (section.depth_mm ?? section.width_mm) / 2
      : section.width_mm / 2,
  );
  const corners_mm = faceAzimuths_deg.map((a, i) => {
    const b = faceAzimuths_deg[(i + 1) % count];
    const ha = faceDistances_mm[i];
    const hb = faceDistances_mm[(i + 1) % count];
    const determinant = cosDeg(a) * sinDeg(b) - sinDeg(a) * cosDeg(b);
    return [
      (ha * sinDeg(b) - hb * sinDeg(a)) / determinant,
      (hb * cosDeg(a) - ha * cosDeg(b)) / determinant,
    ] as const;
  });
  let area_mm2 = 0;
  corners_mm.forEach(([x, y], i) => {
    const [nextX, nextY] = corners_mm[(i + 1) % count];
    area_mm2 += (x * nextY - y * nextX) / 2;
  });
  return {
    round: false,
    faceAzimuths_deg,
    faceDistances_mm,
    corners_mm,
    inscribedRadius_mm: Math.min(...faceDistances_mm),
    circumscribedRadius_mm: Math.max(...corners_mm.map(([x, y]) => Math.hypot(x, y))),
    area_mm2,
  };
}

/** Support of the section: its largest extent from the axis in the direction of an azimuth, mm. */
export function support_mm(section: SectionGeometry, azimuth_deg: number): number {
  if (section.round) return section.inscribedRadius_mm;
  const face = faceIndexAt(section, azimuth_deg);
  if (face >= 0) return section.faceDistances_mm[face];
  const c = cosDeg(azimuth_deg);
  const s = sinDeg(azimuth_deg);
  return Math.max(...section.corners_mm.map(([x, y]) => x * c + y * s));
}

/** Index of the flat that an azimuth stands square on (within 1e-9°), or −1. */
export function faceIndexAt(section: SectionGeometry, azimuth_deg: number): number {
  return section.faceAzimuths_deg.findIndex((face) => sameAzimuth(face, azimuth_deg));
}

/** Letter of the flat that an azimuth stands square on: A at azimuth 0, then counter-clockwise; else null. */
export function faceLetterAt(section: SectionGeometry, azimuth_deg: number): string | null {
  const face = faceIndexAt(section, azimuth_deg);
  return face < 0 ? null : FACE_LETTERS[face];
}

/** `B/C`: letters of the two faces whose edge stands at an azimuth midway between them; null: no edge does. */
export function edgeLettersAt(section: SectionGeometry, azimuth_deg: number): string | null {
  if (section.round) return null;
  const faces = section.faceAzimuths_deg;
  const from = (face: number) => Math.abs(normalizeDegrees(face - azimuth_deg + 180) - 180);
  const before = faces.findIndex((face, i) => {
    const next = faces[(i + 1) % faces.length];
    const span = normalizeDegrees(next - face);
    return Math.abs(from(face) - span / 2) < 1e-9 && Math.abs(from(next) - span / 2) < 1e-9;
  });
  return before < 0 ? null : `${FACE_LETTERS[before]}/${FACE_LETTERS[(before + 1) % faces.length]}`;
}
