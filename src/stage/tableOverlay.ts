/**
 * A cut with the table tilted, drawn with the blank: the table under the end that lies on it, the ledge along its low
 * edge, the blade in the kerf, the web that stays. Lathe frame, mm.
 */
import type { Slot } from '../blank/slots.ts';
import { formatAngle, formatLength, formatThickness } from '../design/lengthText.ts';
import { add, scale, type Vec3 } from '../geometry/vector.ts';
import { toDrawn } from '../meshes/mesh.ts';
import { endDown, ledgeToKerf_mm, traceAtEnd_mm } from '../plan/tableSetup.ts';
import type { Overlay } from './overlay.ts';
import { bladeMesh, box, outlineOf, type OverlayColours } from './sawShapes.ts';
import type { Shape } from './shape.ts';

const BOARD_MM = 6;
/** Between wood and board, so that their faces do not flicker. */
const CLEAR_MM = 0.15;
const LEDGE_MM = 30;

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
  const v = slot.bladeDirection;
  const half = section.circumscribedRadius_mm;
  const footDown = endDown(slot) === 'foot';
  const up: Vec3 = [0, 0, footDown ? 1 : -1];
  const onTable = (above_mm: number): Vec3 => add([0, 0, footDown ? 0 : length_mm], scale(up, above_mm));

  const tableMiddle = onTable(-BOARD_MM / 2 - CLEAR_MM);
  const size: Vec3 = [half * 1.35, half * 1.6, BOARD_MM / 2];
  overlay.solid(box(tableMiddle, u, v, up, size), colours.fence, 0.3);
  const ledge_mm = Math.min(LEDGE_MM, length_mm * 0.7);
  const ledgeAt = slot.fenceSupport_mm + CLEAR_MM;
  const ledgeMiddle = add(scale(u, ledgeAt + BOARD_MM / 2), onTable(ledge_mm / 2));
  overlay.solid(box(ledgeMiddle, u, v, up, [BOARD_MM / 2, half * 1.6, ledge_mm / 2]), colours.stop);
  const middle = footDown ? ledge_mm / 2 : length_mm - ledge_mm / 2;
  overlay.lines(outlineOf(u, v, [0, 0, 1], ledgeAt, half * 1.6, ledge_mm / 2, middle), colours.fence);
  const toKerf_mm = ledgeToKerf_mm(slot, length_mm);
  overlay.label(
    toKerf_mm === null ? 'ledge' : `ledge ${formatLength(toKerf_mm, design.unit)} to mid-kerf`,
    toDrawn(add(ledgeMiddle, scale(u, BOARD_MM + 4))),
    colours,
  );
  overlay.solid(bladeMesh(shape, slot, depth), colours.blade);

  // On both ends the line of the kerf's middle in the web, from the stop to the side.
  const lines: [number, number, number][] = [];
  const ends = [0, length_mm].flatMap((z) => {
    const trace = traceAtEnd_mm(slot, z);
    if (trace === null || Math.abs(trace) > half) return [];
    const beyond = z === 0 ? -0.2 : length_mm + 0.2;
    const point = (along: number): [number, number, number] =>
      toDrawn(add(add(scale(u, trace), scale(slot.stopNormal, along)), [0, 0, beyond]));
    lines.push(point(slot.stop_mm), point(slot.stop_mm + slot.web_mm));
    return [point(slot.stop_mm + slot.web_mm + 8)];
  });
  overlay.lines(lines, colours.accent, true);
  const middleOfWeb = add(scale(slot.stopNormal, slot.stop_mm + slot.web_mm + 8), [0, 0, length_mm / 2]);
  overlay.label(`web ${formatThickness(slot.web_mm, design.unit)}`, ends[0] ?? toDrawn(middleOfWeb), colours);
  overlay.label(
    `${slot.id}: table ${formatAngle(slot.angle_deg)}`,
    toDrawn(add(scale(slot.stopNormal, -half - 14), [0, 0, length_mm / 2])),
    colours,
  );
}
