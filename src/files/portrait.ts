/** A small picture of a design for lists: the piece from the side, drawn as on the shop sheet. Millimetres, z up. */
import { DEG } from '../geometry/angle.ts';
import { slotsOf } from '../blank/slots.ts';
import { timberColour } from '../design/colors.ts';
import type { Design } from '../design/document.ts';
import { sectionGeometry } from '../design/section.ts';
import { flattenOutline } from '../geometry/outline.ts';
import { type Item, Pen } from './drawing/pen.ts';
import { cylinderProfile, drawBlockSide, drawTurnedSide, type PieceColours } from './drawing/piece.ts';

export interface Portrait {
  readonly items: readonly Item[];
  readonly width_mm: number;
  readonly height_mm: number;
}

/** Towards the eye: an edge of a square blank, where the rings of two faces meet. */
const FACING_DEG = 45;

export function portraitOf(design: Design): Portrait {
  const timber = (id: string) => timberColour(design, id);
  const colours: PieceColours = { body: timber(design.blank.timber), timber };
  const slots = slotsOf(design);
  const section = sectionGeometry(design.blank.section);
  const { form, blank } = design;
  if (!form && !section.round) {
    const radius_mm = section.circumscribedRadius_mm;
    const pen = new Pen([], 1, 0, [radius_mm, 0]);
    drawBlockSide(pen, slots, section, blank.length_mm, colours, FACING_DEG - 20);
    return { items: pen.items, width_mm: 2 * radius_mm, height_mm: blank.length_mm };
  }
  const profile = form
    ? flattenOutline(form.outline, undefined, form.loop)
    : cylinderProfile(blank.section.width_mm / 2, blank.length_mm);
  const radius_mm = Math.max(...profile.r_mm);
  const foot_mm = profile.z_mm[profile.outsideStart];
  const pen = new Pen([], 1, 0, [radius_mm, -foot_mm]);
  drawTurnedSide(pen, slots, profile, colours, FACING_DEG * DEG);
  return {
    items: pen.items,
    width_mm: 2 * radius_mm,
    height_mm: profile.z_mm[profile.outsideEnd] - foot_mm,
  };
}
