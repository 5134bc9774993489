/** Outlines and slots whose measures are known in closed form, for the reference tests. Lathe frame, mm. */
import { sectionGeometry, type SectionGeometry } from '../../src/blank/section.ts';
import { slotsOf, type Slot } from '../../src/blank/slots.ts';
import type { Section, SlotSet } from '../../src/design/document.ts';
import { flattenOutline, type OutlinePointLike, type Profile } from '../../src/geometry/outline.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';

/** A section far wider than any form of these tests, with no web: nothing is cut short. */
export const WIDE: Section = { shape: 'square', width_mm: 400 };
export const WIDE_SECTION: SectionGeometry = sectionGeometry(WIDE);

/** Slots of sets that differ from the four-ring design as said; no web unless asked for. */
export function slotsLike(sets: readonly Partial<SlotSet>[], section: Section = WIDE): Slot[] {
  return slotsOf(
    fourRings({
      section,
      sets: sets.map((set, i) => slotSet({ id: `S${i + 1}`, web_mm: 0, ...set })),
    }),
  );
}

/** The only slot of one set with one fence azimuth. */
export function oneSlot(set: Partial<SlotSet>, section: Section = WIDE): Slot[] {
  return slotsLike([{ fence_azimuths_deg: [0], ...set }], section);
}

export function corners(...points: readonly (readonly [z_mm: number, r_mm: number])[]): Profile {
  return flattenOutline(points.map(([z_mm, r_mm]): OutlinePointLike => ({ z_mm, r_mm })));
}

export function cylinder(length_mm: number, radius_mm: number): Profile {
  return corners([0, 0], [0, radius_mm], [length_mm, radius_mm], [length_mm, 0]);
}

/** A sphere about (0, 0, R) as a polyline whose vertices lie on it; `pieces` over the half circle. */
export function sphere(radius_mm: number, pieces: number): Profile {
  const points = Array.from({ length: pieces + 1 }, (_, i) => {
    const angle = (Math.PI * i) / pieces;
    const r = i === 0 || i === pieces ? 0 : radius_mm * Math.sin(angle);
    return [radius_mm * (1 - Math.cos(angle)), r] as const;
  });
  return corners(...points);
}
