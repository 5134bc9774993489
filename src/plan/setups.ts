/**
 * The set-up at the saw for every cut: where fence, stop and blade stand, and the size of the strip that goes
 * in. Lathe frame, millimetres and degrees as a sheet prints them. Formulas: docs/shop-plan.md, "Set-ups".
 *
 * The blank lies with one face against the fence, the blade enters at the opposite face and stops short of
 * the fence face by the web. Marks are where the mid-plane of the kerf meets a face, measured from the foot.
 * What a set-up with the table tilted has besides is in `table` (tableSetup.ts).
 */
import { cosDeg, cotDeg, normalizeDegrees, sinDeg } from '../geometry/angle.ts';
import { scale, type Vec3 } from '../geometry/vector.ts';
import type { Design, SlotId } from '../design/document.ts';
import { faceLetterAt, sectionGeometry, support_mm, type SectionGeometry } from '../blank/section.ts';
import { slotsOf, type Slot } from '../blank/slots.ts';
import { passesOf, type Passes } from './passes.ts';
import {
  endDown,
  ledgeToKerf_mm,
  slopeRuns,
  tableSetupOf,
  tableWeb_mm,
  type TableSetup,
} from './tableSetup.ts';

export type End = 'foot' | 'head';

interface SetupOfAnyKind {
  readonly slot: SlotId;
  /** Between blade and fence; with the table tilted: its tilt. */
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
  /** The end of the blank that stands against the stop; with the table tilted: that lies on it. */
  readonly stop_end: End;
  /** Along the fence, from the stop to the mid-plane of the kerf; with the table tilted: on it, from the ledge (0 at 90°). */
  readonly stop_to_kerf_center_mm: number;
  /** Along the fence, from the stop to the side of the kerf that is nearer to it. */
  readonly stop_to_kerf_near_mm: number;
  readonly mark_fence_mm: number;
  readonly mark_entry_mm: number;
  /** Left between the tooth line and the fence face (table tilted: the side of the web): the web. */
  readonly blade_stop_mm: number;
  /** What is left of the web at the deeper corner of the kerf's square end; table tilted: docs/shop-plan.md. */
  readonly thinnest_web_mm: number;
  readonly kerf_mm: number;
  /** Down the slope, from the entry face to the end of the slot; table tilted: the longest run of wood down the slope. */
  readonly slot_depth_mm: number;
  /** Across the slope (along v): the section's extent; table tilted: as far as the blank is fed. */
  readonly slot_length_mm: number;
  /** Wood along the blade. */
  readonly cut_height_mm: number;
  /** Sum of the strip's layers. */
  readonly strip_thickness_mm: number;
  readonly strip_depth_mm: number;
  readonly strip_length_mm: number;
  /** Strip thickness − kerf; positive: tight. */
  readonly fit_mm: number;
  /** Farthest wood from the cutting plane on the foot side and on the head side: what the saw's throat must let by. */
  readonly beyond_foot_mm: number;
  readonly beyond_head_mm: number;
  /** Passes of the saw's own kerf through a wider slot; null: one pass, or the saw's kerf is not known. */
  readonly passes: Passes | null;
}

export interface SetupAtFence extends SetupOfAnyKind {
  readonly cut: 'fence';
}

export interface SetupOnTable extends SetupOfAnyKind {
  readonly cut: 'table';
  readonly table: TableSetup;
}

/** One for every kind of cut. */
export type Setup = SetupAtFence | SetupOnTable;

/** Set-ups of a valid design in cutting order. */
export function setupsOf(design: Pick<Design, 'blank' | 'sets' | 'order' | 'saw'>): Setup[] {
  const section = sectionGeometry(design.blank.section);
  return slotsOf(design).map((slot) => setupOf(slot, section, design));
}

/** The set-up of one slot of a design. */
export function setupOf(
  slot: Slot,
  section: SectionGeometry,
  { blank, saw }: Pick<Design, 'blank' | 'saw'>,
): Setup {
  const { length_mm } = blank;
  const rise_mm = slot.slope * slot.fenceSupport_mm * cotDeg(slot.angle_deg);
  const { end, toKerf_mm, halfKerf_mm } = stopSetting(slot, length_mm, saw.stop_side);
  const strip_thickness_mm = stripThickness_mm(slot);
  const setup = {
    slot: slot.id,
    fence_angle_deg: slot.angle_deg,
    protractor_deg: 90 - slot.angle_deg,
    fence_azimuth_deg: slot.fenceAzimuth_deg,
    face: faceLetterAt(section, slot.fenceAzimuth_deg),
    high_side: slot.slope === 1 ? ('fence' as const) : ('entry' as const),
    stop_end: end,
    stop_to_kerf_center_mm: toKerf_mm,
    stop_to_kerf_near_mm: toKerf_mm - halfKerf_mm,
    mark_fence_mm: slot.center_mm + rise_mm,
    mark_entry_mm: slot.center_mm - rise_mm,
    blade_stop_mm: slot.web_mm,
    kerf_mm: slot.kerf_mm,
    strip_thickness_mm,
    fit_mm: strip_thickness_mm - slot.kerf_mm,
    beyond_foot_mm: slot.offset_mm + reach_mm(section, length_mm, scale(slot.normal, -1)),
    beyond_head_mm: reach_mm(section, length_mm, slot.normal) - slot.offset_mm,
    ...ownOf(slot, section, length_mm, saw.strip_overhang_mm),
  };
  return { ...setup, passes: passesOf(saw, setup) };
}

