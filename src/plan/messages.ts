/**
 * What the maker must know before cutting, from the design and its measures. Codes, levels and thresholds are
 * public: docs/report.md, "Messages". Their words carry lengths as quantities (wording.ts): the report gives them in
 * millimetres, panels, sheet and `check` in the design's unit.
 *
 * A warning: it can be cut, but result or safety suffers. A note: worth knowing.
 */
import type { Design, SlotId } from '../design/document.ts';
import { holeMessages } from './holeMessages.ts';
import { formMessages, ringMessages } from './ringMessages.ts';
import { measuresOf, type Measures } from './measures.ts';
import { sawMessages } from './sawMessages.ts';
import { stripMessages } from './stripMessages.ts';
import { wedgeMessages } from './wedges.ts';
import { said, type Wording } from './wording.ts';

export type MessageCode =
  | 'form-outside-blank'
  | 'hole-misses'
  | 'hole-breaks-out'
  | 'sessions-not-proven'
  | 'slot-misses'
  | 'web-lost'
  | 'slot-through-end'
  | 'slot-through-side'
  | 'web-thin'
  | 'web-cross-grain'
  | 'angle-out-of-range'
  | 'face-not-flat'
  | 'tilts-left'
  | 'blank-too-tall'
  | 'throat-too-small'
  | 'kerf-differs'
  | 'strip-loose'
  | 'strip-tight'
  | 'strip-lost'
  | 'strip-unseen'
  | 'slots-too-close'
  | 'wedge-loose'
  | 'ring-misses'
  | 'ring-not-whole'
  | 'ring-runs-off';

export interface Message {
  readonly level: 'warning' | 'note';
  readonly code: MessageCode;
  /** null: about the piece as a whole. */
  readonly slot: SlotId | null;
  readonly words: Wording;
  /** What is left to say where another message of the same slot is told as well; null: nothing. */
  readonly beside?: Readonly<Partial<Record<MessageCode, Wording | null>>>;
}

/** All messages of a valid design: first those on the whole piece, then slot by slot in cutting order. */
export function messagesOf(design: Design, measures: Measures = measuresOf(design)): Message[] {
  const messages = [
    ...formMessages(design, measures),
    ...holeMessages(design, measures),
    ...planMessages(measures),
    ...sawMessages(design, measures),
    ...stripMessages(design, measures),
    ...wedgeMessages(measures, design.blank.length_mm),
    ...ringMessages(measures),
  ];
  const place = new Map(measures.slots.map((slot, n) => [slot.id, n]));
  const rank = (message: Message) => (message.slot === null ? -1 : (place.get(message.slot) ?? 0));
  return messages.sort((a, b) => rank(a) - rank(b));
}

function planMessages({ plan }: Measures): Message[] {
  if (plan.exact) return [];
  return [
    {
      level: 'note',
      code: 'sessions-not-proven',
      slot: null,
      words: said`The plan has ${plan.sessions.length} glue-ups, the fewest found; fewer than ${plan.bound} are not possible.`,
    },
  ];
}
