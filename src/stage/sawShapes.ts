/** The bodies that the saw's side of a cut is drawn with: blade, boxes, edges. Lathe frame, mm. */
import { alongClosedEnd, wayOut, type Slot } from '../blank/slots.ts';
import type { CutKind } from '../design/document.ts';
import { DEG } from '../geometry/angle.ts';
import { add, cross, dot, scale, type Vec3 } from '../geometry/vector.ts';
import { MeshBuilder, toDrawn, type WorkMesh } from '../meshes/mesh.ts';
import type { OverlayLook } from './overlayLook.ts';
import type { Theme } from './props.ts';
import type { Shape } from './shape.ts';

export interface OverlayColours extends OverlayLook {
  readonly fence: string;
  readonly stop: string;
  readonly blade: string;
  readonly accent: string;
}

export const OVERLAY_COLOURS: Readonly<Record<Theme, OverlayColours>> = {
  light: {
    ink: '#2e2b28',
    paper: '#fbf8f3',
    fence: '#8a97a3',
    stop: '#b9822f',
    blade: '#c9ced2',
    accent: '#c4511c',
  },
  dark: {
    ink: '#ece7df',
    paper: '#2a2929',
    fence: '#6f7e8c',
    stop: '#c8923f',
    blade: '#dfe4e8',
    accent: '#ff8a4d',
  },
};

const BLADE_WIDTH_MM = 12.7;
const TOOTH_MM = 25.4 / 14;

/** Azimuth of a direction square to the axis, rounded so that it finds its face. */
export function azimuthOf_deg([x, y]: Vec3): number {
  return Math.round((Math.atan2(y, x) / DEG) * 1e6) / 1e6;
}

/** The edge of the fence's working face, as pairs of points. */
export function outlineOf(
  u: Vec3,
  v: Vec3,
  z: Vec3,
  out: number,
  halfWide: number,
  halfTall: number,
  middle: number,
): [number, number, number][] {
  const corners = [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([i, j]) =>
    toDrawn(add(add(scale(u, out), scale(v, i * halfWide)), scale(z, middle + j * halfTall))),
  );
  return corners.flatMap((corner, i) => [corner, corners[(i + 1) % 4]]);
}

/** Short strokes away from the blank along both long edges of the fence's working face, as solid things are hatched. */
export function edgeTicks(
  u: Vec3,
  v: Vec3,
  z: Vec3,
  out: number,
  halfWide: number,
  halfTall: number,
  middle: number,
  stroke_mm: number,
): [number, number, number][] {
  const count = Math.max(2, Math.round((2 * halfTall) / (1.5 * stroke_mm)));
  return [-1, 1].flatMap((side) =>
    Array.from({ length: count }, (_, i) => {
      const edge = add(
        add(scale(u, out), scale(v, side * halfWide)),
        scale(z, middle + halfTall * ((2 * (i + 1)) / count - 1)),
      );
      return [toDrawn(edge), toDrawn(add(edge, add(scale(u, stroke_mm), scale(z, -stroke_mm))))];
    }).flat(),
  );
}

/** Where the blade is: its tooth line, and the ways along it and forward into the wood. */
export interface BladePlace {
  /** On the tooth line, level with the middle of the blank along the blade. */
  readonly tip: Vec3;
  readonly across: Vec3;
  readonly forward: Vec3;
  /** Half of what is drawn of it. */
  readonly reach_mm: number;
}

export function bladePlace({ section, design }: Shape, slot: Slot, depth: number): BladePlace {
  const forward = scale(wayOut(slot), -1);
  const across = alongClosedEnd(slot);
  const sine = dot(forward, slot.stopNormal);
  const entry = section.round
    ? -section.circumscribedRadius_mm
    : Math.min(...section.corners_mm.map(([x, y]) => slot.stopNormal[0] * x + slot.stopNormal[1] * y));
  const tip = entry + (slot.stop_mm - entry) * depth - (depth <= 0 ? 4 : 0);
  // A point of the mid-plane, level with the middle of the blank along the blade.
  const nearest = scale(slot.normal, slot.offset_mm);
  const level = dot(across, [0, 0, design.blank.length_mm / 2]) - dot(across, nearest);
  const origin = add(nearest, scale(across, level));
  return {
    tip: add(origin, scale(forward, (tip - dot(slot.stopNormal, origin)) / sine)),
    across,
    forward,
    reach_mm: section.circumscribedRadius_mm * 1.7 + ALONG_BLANK[slot.cut] * design.blank.length_mm,
  };
}

/** Share of the blank's length that the blade is drawn longer by to either side: on the table it runs along the blank. */
const ALONG_BLANK: Readonly<Record<CutKind, number>> = { fence: 0, table: 0.5 };

/** The blade as far as it has come: teeth toward the closed end of the slot, its back toward the entry. */
export function bladeMesh(shape: Shape, slot: Slot, depth: number): WorkMesh {
  const { tip, across, forward, reach_mm: reach } = bladePlace(shape, slot, depth);
  const thick = slot.kerf_mm * 0.3;
  const place = (along: number, up: number, side: number): Vec3 =>
    add(add(tip, scale(forward, up)), add(scale(across, along), scale(slot.normal, side * thick)));
  const builder = new MeshBuilder();
  for (const side of [1, -1]) {
    const normal = scale(slot.normal, side);
    const quad = [
      place(-reach, -BLADE_WIDTH_MM, side),
      place(reach, -BLADE_WIDTH_MM, side),
      place(reach, -TOOTH_MM, side),
      place(-reach, -TOOTH_MM, side),
    ];
    builder.polygon(side > 0 ? quad : quad.toReversed(), normal);
    for (let a = -reach; a < reach; a += TOOTH_MM) {
      const tooth = [
        place(a, -TOOTH_MM, side),
        place(Math.min(a + TOOTH_MM, reach), -TOOTH_MM, side),
        place(a + TOOTH_MM * 0.2, 0, side),
      ];
      builder.polygon(side > 0 ? tooth : tooth.toReversed(), normal);
    }
  }
  const back: Vec3 = scale(forward, -1);
  builder.polygon(
    [
      place(-reach, -BLADE_WIDTH_MM, 1),
      place(-reach, -BLADE_WIDTH_MM, -1),
      place(reach, -BLADE_WIDTH_MM, -1),
      place(reach, -BLADE_WIDTH_MM, 1),
    ],
    back,
  );
  return builder.build();
}

/** A box with its own axes (unit vectors, right-handed or not) and half-sizes. */
export function box(center: Vec3, a: Vec3, b: Vec3, c: Vec3, half: Vec3): WorkMesh {
  const builder = new MeshBuilder();
  const axes = [a, b, c];
  const rightHanded = dot(cross(a, b), c) > 0;
  const at = (i: number, j: number, k: number): Vec3 =>
    add(add(center, scale(a, i * half[0])), add(scale(b, j * half[1]), scale(c, k * half[2])));
  const corner = (signs: readonly number[]): Vec3 => at(signs[0], signs[1], signs[2]);
  for (let axis = 0; axis < 3; axis++) {
    const [p, q] = [(axis + 1) % 3, (axis + 2) % 3];
    for (const side of [-1, 1]) {
      const face = [
        [-1, -1],
        [1, -1],
        [1, 1],
        [-1, 1],
      ].map(([i, j]) => {
        const signs = [0, 0, 0];
        signs[axis] = side;
        signs[p] = i;
        signs[q] = j;
        return corner(signs);
      });
      // Counter-clockwise from outside, or the light takes the face for its back.
      builder.polygon(side > 0 === rightHanded ? face : face.toReversed(), scale(axes[axis], side));
    }
  }
  return builder.build();
}