type Own = Pick<SetupOfAnyKind, 'entry_face' | 'thinnest_web_mm'> & Sizes;

/** What the kind of cut decides of a set-up, besides its stop. */
function ownOf(
  slot: Slot,
  section: SectionGeometry,
  length_mm: number,
  overhang_mm: number,
): Own & (Pick<SetupAtFence, 'cut'> | Pick<SetupOnTable, 'cut' | 'table'>) {
  switch (slot.cut) {
    case 'fence':
      return {
        cut: 'fence',
        entry_face: faceLetterAt(section, slot.fenceAzimuth_deg + 180),
        thinnest_web_mm: thinnestWeb_mm(slot),
        ...fenceSizes(slot, section, overhang_mm),
      };
    case 'table': {
      const table = tableSetupOf(slot, section, length_mm);
      return {
        cut: 'table',
        table,
        entry_face: table.entry_face,
        thinnest_web_mm: tableWeb_mm(slot, section, length_mm),
        ...tableSizes(slot, section, length_mm, overhang_mm, table.feed_mm),
      };
    }
  }
}

type Sizes = Pick<
  SetupOfAnyKind,
  'slot_depth_mm' | 'slot_length_mm' | 'cut_height_mm' | 'strip_depth_mm' | 'strip_length_mm'
>;

function fenceSizes(slot: Slot, section: SectionGeometry, overhang_mm: number): Sizes {
  const slot_depth_mm = (2 * slot.fenceSupport_mm - slot.web_mm) / sinDeg(slot.angle_deg);
  const cut_height_mm =
    support_mm(section, slot.fenceAzimuth_deg + 90) + support_mm(section, slot.fenceAzimuth_deg - 90);
  return {
    slot_depth_mm,
    slot_length_mm: cut_height_mm,
    cut_height_mm,
    strip_depth_mm: slot_depth_mm + (slot.kerf_mm / 2) * cotDeg(slot.angle_deg) + overhang_mm,
    strip_length_mm: cut_height_mm + 2 * overhang_mm,
  };
}

/** Both ends of the slope are open and one side is: the strip's own end meets the kerf's end, both square to the kerf. */
function tableSizes(
  slot: Slot,
  section: SectionGeometry,
  length_mm: number,
  overhang_mm: number,
  feed_mm: number,
): Sizes {
  const { low_mm, high_mm, longest_mm } = slopeRuns(slot, section, length_mm);
  return {
    slot_depth_mm: longest_mm,
    slot_length_mm: feed_mm,
    cut_height_mm: longest_mm,
    strip_depth_mm: high_mm - low_mm + 2 * overhang_mm,
    strip_length_mm: feed_mm + overhang_mm,
  };
}

/** The blank's extent from the foot's middle in a direction. */
function reach_mm(section: SectionGeometry, length_mm: number, direction: Vec3): number {
  const [x, y, z] = direction;
  const across = section.round
    ? section.circumscribedRadius_mm * Math.hypot(x, y)
    : Math.max(...section.corners_mm.map(([cx, cy]) => cx * x + cy * y));
  return across + Math.max(0, z * length_mm);
}

/** What fixes the kerf's place at the saw: an end of the blank at the stop, or lying on the tilted table. */
export interface StopSetting {
  readonly end: End;
  /** From the stop, or from the ledge on the table (0 at 90°, where no kerf meets it), to the kerf's middle. */
  readonly toKerf_mm: number;
  /** Half the kerf, along the fence or across the table. */
  readonly halfKerf_mm: number;
}

export function stopSetting(
  slot: Slot,
  length_mm: number,
  stopSide: Design['saw']['stop_side'],
): StopSetting {
  const half_mm = slot.kerf_mm / 2;
  switch (slot.cut) {
    case 'fence': {
      const end = stopEnd(slot, stopSide);
      const mark_mm = slot.center_mm + slot.slope * slot.fenceSupport_mm * cotDeg(slot.angle_deg);
      return {
        end,
        toKerf_mm: end === 'foot' ? mark_mm : length_mm - mark_mm,
        halfKerf_mm: half_mm / sinDeg(slot.angle_deg),
      };
    }
    case 'table': {
      const ledge_mm = ledgeToKerf_mm(slot, length_mm);
      return {
        end: endDown(slot),
        toKerf_mm: ledge_mm ?? 0,
        halfKerf_mm: ledge_mm === null ? 0 : half_mm / cosDeg(slot.angle_deg),
      };
    }
  }
}

/** Azimuth that lies up at the fence when the stop is on the left; with the stop on the right it lies down. */
export function upAzimuth_deg(fenceAzimuth_deg: number, atStop: End): number {
  return normalizeDegrees(fenceAzimuth_deg + (atStop === 'foot' ? 90 : -90));
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
