/**
 * The wrap-around layout: all faces of the blank side by side at 1 : 1, with both sides of every kerf and the
 * places of its mid-plane on the fence and entry faces. Cut out, folded at the edges of the faces and wrapped
 * round the blank, it shows every cut before it is made.
 */
import { flatsOf, midlineOnFlat, slotOnFlat, type Flat } from '../../drawing/faces.ts';
import { EDGE, HIDDEN, INK_FAINT, INK_SOFT, MARK, MARK_TINT, THIN } from '../../drawing/ink.ts';
import type { Pen, Point } from '../../drawing/pen.ts';
import { bandOutlines, cylinderProfile } from '../../drawing/piece.ts';
import type { Slot } from '../../../blank/slots.ts';
import type { SheetPages } from '../frame.ts';
import type { SheetSource } from '../source.ts';
import { addFullSize } from './tiles.ts';
import { drawPlaces } from './wrapNumbers.ts';
import { placesOnFlats, placesRound } from './wrapPlaces.ts';

/** Flap that closes the wrap. */
const FLAP_MM = 8;
/** Room about the outline for its own line. */
const EDGE_MM = 0.5;

export function addWrapLayout(pages: SheetPages, source: SheetSource): void {
  const { section, design } = source;
  const L = design.blank.length_mm;
  const flats = flatsOf(section);
  const around = section.round
    ? 2 * Math.PI * section.inscribedRadius_mm
    : flats.reduce((sum, flat) => sum + flat.to_mm - flat.from_mm, 0);
  addFullSize(pages, {
    section: 'Layout of the marks, 1 : 1',
    use:
      (section.round
        ? 'Cut out and wrap it round the blank, foot to foot, the flap under the edge at 0°. '
        : 'Cut out, fold at the edges of the faces and wrap it round the blank, foot to foot, the flap under face A. ') +
      'Blue: both sides of a kerf; dashed: its middle where the web hides it or the cut does not reach.',
    width_mm: around + FLAP_MM + 2 * EDGE_MM,
    height_mm: L + 2 * EDGE_MM,
    draw: (pen) => {
      const sheet = pen.within([EDGE_MM, EDGE_MM]);
      drawOutline(sheet, around, L);
      if (section.round) drawRound(sheet, source, around, L);
      else drawFaces(sheet, source, flats, L);
      drawPlaces(
        sheet,
        pages.typeface,
        L,
        section.round ? placesRound(source) : placesOnFlats(source, flats),
      );
    },
  });
}

function drawOutline(pen: Pen, around: number, L: number): void {
  pen.polygon(
    [
      [around, 0],
      [around + FLAP_MM, 5],
      [around + FLAP_MM, L - 5],
      [around, L],
    ],
    { stroke: THIN },
  );
  pen.rectangle([0, 0], around, L, { stroke: EDGE });
  // The ends are named on the flap, clear of the marks.
  for (const [y, word] of [
    [16, 'foot'],
    [L - 16, 'head'],
  ] as const)
    pen.text([around + FLAP_MM / 2 + 1, y], word, {
      size_pt: 9,
      align: 'center',
      colour: INK_SOFT,
      angle_deg: 90,
    });
}

function drawFaces(pen: Pen, source: SheetSource, flats: readonly Flat[], L: number): void {
  const { slots } = source.measures;
  let left = 0;
  for (const flat of flats) {
    const width = flat.to_mm - flat.from_mm;
    const face = pen.within([left - flat.from_mm, 0]);
    for (const slot of slots) drawOnFace(face, slot, flat, L);
    if (left > 0) pen.line([left, 0], [left, L], HIDDEN);
    pen.text([left + width / 2, L - 8], flat.letter, {
      size_pt: 16,
      weight: 'semibold',
      align: 'center',
      colour: INK_FAINT,
    });
    left += width;
  }
}

function drawOnFace(pen: Pen, slot: Slot, flat: Flat, L: number): void {
  const open = slotOnFlat(slot, flat, L);
  if (open.length > 0) pen.polygon(open, { fill: MARK_TINT, stroke: { colour: MARK, width_mm: 0.18 } });
  const middle = midlineOnFlat(slot, flat, L);
  if (middle) pen.polyline(middle, { ...HIDDEN, colour: MARK });
}

function drawRound(pen: Pen, { measures, section }: SheetSource, around: number, L: number): void {
  const profile = cylinderProfile(section.inscribedRadius_mm, L);
  const window = { from_rad: 0, to_rad: 2 * Math.PI };
  for (const slot of measures.slots)
    for (const outline of bandOutlines(slot, profile, window))
      pen.polygon(
        outline.map(({ azimuth_rad, z_mm }): Point => [(azimuth_rad / (2 * Math.PI)) * around, z_mm]),
        { fill: MARK_TINT, stroke: { colour: MARK, width_mm: 0.18 } },
      );
  for (let quarter = 0; quarter < 4; quarter++) {
    const x = (quarter / 4) * around;
    pen.line([x, 0], [x, L], HIDDEN);
    pen.text([x + 1.5, L - 6], `${quarter * 90}°`, { size_pt: 9, colour: INK_FAINT });
  }
}
