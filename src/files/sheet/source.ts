/** What the sheet is made from: the design and what plan and engine say of it, computed once. */
import type { Slot } from '../../blank/slots.ts';
import { sectionGeometry, type SectionGeometry } from '../../blank/section.ts';
import type { Design, SlotId } from '../../design/document.ts';
import { measuresOf, type Measures } from '../../plan/measures.ts';
import { messagesOf, type Message } from '../../plan/messages.ts';
import type { AsMade } from '../../plan/made.ts';
import type { Setup } from '../../plan/setups.ts';
import { toldOf } from '../../plan/told.ts';
import type { Colour } from '../drawing/pen.ts';
import { groupedMessages, type Warning } from './warnings.ts';
import { fingerprintOf } from '../fingerprint.ts';
import { looksOf, type TimberLooks } from '../look.ts';

export interface SheetSource {
  readonly design: Design;
  /** Of the state of the design that is printed. */
  readonly fingerprint: string;
  readonly section: SectionGeometry;
  readonly measures: Measures;
  /** Those that the maker is told (plan/told.ts). */
  readonly messages: readonly Message[];
  /** The same said once for all slots that they hold for, with what would help. */
  readonly warnings: readonly Warning[];
  /** Cuts in working order: session after session. */
  readonly cuts: readonly Cut[];
  readonly looks: TimberLooks;
  readonly colours: { readonly body: Colour; readonly timber: (id: string) => Colour };
}

export interface Cut {
  /** From 1, in working order. */
  readonly number: number;
  readonly slot: Slot;
  readonly setup: Setup;
  readonly made: AsMade;
  /** Index of the glue-up. */
  readonly session: number;
  /** Slots whose strips are in when this cut is made. */
  readonly filled: readonly Slot[];
}

export function sheetSource(design: Design): SheetSource {
  const measures = measuresOf(design);
  const { slots, setups, made, plan } = measures;
  const looks = looksOf(design);
  const place = new Map<SlotId, number>(slots.map((slot, i) => [slot.id, i]));
  const cuts: Cut[] = [];
  const glued: Slot[] = [];
  plan.sessions.forEach((session, index) => {
    const filled = [...glued];
    for (const id of session) {
      const i = place.get(id);
      if (i === undefined) throw new Error(`the plan names ${id}, which no set has`);
      const number = cuts.length + 1;
      cuts.push({ number, slot: slots[i], setup: setups[i], made: made[i], session: index, filled });
      glued.push(slots[i]);
    }
  });
  const messages = toldOf(messagesOf(design, measures));
  return {
    design,
    fingerprint: fingerprintOf(design),
    section: sectionGeometry(design.blank.section),
    measures,
    messages,
    warnings: groupedMessages(design, messages),
    cuts,
    looks,
    colours: {
      body: looks(design.blank.timber).srgb,
      timber: (id) => looks(id).srgb,
    },
  };
}
