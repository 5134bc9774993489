/**
 * The set-up at the saw for every cut: where fence, stop and blade stand, and the size of the strip that goes
 * in. Lathe frame, millimetres and degrees as a sheet prints them. Formulas: docs/shop-plan.md, "Set-ups".
 *
 * The blank lies with one face against the fence, the blade enters at the opposite face and stops short of
 * the fence face by the web. Marks are where the mid-plane of the kerf meets a face, measured from the foot.
 */
import { cosDeg, cotDeg, sinDeg } from '../geometry/angle.ts';
import type { Design, SlotId } from '../design/document.ts';
import { faceLetterAt, sectionGeometry, support_mm } from '../blank/section.ts';
import { slotsOf, type Slot } from '../blank/slots.ts';

export type End = 'foot' | 'head';

export interface Setup {
  readonly slot: SlotId;
  /** Between blade and fence. */
  readonly fence_angle_deg: number;
  /** The same angle on a protractor that reads 0 when the fence stands square to the blade. */
  readonly protractor_deg: number;
  /** Azimuth of the direction in which the fence lies, in [0, 360). */
  readonly fence_azimuth_deg: number;
  /** Letter of the face at the fence; null when no flat stands square on the azimuth. */
  readonly face: string | null;
  /** Letter of the face where the blade enters; null likewise. */
  readonly entry_face: string | null;
  readonly high_side: 'fence' | 'entry';
  /** The end of the blank that stands against the stop. */
  readonly stop_end: End;
  /** Along the fence, from the stop to the mid-plane of the kerf. */
  readonly stop_to_kerf_center_mm: number;
  /** Along the fence, from the stop to the side of the kerf that is nearer to it. */
  readonly stop_to_kerf_near_mm: number;
  readonly mark_fence_mm: number;
  readonly mark_entry_mm: number;
  /** Left between the tooth line and the fence face: the web. */
  readonly blade_stop_mm: number;
  /** What is left of the web at the deeper corner of the kerf's square end. */
  readonly thinnest_web_mm: number;
  readonly kerf_mm: number;
  /** Down the slope, from the entry face to the end of the slot. */
  readonly slot_depth_mm: number;
  /** Height of wood above the table: the section's extent along the blade. */
  readonly cut_height_mm: number;
  /** Sum of the strip's layers. */
  readonly strip_thickness_mm: number;
  readonly strip_depth_mm: number;
  readonly strip_length_mm: number;
  /** Strip thickness − kerf; positive: tight. */
  readonly fit_mm: number;
}

/** Set-ups of a valid design in cutting order. */
export function setupsOf(design: Pick<Design, 'blank' | 'sets' | 'order' | 'saw'>): Setup[] {
  const section = sectionGeometry(design.blank.section);
  return slotsOf(design).map((slot) => {
    const h_mm = slot.fenceSupport_mm;
    const sine = sinDeg(slot.angle_deg);
    const cotangent = cotDeg(slot.angle_deg);
    const rise_mm = slot.slope * h_mm * cotangent;
    const mark_fence_mm = slot.center_mm + rise_mm;
    const stop_end = stopEnd(slot, design.saw.stop_side);
    const stop_to_kerf_center_mm =
      stop_end === 'foot' ? mark_fence_mm : design.blank.length_mm - mark_fence_mm;
    const slot_depth_mm = (2 * h_mm - slot.web_mm) / sine;
    const cut_height_mm =
      support_mm(section, slot.fenceAzimuth_deg + 90) + support_mm(section, slot.fenceAzimuth_deg - 90);
    const strip_thickness_mm = stripThickness_mm(slot);
    return {
      slot: slot.id,
      fence_angle_deg: slot.angle_deg,
      protractor_deg: 90 - slot.angle_deg,
      fence_azimuth_deg: slot.fenceAzimuth_deg,
      face: faceLetterAt(section, slot.fenceAzimuth_deg),
      entry_face: faceLetterAt(section, slot.fenceAzimuth_deg + 180),
      high_side: slot.slope === 1 ? 'fence' : 'entry',
      stop_end,
      stop_to_kerf_center_mm,
      stop_to_kerf_near_mm: stop_to_kerf_center_mm - slot.kerf_mm / 2 / sine,
      mark_fence_mm,
      mark_entry_mm: slot.center_mm - rise_mm,
      blade_stop_mm: slot.web_mm,
      thinnest_web_mm: thinnestWeb_mm(slot),
      kerf_mm: slot.kerf_mm,
      slot_depth_mm,
      cut_height_mm,
      strip_thickness_mm,
      strip_depth_mm: slot_depth_mm + (slot.kerf_mm / 2) * cotangent + design.saw.strip_overhang_mm,
      strip_length_mm: cut_height_mm + 2 * design.saw.strip_overhang_mm,
      fit_mm: strip_thickness_mm - slot.kerf_mm,
    };
  });
}

/** Sum of a strip's layers, mm. */
export function stripThickness_mm(slot: Pick<Slot, 'layers'>): number {
  return slot.layers.reduce((sum, layer) => sum + layer.thickness_mm, 0);
}

/** Wood left at the deeper corner of the kerf, whose end is square to the kerf and not to the fence, mm. */
export function thinnestWeb_mm(slot: Pick<Slot, 'web_mm' | 'kerf_mm' | 'angle_deg'>): number {
  return slot.web_mm - (slot.kerf_mm / 2) * cosDeg(slot.angle_deg);
}

/** The end of the blank against the stop; the side of the stop is a property of the jig. */
export function stopEnd(slot: Pick<Slot, 'slope' | 'angle_deg'>, stopSide: Design['saw']['stop_side']): End {
  if (slot.angle_deg === 90) return 'foot';
  return (slot.slope === 1) === (stopSide === 'acute') ? 'foot' : 'head';
}
