/**
 * Which messages are told to the maker. The report lists every message that is true; on screen and on paper one that
 * says twice what another says of the same slot, or that another makes pointless, is left out.
 */
import type { Message, MessageCode } from './messages.ts';

/** What one message makes pointless on the same slot. */
const POINTLESS: Readonly<Partial<Record<MessageCode, readonly MessageCode[]>>> = {
  // No wood is taken: there is nothing to set, to fit or to see.
  'slot-misses': [
    'angle-out-of-range',
    'face-not-flat',
    'tilts-left',
    'blank-too-tall',
    'throat-too-small',
    'kerf-differs',
    'strip-loose',
    'strip-tight',
    'ring-misses',
    'ring-not-whole',
    'ring-runs-off',
  ],
  // Nothing of the strip is left, or none of it shows: its ring has no shape to speak of.
  'strip-lost': ['ring-misses', 'ring-not-whole', 'ring-runs-off'],
  'strip-unseen': ['ring-not-whole', 'ring-runs-off'],
};

/** The messages to tell, in the same order. */
export function toldOf(messages: readonly Message[]): Message[] {
  const codes = new Map<Message['slot'], Set<MessageCode>>();
  for (const { slot, code } of messages) {
    const known = codes.get(slot);
    if (known) known.add(code);
    else codes.set(slot, new Set([code]));
  }
  return messages.flatMap((message) => {
    const { slot, code, beside = {} } = message;
    if (slot === null) return [message];
    const others = [...(codes.get(slot) ?? [])];
    if (others.some((other) => POINTLESS[other]?.includes(code))) return [];
    const other = others.find((one) => one !== code && beside[one] !== undefined);
    if (other === undefined) return [message];
    const words = beside[other];
    return words == null ? [] : [{ ...message, words }];
  });
}
