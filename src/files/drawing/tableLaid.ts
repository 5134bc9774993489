/**
 * How a blank lies on the tilted table, as both views of such a cut draw it. Millimetres of wood; e along the table from
 * the blade, positive to the right of one who feeds the blank away from himself.
 */
import { DEG } from '../../geometry/angle.ts';
import { sectionGeometry, support_mm, type SectionGeometry } from '../../blank/section.ts';
import type { TableSetup } from '../../plan/tableSetup.ts';
import type { SetupDrawing } from './setupLaid.ts';

/** Width of the ledge on paper, which has no true size. */
export const LEDGE_MM = 4;

/** The blank as it lies. */
export interface Laid extends SetupDrawing {
  readonly table: TableSetup;
  readonly section: SectionGeometry;
  /** +1: the ledge is on the right. */
  readonly right: 1 | -1;
  /** e of the ledge, and of the far side of the blank. */
  readonly ledge: number;
  readonly far: number;
  readonly height: number;
  readonly turn_rad: number;
}

export function laidOn(drawing: SetupDrawing, table: TableSetup): Laid | null {
  if (table.ledge_to_kerf_center_mm === null) return null;
  const { design, slot } = drawing;
  const section = sectionGeometry(design.blank.section);
  const right = table.tilts === 'right' ? 1 : -1;
  const across = slot.fenceSupport_mm + support_mm(section, slot.fenceAzimuth_deg + 180);
  const ledge = right * table.ledge_to_kerf_center_mm;
  return {
    ...drawing,
    table,
    section,
    right,
    ledge,
    far: ledge - right * across,
    height: design.blank.length_mm,
    turn_rad: -right * table.tilt_deg * DEG,
  };
}

/** e of a distance u toward the ledge. */
export function eOf({ right, ledge, slot }: Laid, u: number): number {
  return ledge + right * (u - slot.fenceSupport_mm);
}
