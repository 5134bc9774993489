/**
 * A cut with the table tilted, to scale, in two views side by side: along the feed (tableFront.ts) and square down on the
 * tilted table (tableTop.ts). Millimetres of paper.
 */
import type { TableSetup } from '../../plan/tableSetup.ts';
import { INK_SOFT, MARK } from './ink.ts';
import { drawLabel, drawLedLabel, Room } from './labels.ts';
import { Pen } from './pen.ts';
import { bestScale, extentOf } from './scales.ts';
import type { SetupDrawing } from './setupLaid.ts';
import {
  drawFront,
  frontCorners,
  LEDGE_STYLE,
  ledgePlace,
  ledgeSpots,
  TILT_STYLE,
  tiltPlace,
  tiltSpots,
} from './tableFront.ts';
import { laidOn } from './tableLaid.ts';
import { drawTop, topCorners, webPlace } from './tableTop.ts';

const BETWEEN_MM = 7;

/** Draws into a box of the given size from the pen's origin; returns the scale, as in 1 : n. */
export function drawTableSetup(
  paper: Pen,
  width_mm: number,
  height_mm: number,
  drawing: SetupDrawing,
  table: TableSetup,
): number {
  const laid = laidOn(drawing, table);
  if (laid === null) {
    paper.text([width_mm / 2, height_mm / 2], 'The kerf lies flat on the table: no blade can come to it.', {
      size_pt: 8.5,
      align: 'center',
      colour: INK_SOFT,
    });
    return 1;
  }
  const views = (n: number) => ({
    front: extentOf(frontCorners(laid, n)),
    top: extentOf(topCorners(laid, n)),
  });
  const scale = bestScale(width_mm, height_mm, (n) => {
    const { front, top } = views(n);
    return {
      left: 0,
      right: front.right - front.left + BETWEEN_MM + top.right - top.left,
      bottom: 0,
      top: Math.max(front.top - front.bottom, top.top - top.bottom),
    };
  });
  const { front, top } = views(scale);
  const used = front.right - front.left + BETWEEN_MM + top.right - top.left;
  const left = (width_mm - used) / 2;
  const middle = height_mm / 2;
  const topLeft = left + front.right - front.left + BETWEEN_MM;
  const along = paper.within([left - front.left, middle - (front.top + front.bottom) / 2]);
  const down = paper.within([topLeft - top.left, middle - (top.top + top.bottom) / 2]);
  const before = paper.items.length;
  drawFront(along, laid, scale);
  drawTop(down, laid, scale);

  const page = new Pen(paper.items);
  const bounds = extentOf([paper.place([0, 0]), paper.place([width_mm, height_mm])]);
  const room = () => new Room(paper.items.slice(before), bounds);
  drawLabel(
    page,
    room(),
    drawing.labels.angle,
    TILT_STYLE,
    tiltSpots(along, laid, scale),
    tiltPlace(along, laid, scale),
  );
  drawLabel(
    page,
    room(),
    drawing.labels.stop,
    LEDGE_STYLE,
    ledgeSpots(along, laid, scale),
    ledgePlace(along, laid, scale),
  );
  const web = webPlace(laid);
  if (web !== null) {
    const at = down.place([web[0] / scale, web[1] / scale]);
    drawLedLabel(page, room(), at, drawing.labels.web, { size_pt: 7.5, colour: MARK });
  }
  return scale;
}
