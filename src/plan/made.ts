/**
 * What follows from what was measured at the saw and the bench: the kerf that a slot has, the web that is left, the
 * strip that fits. Millimetres. A measure of the slot itself comes before the saw's test cut, and that before the
 * design. Rules: docs/shop-plan.md, "As made".
 */
import { sectionGeometry } from '../blank/section.ts';
import { slotsOf, type Slot } from '../blank/slots.ts';
import type { Design, MadeSlot, SlotId } from '../design/document.ts';
import { setupOf, setupsOf, type Setup } from './setups.ts';

export interface AsMade {
  readonly slot: SlotId;
  readonly kerf_mm: number;
  readonly kerfFrom: 'slot' | 'test cut' | 'design';
  readonly web_mm: number;
  readonly webMeasured: boolean;
  /** As the set-up's own, for this kerf and web. */
  readonly thinnest_web_mm: number;
  /** The strip as measured, else the one to make. */
  readonly strip_mm: number;
  readonly stripMeasured: boolean;
  /** Strip thickness less kerf; positive: tight. */
  readonly fit_mm: number;
  /** As the set-up's own, for this kerf: where the side of the blade stands when its middle is set. */
  readonly stop_to_kerf_near_mm: number;
  /** null where the table is not tilted, or the kerf never meets it. */
  readonly ledge_to_kerf_near_mm: number | null;
  /** Size of the strip for this kerf and web, overhang included. */
  readonly strip_depth_mm: number;
  readonly strip_length_mm: number;
}

type Planned = Pick<Design, 'blank' | 'sets' | 'order' | 'saw' | 'made'>;

/** In cutting order. `setups` are the design's own. */
export function asMadeOf(design: Planned, setups: readonly Setup[] = setupsOf(design)): AsMade[] {
  const section = sectionGeometry(design.blank.section);
  return slotsOf(design).map((slot, n) => {
    const setup = setups[n];
    const measured = design.made?.[slot.id] ?? {};
    const [kerf_mm, kerfFrom] = kerfOf(measured, setup, design.saw);
    const made = madeSlot(slot, { ...measured, kerf_mm });
    const sizes = setupOf(made, section, design);
    const strip_mm = measured.strip_mm ?? stripToMake_mm(setup, kerf_mm, design.saw.strip_tolerance_mm);
    return {
      slot: slot.id,
      kerf_mm,
      kerfFrom,
      web_mm: made.web_mm,
      webMeasured: measured.web_mm !== undefined,
      thinnest_web_mm: sizes.thinnest_web_mm,
      strip_mm,
      stripMeasured: measured.strip_mm !== undefined,
      fit_mm: strip_mm - kerf_mm,
      stop_to_kerf_near_mm: sizes.stop_to_kerf_near_mm,
      ledge_to_kerf_near_mm: ledgeToKerfNear_mm(sizes),
      strip_depth_mm: sizes.strip_depth_mm,
      strip_length_mm: sizes.strip_length_mm,
    };
  });
}

function ledgeToKerfNear_mm(setup: Setup): number | null {
  switch (setup.cut) {
    case 'fence':
      return null;
    case 'table':
      return setup.table.ledge_to_kerf_near_mm;
  }
}

/** A slot with the kerf and the web that were measured, its mid-plane where it was meant. */
export function madeSlot(slot: Slot, { kerf_mm = slot.kerf_mm, web_mm = slot.web_mm }: MadeSlot): Slot {
  return { ...slot, kerf_mm, web_mm, stop_mm: slot.stop_mm + slot.web_mm - web_mm };
}

function kerfOf(
  measured: MadeSlot,
  setup: Setup,
  { blade_kerf_mm }: Design['saw'],
): readonly [kerf_mm: number, from: AsMade['kerfFrom']] {
  if (measured.kerf_mm !== undefined) return [measured.kerf_mm, 'slot'];
  // Sawn in passes a slot comes out as wide as it was meant to be, whatever the saw's own kerf.
  if (blade_kerf_mm !== undefined && setup.passes === null) return [blade_kerf_mm, 'test cut'];
  return [setup.kerf_mm, 'design'];
}

/** As much thinner or thicker than the kerf as the design means it, where that is within what strips are held to. */
function stripToMake_mm(
  { kerf_mm, strip_thickness_mm, fit_mm }: Setup,
  made_mm: number,
  tolerance_mm: number,
): number {
  if (made_mm === kerf_mm) return strip_thickness_mm;
  const wanted_mm = made_mm + fit_mm;
  return Math.abs(fit_mm) <= tolerance_mm + 1e-9 && wanted_mm > 0 ? wanted_mm : made_mm;
}
