/**
 * A cut with the table tilted, drawn with the blank: the table under the end that lies on it, the ledge along its low
 * edge, the blade in the kerf, the web that stays. Lathe frame, mm; which way is up: sawView.ts.
 */
import type { Slot } from '../blank/slots.ts';
import { formatAngle, formatLength, formatThickness } from '../design/lengthText.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { add, dot, scale, type Vec3 } from '../geometry/vector.ts';
import { toDrawn } from '../meshes/mesh.ts';
import type { End } from '../plan/setups.ts';
import { endDown, ledgeToKerf_mm, traceAtEnd_mm } from '../plan/tableSetup.ts';
import type { Overlay } from './overlay.ts';
import { azimuthOf_deg, bladeMesh, bladePlace, box, outlineOf, type OverlayColours } from './sawShapes.ts';
import { TABLE_ACROSS, TABLE_ALONG, upright } from './sawView.ts';
import type { Shape } from './shape.ts';

const BOARD_MM = 6;
/** Between wood and board, so that their faces do not flicker. */
const CLEAR_MM = 0.15;
const LEDGE_MM = 24;
/** Of the blank's length that a ledge may cover. */
const LEDGE_SHARE = 0.4;
const TICK_MM = 4;

export function addTableSaw(
  overlay: Overlay,
  shape: Shape,
  slot: Slot,
  depth: number,
  colours: OverlayColours,
): void {
  const { design, section } = shape;
  const { length_mm } = design.blank;
  const u = slot.fenceDirection;
  const out = slot.stopNormal;
  const half = section.circumscribedRadius_mm;
  const down = endDown(slot);
  const up: Vec3 = [0, 0, down === 'foot' ? 1 : -1];
  const onTable = (above_mm: number): Vec3 =>
    add([0, 0, down === 'foot' ? 0 : length_mm], scale(up, above_mm));
  const along = TABLE_ALONG * half;

  const size: Vec3 = [TABLE_ACROSS * half, along, BOARD_MM / 2];
  overlay.solid(box(onTable(-BOARD_MM / 2 - CLEAR_MM), u, out, up, size), colours.fence, 0.3);
  const edge = [-1, 1].flatMap((i) =>
    [-1, 1].map((j) => add(add(scale(u, i * size[0]), scale(out, j * along)), onTable(-CLEAR_MM))),
  );
  const [a, b, c, d] = edge.map(toDrawn);
  overlay.lines([a, b, b, d, d, c, c, a], colours.fence);

  const ledge_mm = Math.min(LEDGE_MM, length_mm * LEDGE_SHARE);
  const ledgeAt = slot.fenceSupport_mm + CLEAR_MM;
  const ledgeMiddle = add(scale(u, ledgeAt + BOARD_MM / 2), onTable(ledge_mm / 2));
  overlay.solid(box(ledgeMiddle, u, out, up, [BOARD_MM / 2, along, ledge_mm / 2]), colours.stop);
  const middle = down === 'foot' ? ledge_mm / 2 : length_mm - ledge_mm / 2;
  overlay.lines(outlineOf(u, out, [0, 0, 1], ledgeAt, along, ledge_mm / 2, middle), colours.fence);
  overlay.solid(bladeMesh(shape, slot, depth), colours.blade);

  const { tip, across } = bladePlace(shape, slot, depth);
  const upward = scale(across, Math.sign(dot(across, upright(slot))) || 1);
  const above = add(tip, scale(upward, 0.5 * length_mm + 0.35 * half));
  overlay.label(`blade in ${slot.id}`, toDrawn(add(above, scale(u, -0.45 * half))), colours, {
    to: toDrawn(above),
  });
  const corner = add(add(scale(u, -0.8 * size[0]), scale(out, -along)), onTable(0));
  overlay.label(
    `table tilted ${formatAngle(slot.angle_deg)}, ${down} down`,
    toDrawn(add(corner, scale(up, -0.2 * half))),
    colours,
    { to: toDrawn(corner) },
  );
  addLedgeDistance(overlay, shape, slot, onTable, colours);
  addWeb(overlay, shape, slot, colours);
}

