/** What the sheet is made from: the design and what plan and engine say of it, computed once. */
import type { Slot } from '../../blank/slots.ts';
import { sectionGeometry, type SectionGeometry } from '../../blank/section.ts';
import { cutOf } from '../../design/cuts.ts';
import { CUT_KINDS, type CutKind, type Design, type SlotId, type SlotSet } from '../../design/document.ts';
import { CUT_WORDS } from '../../plan/cutWords.ts';
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

export type CutOf<Kind extends CutKind> = Cut & { readonly setup: Extract<Setup, { cut: Kind }> };

/** The cuts of one kind, in working order. */
export function cutsOf<Kind extends CutKind>({ cuts }: SheetSource, kind: Kind): CutOf<Kind>[] {
  return cuts.filter((cut): cut is CutOf<Kind> => cut.setup.cut === kind);
}

/** The kinds of cut that a design uses, in the order in which all of them are named. */
export function kindsUsed(sets: readonly Pick<SlotSet, 'cut'>[]): CutKind[] {
  const used = new Set(sets.map(cutOf));
  return CUT_KINDS.filter((kind) => used.has(kind));
}

/** `the fence`; `fence or ledge`: what the blank lies against in the cuts of a design. */
export function wallsOf(sets: readonly Pick<SlotSet, 'cut'>[]): string {
  const walls = kindsUsed(sets).map((kind) => CUT_WORDS[kind].wall);
  return walls.length === 1 ? `the ${walls[0]}` : walls.join(' or ');
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
