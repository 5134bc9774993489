/**
 * The saw's side of a cut: the fence along its face, the stop at its end, the blade in the kerf, the web that stays, the
 * letters of the faces. Built in the lathe frame (mm) and drawn with the blank, so it turns with it.
 */
import { faceLetterAt } from '../blank/section.ts';
import type { Slot } from '../blank/slots.ts';
import { formatThickness } from '../design/lengthText.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { add, cross, dot, scale, type Vec3 } from '../geometry/vector.ts';
import { MeshBuilder, toDrawn, type WorkMesh } from '../meshes/mesh.ts';
import { stopEnd } from '../plan/setups.ts';
import type { Overlay, OverlayLook } from './overlay.ts';
import type { Theme } from './props.ts';
import type { Shape } from './shape.ts';

const BLADE_WIDTH_MM = 12.7;
const TOOTH_MM = 25.4 / 14;
const FENCE_MM = 6;

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

/** Adds the saw to an overlay. `depth` 0…1: how far the blade has come. */
export function addSaw(overlay: Overlay, shape: Shape, depth: number, colours: OverlayColours): void {
  if (shape.atSaw === null) return;
  const slot = shape.slots[shape.atSaw];
  const { design, section } = shape;
  const length = design.blank.length_mm;
  const u = slot.fenceDirection;
  const v = slot.bladeDirection;
  const z: Vec3 = [0, 0, 1];
  const half = section.circumscribedRadius_mm;
  const h = slot.fenceSupport_mm;

  const fenceCenter = add(scale(u, h + FENCE_MM / 2 + 0.15), scale(z, length / 2));
  overlay.solid(box(fenceCenter, u, v, z, [FENCE_MM / 2, half * 1.15, length * 0.56]), colours.fence, 0.3);
  overlay.lines(outlineOf(u, v, z, h + 0.15, half * 1.15, length * 0.56, length / 2), colours.fence);

  const atFoot = stopEnd(slot, design.saw.stop_side) === 'foot';
  const stopAt = atFoot ? -6 : length + 6;
  const stopCenter = add(scale(u, h - half * 0.35), scale(z, stopAt));
  overlay.solid(box(stopCenter, u, v, z, [half * 0.42, half * 0.5, 5.8]), colours.stop);

  overlay.solid(blade(shape, slot, depth), colours.blade);

  // The web: between the end of the slot and the fence face, on both sides of the blank where the kerf meets it.
  const end = slot.stop_mm;
  const zAt = (along: number): number =>
    (slot.offset_mm - dot(slot.normal, scale(u, along))) / slot.normal[2];
  const reach = half * 1.06;
  const lines: [number, number, number][] = [];
  for (const side of [-1, 1]) {
    const point = (along: number): [number, number, number] =>
      toDrawn(add(add(scale(u, along), scale(v, side * reach)), scale(z, zAt(along))));
    lines.push(point(end), point(h));
    for (const along of [end, h]) {
      const [x, y, zz] = point(along);
      lines.push([x, y - 4, zz], [x, y + 4, zz]);
    }
  }
  overlay.lines(lines, colours.accent, true);
  overlay.label(
    `web ${formatThickness(slot.web_mm, design.unit)}`,
    toDrawn(add(add(scale(u, h + FENCE_MM + 4), scale(v, reach)), scale(z, zAt(h)))),
    colours,
  );
  overlay.label(
    `${slot.id}: ${Number(slot.angle_deg.toFixed(2))}°`,
    toDrawn(add(scale(u, -section.circumscribedRadius_mm - 14), scale(z, zAt(-half)))),
    colours,
  );
  section.faceAzimuths_deg.forEach((azimuth, i) => {
    const out = section.faceDistances_mm[i];
    const letter = faceLetterAt(section, azimuth);
    if (letter === null) return;
    const at: Vec3 = [cosDeg(azimuth) * (out + 7), sinDeg(azimuth) * (out + 7), length * 0.9];
    overlay.label(letter, toDrawn(at), colours, 'face');
  });
}

/** The edge of the fence's working face, as pairs of points. */
function outlineOf(
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

/** The blade as far as it has come: teeth toward the fence, its back toward the entry. */
function blade(shape: Shape, slot: Slot, depth: number): WorkMesh {
  const across = cross(slot.bladeDirection, slot.normal);
  const forward: Vec3 = dot(across, slot.stopNormal) > 0 ? across : scale(across, -1);
  const sine = dot(forward, slot.stopNormal);
  const { section } = shape;
  const entry = section.round
    ? -section.circumscribedRadius_mm
    : Math.min(...section.corners_mm.map(([x, y]) => slot.stopNormal[0] * x + slot.stopNormal[1] * y));
  const tip = entry + (slot.stop_mm - entry) * depth - (depth <= 0 ? 4 : 0);
  const reach = section.circumscribedRadius_mm * 1.7;
  const origin = add(scale(slot.normal, slot.offset_mm), [0, 0, 0]);
  const uAt = dot(slot.stopNormal, origin);
  const thick = slot.kerf_mm * 0.3;
  const place = (along: number, up: number, side: number): Vec3 =>
    add(
      add(origin, scale(forward, (tip - uAt) / sine + up)),
      add(scale(slot.bladeDirection, along), scale(slot.normal, side * thick)),
    );
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
function box(center: Vec3, a: Vec3, b: Vec3, c: Vec3, half: Vec3): WorkMesh {
  const builder = new MeshBuilder();
  const axes = [a, b, c];
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
      builder.polygon(side > 0 ? face : face.toReversed(), scale(axes[axis], side));
    }
  }
  return builder.build();
}
