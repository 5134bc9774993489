/**
 * The saw's side of a cut: the fence along its face, the stop at its end, the blade in the kerf, the web that stays, the
 * letters of the faces. Built in the lathe frame (mm) and drawn with the blank, so it turns with it.
 */
import { faceLetterAt } from '../blank/section.ts';
import type { CutKind, SlotId } from '../design/document.ts';
import { formatAngle, formatLength, formatThickness } from '../design/lengthText.ts';
import { cosDeg, normalizeDegrees, sinDeg } from '../geometry/angle.ts';
import { add, dot, scale, type Vec3 } from '../geometry/vector.ts';
import type { Slot } from '../blank/slots.ts';
import { toDrawn } from '../meshes/mesh.ts';
import { CUT_WORDS } from '../plan/cutWords.ts';
import { stopSetting, upAzimuth_deg, type End } from '../plan/setups.ts';
import type { Overlay } from './overlay.ts';
import {
  azimuthOf_deg,
  bladeMesh,
  bladePlace,
  box,
  edgeTicks,
  outlineOf,
  type OverlayColours,
} from './sawShapes.ts';
import type { Shape } from './shape.ts';
import { addTableSaw, besideKerf, endUp, tableRoles } from './tableOverlay.ts';

const FENCE_MM = 6;

export { OVERLAY_COLOURS, type OverlayColours } from './sawShapes.ts';

/** Adds the saw to an overlay. `depth` 0…1: how far the blade has come. */
export function addSaw(
  overlay: Overlay,
  shape: Shape,
  depth: number,
  colours: OverlayColours,
  nameOf: (slot: SlotId) => string = (slot) => slot,
): void {
  if (shape.atSaw === null) return;
  const own = shape.slots[shape.atSaw];
  const slot = { ...own, id: nameOf(own.id) };
  addFaceLetters(overlay, shape, slot, colours);
  SAWS[slot.cut].add(overlay, shape, slot, depth, colours);
}

interface SawDrawing {
  /** Fence and stop, or table and ledge; the blade, the web. */
  readonly add: (overlay: Overlay, shape: Shape, slot: Slot, depth: number, colours: OverlayColours) => void;
  /** What sides of the blank are for, by their azimuths, besides the wall and the blade's entry. */
  readonly roles: (shape: Shape, slot: Slot) => readonly (readonly [azimuth_deg: number, role: string])[];
  /** The end that is up; null: the blank lies. */
  readonly endUp: (slot: Slot) => End | null;
  /** From the middle of a face to a place for its letter beside the kerf. */
  readonly letterAside: (shape: Shape, slot: Slot, out: Vec3, z_mm: number) => Vec3;
}

const SAWS: Readonly<Record<CutKind, SawDrawing>> = {
  fence: { add: addFenceSaw, roles: fenceRoles, endUp: () => null, letterAside: () => [0, 0, 0] },
  table: { add: addTableSaw, roles: tableRoles, endUp, letterAside: besideKerf },
};

function addFenceSaw(
  overlay: Overlay,
  shape: Shape,
  slot: Slot,
  depth: number,
  colours: OverlayColours,
): void {
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
  const face = faceLetterAt(section, slot.fenceAzimuth_deg);
  overlay.label(
    `fence ${formatAngle(slot.angle_deg)}, ${face === null ? formatAngle(slot.fenceAzimuth_deg) : `face ${face}`} on it`,
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
  const webAt = (side: number, along: number): [number, number, number] =>
    toDrawn(add(add(scale(u, along), scale(v, side * reach)), scale(z, zAt(along))));
  for (const side of [-1, 1]) {
    lines.push(webAt(side, end), webAt(side, h));
    for (const along of [end, h]) {
      const [x, y, zz] = webAt(side, along);
      lines.push([x, y - 4, zz], [x, y + 4, zz]);
    }
  }
  overlay.lines(lines, colours.accent, true);
  overlay.label(
    `web ${formatThickness(slot.web_mm, design.unit)}`,
    toDrawn(add(add(scale(u, h + FENCE_MM + 4), scale(v, -reach)), scale(z, zAt(h) + 12))),
    colours,
    { to: webAt(-1, (end + h) / 2) },
  );
  const { tip, across } = bladePlace(shape, slot, depth);
  const beside = add(tip, scale(across, Math.sign(dot(across, v)) * -half * 1.4));
  overlay.label(`blade in ${slot.id}`, toDrawn(add(beside, scale(z, -12))), colours, { to: toDrawn(beside) });
}

/** Height of the letters, as a share of the blank's length from the end away from stop or table. */
const LETTER_PLACE = 0.14;

/** On each face its letter, and what the face is for at this cut. */
function addFaceLetters(overlay: Overlay, shape: Shape, slot: Slot, colours: OverlayColours): void {
  const { section, design } = shape;
  const { length_mm } = design.blank;
  const roles = rolesOf(shape, slot);
  const saw = SAWS[slot.cut];
  const up = saw.endUp(slot);
  const fromHead = up === 'foot' ? 1 - LETTER_PLACE : LETTER_PLACE;
  section.faceAzimuths_deg.forEach((azimuth, i) => {
    const out: Vec3 = [cosDeg(azimuth), sinDeg(azimuth), 0];
    const letter = faceLetterAt(section, azimuth);
    if (letter === null) return;
    const z_mm = (1 - fromHead) * length_mm;
    const aside = saw.letterAside(shape, slot, out, z_mm);
    const at = add(add(scale(out, section.faceDistances_mm[i] + 1), aside), [0, 0, z_mm]);
    overlay.label(roles.get(letter) ?? '', toDrawn(at), colours, { letter, facing: toDrawn(out) });
  });
  if (up === null) return;
  const top = up === 'head' ? 1 : -1;
  overlay.label(`${up} up`, toDrawn([0, 0, top > 0 ? length_mm + 1 : -1]), colours, {
    facing: toDrawn([0, 0, top]),
  });
}

/** What the faces are for, by their letters. */
function rolesOf(shape: Shape, slot: Slot): ReadonlyMap<string, string> {
  const roles = [
    [slot.fenceAzimuth_deg, `at the ${CUT_WORDS[slot.cut].wall}`] as const,
    [azimuthOf_deg(scale(slot.stopNormal, -1)), 'blade enters'] as const,
    ...SAWS[slot.cut].roles(shape, slot),
  ];
  return new Map(
    roles.flatMap(([azimuth_deg, role]) => {
      const letter = faceLetterAt(shape.section, azimuth_deg);
      return letter === null ? [] : [[letter, role] as const];
    }),
  );
}

/** Of the faces that lie up and down one is always seen. */
function fenceRoles({ design }: Shape, slot: Slot): readonly (readonly [number, string])[] {
  const { end } = stopSetting(slot, design.blank.length_mm, design.saw.stop_side);
  const up_deg = upAzimuth_deg(slot.fenceAzimuth_deg, end);
  return [
    [up_deg, 'up, stop on the left'],
    [normalizeDegrees(up_deg + 180), 'down, stop on the left'],
  ];
}
