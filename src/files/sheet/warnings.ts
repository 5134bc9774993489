/** What the design warns of, said once for all slots that it holds for, with what would help at this saw. */
import type { Message, MessageCode } from '../../plan/messages.ts';
import { sawLimitsOf, type SawLimit } from '../../plan/sawLimits.ts';
import { worded } from '../../plan/wording.ts';
import { INCH } from './numbers.ts';
import type { SheetSource } from './source.ts';

/** Which message says what a limit of the saw says. */
const MESSAGE_OF_LIMIT: Readonly<Record<SawLimit['limit'], MessageCode>> = {
  angle: 'angle-out-of-range',
  height: 'blank-too-tall',
  throat: 'throat-too-small',
  face: 'face-not-flat',
  kerf: 'kerf-differs',
};

/** Messages that differ in the slot's name only are said once; what would lift a limit of the saw is added. */
export function groupedMessages({
  design,
  messages,
}: SheetSource): { level: Message['level']; text: string }[] {
  const limits = sawLimitsOf(design);
  const groups = new Map<string, { level: Message['level']; text: string; others: string[] }>();
  for (const { level, code, slot, words } of messages) {
    const remedies = limits.find(
      (one) => one.slot === slot && MESSAGE_OF_LIMIT[one.limit] === code,
    )?.remedies;
    const whole = [words, ...(remedies ?? []).map((remedy) => remedy.words)]
      .map((sentence) => worded(sentence, design.unit, INCH))
      .join(' ');
    const key = slot === null ? whole : whole.replaceAll(slot, '*');
    const group = groups.get(key);
    if (group && slot !== null) group.others.push(slot);
    else groups.set(key, { level, text: whole, others: [] });
  }
  return [...groups.values()].map(({ level, text, others }) => ({
    level,
    text: others.length === 0 ? text : `${text} The same for ${others.join(', ')}.`,
  }));
}
