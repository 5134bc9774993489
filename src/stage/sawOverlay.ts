/**
 * The saw's side of a cut: the fence along its face, the stop at its end, the blade in the kerf, the web that stays, the
 * letters of the faces. Built in the lathe frame (mm) and drawn with the blank, so it turns with it.
 */
import { faceLetterAt } from '../blank/section.ts';
import { formatAngle, formatLength, formatThickness } from '../design/lengthText.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { add, dot, scale, type Vec3 } from '../geometry/vector.ts';
import { toDrawn } from '../meshes/mesh.ts';
import { stopSetting } from '../plan/setups.ts';
import type { Overlay } from './overlay.ts';
import { bladeMesh, box, edgeTicks, outlineOf, type OverlayColours } from './sawShapes.ts';
import type { Shape } from './shape.ts';
import { addTableSaw } from './tableOverlay.ts';

const FENCE_MM = 6;

export { OVERLAY_COLOURS, type OverlayColours } from './sawShapes.ts';

/** Adds the saw to an overlay. `depth` 0…1: how far the blade has come. */
export function addSaw(overlay: Overlay, shape: Shape, depth: number, colours: OverlayColours): void {
  if (shape.atSaw === null) return;
  const slot = shape.slots[shape.atSaw];
  addFaceLetters(overlay, shape, colours);
  if (slot.cut === 'table') {
    addTableSaw(overlay, shape, slot, depth, colours);
    return;
  }
  const { design, section } = shape;
  const length = design.blank.length_mm;
  const u = slot.fenceDirection;
  const v = slot.bladeDirection;
  const z: Vec3 = [0, 0, 1];
  const half = section.circumscribedRadius_mm;
  const h = slot.fenceSupport_mm;

  const fenceCenter = add(scale(u, h + FENCE_MM / 2 + 0.15), scale(z, length / 2));
  overlay.solid(box(fenceCenter, u, v, z, [FENCE_MM / 2, half * 1.15, length * 0.56]), colours.fence, 0.1);
  overlay.lines(
    [
      ...outlineOf(u, v, z, h + 0.15, half * 1.15, length * 0.56, length / 2),
      ...edgeTicks(u, v, z, h + 0.15, half * 1.15, length * 0.56, length / 2, FENCE_MM),
    ],
    colours.fence,
  );
  overlay.label(
    `fence ${formatAngle(slot.angle_deg)}`,
    toDrawn(add(scale(u, h + FENCE_MM), scale(z, length * 1.03))),
    colours,
  );

  const { end: stopEnd, toKerf_mm } = stopSetting(slot, length, design.saw.stop_side);
  const atFoot = stopEnd === 'foot';
  const stopAt = atFoot ? -6 : length + 6;
  const stopCenter = add(scale(u, h - half * 0.35), scale(z, stopAt));
  overlay.solid(box(stopCenter, u, v, z, [half * 0.42, half * 0.5, 5.8]), colours.stop);
  overlay.label(
    `stop ${formatLength(toKerf_mm, design.unit)} to mid-kerf`,
    toDrawn(add(stopCenter, scale(z, atFoot ? -12 : 12))),
    colours,
  );

  overlay.solid(bladeMesh(shape, slot, depth), colours.blade);

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
    toDrawn(add(add(scale(u, h + FENCE_MM + 4), scale(v, -reach)), scale(z, zAt(h) + 12))),
    colours,
  );
  overlay.label(
    `blade in ${slot.id}`,
    toDrawn(add(add(scale(u, end), scale(v, -half * 1.6)), scale(z, zAt(end) - 9))),
    colours,
  );
}

function addFaceLetters(overlay: Overlay, { section, design }: Shape, colours: OverlayColours): void {
  section.faceAzimuths_deg.forEach((azimuth, i) => {
    const out = section.faceDistances_mm[i];
    const letter = faceLetterAt(section, azimuth);
    if (letter === null) return;
    const at: Vec3 = [cosDeg(azimuth) * (out + 7), sinDeg(azimuth) * (out + 7), design.blank.length_mm * 0.9];
    overlay.label(letter, toDrawn(at), colours, 'face');
  });
}