/** On the table, at the side where the blade enters: from the ledge to the kerf's middle. */
function addLedgeDistance(
  overlay: Overlay,
  { design, section }: Shape,
  slot: Slot,
  onTable: (above_mm: number) => Vec3,
  colours: OverlayColours,
): void {
  const toKerf_mm = ledgeToKerf_mm(slot, design.blank.length_mm);
  const half = section.circumscribedRadius_mm;
  const at = (along_mm: number, toward_mm: number): Vec3 =>
    add(
      add(scale(slot.fenceDirection, along_mm), scale(slot.stopNormal, -1.12 * half + toward_mm)),
      onTable(0.3),
    );
  const ledge = at(slot.fenceSupport_mm, 0);
  if (toKerf_mm === null) {
    overlay.label('ledge', toDrawn(ledge), colours);
    return;
  }
  const kerf_mm = slot.fenceSupport_mm - toKerf_mm;
  const ticks = [slot.fenceSupport_mm, kerf_mm].flatMap((along) => [at(along, -TICK_MM), at(along, TICK_MM)]);
  overlay.lines([ledge, at(kerf_mm, 0), ...ticks].map(toDrawn), colours.accent, true);
  const middle = at((slot.fenceSupport_mm + kerf_mm) / 2, 0);
  overlay.label(
    toKerf_mm < 0
      ? `mid-kerf ${formatLength(-toKerf_mm, design.unit)} beyond the ledge`
      : `ledge ${formatLength(toKerf_mm, design.unit)} to mid-kerf`,
    toDrawn(add(middle, add(scale(slot.stopNormal, -0.2 * half), scale(slot.fenceDirection, 0.2 * half)))),
    colours,
    { to: toDrawn(middle) },
  );
}

/** Whether the end of the slot is in the wood where the kerf meets an end of the blank. */
function isWood(section: Shape['section'], slot: Slot, trace_mm: number): boolean {
  const [x, y] = add(scale(slot.fenceDirection, trace_mm), scale(slot.stopNormal, slot.stop_mm));
  if (section.round) return Math.hypot(x, y) < section.inscribedRadius_mm;
  return section.faceAzimuths_deg.every(
    (azimuth, i) => x * cosDeg(azimuth) + y * sinDeg(azimuth) < section.faceDistances_mm[i],
  );
}

/** On both ends the line of the kerf's middle in the web, from the stop to the side. */
function addWeb(overlay: Overlay, { design, section }: Shape, slot: Slot, colours: OverlayColours): void {
  const { length_mm } = design.blank;
  const half = section.circumscribedRadius_mm;
  const far = slot.stop_mm + slot.web_mm;
  const lines: [number, number, number][] = [];
  const middles = [0, length_mm].flatMap((z) => {
    const trace = traceAtEnd_mm(slot, z);
    if (trace === null || !isWood(section, slot, trace)) return [];
    const beyond = z === 0 ? -0.2 : length_mm + 0.2;
    const point = (along: number, aside = 0): [number, number, number] =>
      toDrawn(
        add(add(scale(slot.fenceDirection, trace + aside), scale(slot.stopNormal, along)), [0, 0, beyond]),
      );
    lines.push(point(slot.stop_mm), point(far));
    for (const end of [slot.stop_mm, far]) lines.push(point(end, -TICK_MM), point(end, TICK_MM));
    return [{ z, at: point(slot.stop_mm + slot.web_mm / 2) }];
  });
  overlay.lines(lines, colours.accent, true);
  // Named on the upper end, which is seen.
  const upper = endDown(slot) === 'foot' ? length_mm : 0;
  const named = middles.find(({ z }) => z === upper) ?? middles.at(0);
  const beside = add(add(scale(slot.stopNormal, far + 0.15 * half), scale(slot.fenceDirection, 0.5 * half)), [
    0,
    0,
    named?.z ?? length_mm / 2,
  ]);
  overlay.label(`web ${formatThickness(slot.web_mm, design.unit)}`, toDrawn(beside), colours, {
    to: named?.at ?? toDrawn(add(scale(slot.stopNormal, far), [0, 0, length_mm / 2])),
  });
}

export function endUp(slot: Slot): End {
  return endDown(slot) === 'foot' ? 'head' : 'foot';
}

/** On a face that the kerf runs down, to the side of it that has more room. */
export function besideKerf({ section }: Shape, slot: Slot, out: Vec3, z_mm: number): Vec3 {
  const trace_mm = traceAtEnd_mm(slot, z_mm);
  if (trace_mm === null || Math.abs(dot(out, slot.stopNormal)) < 0.99) return [0, 0, 0];
  return scale(slot.fenceDirection, (trace_mm > 0 ? -0.4 : 0.4) * section.inscribedRadius_mm);
}

export function tableRoles(_: Shape, slot: Slot): readonly (readonly [number, string])[] {
  return [[azimuthOf_deg(slot.stopNormal), 'web left']];
}
