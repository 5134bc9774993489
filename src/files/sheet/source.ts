/** What the sheet is made from: the design and what plan and engine say of it, computed once. */
import type { Slot } from '../../blank/slots.ts';
import { slotsOf } from '../../blank/slots.ts';
import { sectionGeometry, type SectionGeometry } from '../../blank/section.ts';
import type { Design, SlotId } from '../../design/document.ts';
import { sessionsOf, type SessionPlan } from '../../plan/sessions.ts';
import { setupsOf, type Setup } from '../../plan/setups.ts';
import type { Colour } from '../drawing/pen.ts';
import { lookOfTimber } from '../look.ts';

export interface SheetSource {
  readonly design: Design;
  readonly section: SectionGeometry;
  /** In cutting order, as the setups are. */
  readonly slots: readonly Slot[];
  readonly setups: readonly Setup[];
  readonly plan: SessionPlan;
  /** Cuts in working order: session after session. */
  readonly cuts: readonly Cut[];
  readonly colours: { readonly body: Colour; readonly timber: (id: string) => Colour };
}

export interface Cut {
  /** From 1, in working order. */
  readonly number: number;
  readonly slot: Slot;
  readonly setup: Setup;
  /** Index in plan.sessions. */
  readonly session: number;
  /** Slots whose strips are in when this cut is made. */
  readonly filled: readonly Slot[];
}

export function sheetSource(design: Design): SheetSource {
  const slots = slotsOf(design);
  const setups = setupsOf(design);
  const plan = sessionsOf(slots, design.blank, design.saw.max_open_slots, {
    stopSide: design.saw.stop_side,
  });
  const place = new Map<SlotId, number>(slots.map((slot, i) => [slot.id, i]));
  const cuts: Cut[] = [];
  const glued: Slot[] = [];
  plan.sessions.forEach((session, index) => {
    const filled = [...glued];
    for (const id of session) {
      const i = place.get(id);
      if (i === undefined) throw new Error(`the plan names ${id}, which no set has`);
      cuts.push({ number: cuts.length + 1, slot: slots[i], setup: setups[i], session: index, filled });
      glued.push(slots[i]);
    }
  });
  return {
    design,
    section: sectionGeometry(design.blank.section),
    slots,
    setups,
    plan,
    cuts,
    colours: {
      body: lookOfTimber(design.blank.timber).srgb,
      timber: (id) => lookOfTimber(id).srgb,
    },
  };
}
