/**
 * What the maker's saw cannot cut as the design asks, and what would make it possible. Millimetres, degrees.
 * The same facts as the messages `angle-out-of-range`, `blank-too-tall` and `face-not-flat`, with remedies.
 */
import { faceIndexAt, sectionGeometry } from '../blank/section.ts';
import type { Design, SlotId } from '../design/document.ts';
import { setupsOf } from './setups.ts';
import { degrees, mm } from './wording.ts';

/** A table of the usual kind tilts to 45° (common practice). */
export const USUAL_TABLE_TILT_DEG = 45;

export interface SawLimit {
  readonly slot: SlotId;
  readonly limit: 'angle' | 'height' | 'face';
  readonly text: string;
  /** Any one of them is enough. */
  readonly remedies: readonly string[];
}

/** Limits met, slot by slot in cutting order; empty when the saw can cut everything. */
export function sawLimitsOf(design: Design): SawLimit[] {
  const { saw, blank } = design;
  const section = sectionGeometry(blank.section);
  return setupsOf(design).flatMap((setup) => {
    const limits: SawLimit[] = [];
    const angle = setup.fence_angle_deg;
    if (angle < saw.fence_min_deg)
      limits.push({
        slot: setup.slot,
        limit: 'angle',
        text: `${setup.slot} asks for ${degrees(angle)}, the fence turns no further than ${degrees(saw.fence_min_deg)}.`,
        remedies: [
          `Raise the angle of its set to ${degrees(saw.fence_min_deg)}.`,
          `Make a sled whose fence stands at ${degrees(angle)}.`,
          ...(angle <= USUAL_TABLE_TILT_DEG ? [`Cut it with the table tilted by ${degrees(angle)}.`] : []),
        ],
      });
    if (angle > saw.fence_max_deg)
      limits.push({
        slot: setup.slot,
        limit: 'angle',
        text: `${setup.slot} asks for ${degrees(angle)}, the fence opens no further than ${degrees(saw.fence_max_deg)}.`,
        remedies: [
          `Lower the angle of its set to ${degrees(saw.fence_max_deg)}.`,
          `Make a sled whose fence stands at ${degrees(angle)}.`,
        ],
      });
    if (setup.cut_height_mm > saw.max_cut_height_mm)
      limits.push({
        slot: setup.slot,
        limit: 'height',
        text: `The blank stands ${mm(setup.cut_height_mm)} high for ${setup.slot}, the saw clears ${mm(saw.max_cut_height_mm)}.`,
        remedies: [
          `Take a blank that is at least ${mm(setup.cut_height_mm - saw.max_cut_height_mm)} smaller across the blade.`,
          `Use a saw that clears ${mm(setup.cut_height_mm)}.`,
        ],
      });
    if (setup.face === null)
      limits.push({
        slot: setup.slot,
        limit: 'face',
        text: `No flat of the blank stands at azimuth ${degrees(setup.fence_azimuth_deg)}, where ${setup.slot} wants the fence.`,
        remedies: [
          `Hold the blank in a cradle with its index mark at ${degrees(setup.fence_azimuth_deg)}.`,
          ...nearestFlat(section.faceAzimuths_deg, setup.fence_azimuth_deg),
          ...(section.round ? ['Saw from a square blank and turn it round after the last strip.'] : []),
        ],
      });
    return limits;
  });

  function nearestFlat(flats: readonly number[], azimuth_deg: number): string[] {
    if (flats.length === 0) return [];
    const turn = (flat: number) => ((azimuth_deg - flat + 540) % 360) - 180;
    const nearest = flats.reduce((best, flat) => (Math.abs(turn(flat)) < Math.abs(turn(best)) ? flat : best));
    const letter = 'ABCDEFGH'[faceIndexAt(section, nearest)];
    return [
      `Move the azimuth by ${degrees(Math.abs(turn(nearest)))} to face ${letter} (${degrees(nearest)}).`,
    ];
  }
}
