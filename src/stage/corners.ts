/** Points that the camera keeps in the picture: corners of blanks, circles about the axis. Drawn frame (y-up), mm. */
import { Vector3 } from 'three';
import { sectionGeometry } from '../blank/section.ts';
import type { Blank } from '../design/document.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { toDrawn } from '../meshes/mesh.ts';

/** Corners of a blank at both ends. */
export function blankCorners(blank: Blank): Vector3[] {
  const section = sectionGeometry(blank.section);
  const around = section.round
    ? Array.from({ length: 16 }, (_, i) => {
        const r = section.inscribedRadius_mm;
        return [r * cosDeg(22.5 * i), r * sinDeg(22.5 * i)] as const;
      })
    : section.corners_mm;
  return around.flatMap(([x, y]) => [0, blank.length_mm].map((z) => new Vector3(...toDrawn([x, y, z]))));
}

/** Moved away from the axis. */
export function outward(point: Vector3, by_mm: number): Vector3 {
  const r = Math.hypot(point.x, point.z);
  return new Vector3(point.x * (1 + by_mm / r), point.y, point.z * (1 + by_mm / r));
}

/** At a share of a whole turn about the axis. */
export function circlePoint(radius: number, turn: number, y: number): Vector3 {
  return new Vector3(radius * cosDeg(360 * turn), y, radius * sinDeg(360 * turn));
}
