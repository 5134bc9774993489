/** What the design warns of, said once for all slots that it holds for, with what would help at this saw. */
import type { Message, MessageCode } from '../../plan/messages.ts';
import { sawLimitsOf, type SawLimit } from '../../plan/sawLimits.ts';
import { listed, slotRuns, worded } from '../../plan/wording.ts';
import type { Design } from '../../design/document.ts';
import { INCH } from './numbers.ts';

/** Which message says what a limit of the saw says. */
const MESSAGE_OF_LIMIT: Readonly<Record<SawLimit['limit'], MessageCode>> = {
  angle: 'angle-out-of-range',
  height: 'blank-too-tall',
  throat: 'throat-too-small',
  face: 'face-not-flat',
  kerf: 'kerf-differs',
};

export interface Warning {
  readonly level: Message['level'];
  readonly text: string;
}

/** Messages that differ in the slot's name only are said once; what would lift a limit of the saw is added. */
export function groupedMessages(design: Design, messages: readonly Message[]): Warning[] {
  const limits = new Map(
    sawLimitsOf(design).map((limit) => [`${limit.slot} ${MESSAGE_OF_LIMIT[limit.limit]}`, limit.remedies]),
  );
  const groups = new Map<string, { level: Message['level']; text: string; others: string[] }>();
  for (const { level, code, slot, words } of messages) {
    const remedies = limits.get(`${slot} ${code}`);
    const whole = [words, ...(remedies ?? []).map((remedy) => remedy.words)]
      .map((sentence) => worded(sentence, design.unit, INCH))
      .join(' ');
    const key = slot === null ? whole : `${code} ${whole.replaceAll(slot, '*')}`;
    const group = groups.get(key);
    if (group && slot !== null) group.others.push(slot);
    else groups.set(key, { level, text: whole, others: [] });
  }
  return [...groups.values()].map(({ level, text, others }) => ({
    level,
    text: others.length === 0 ? text : `${text} The same for ${listed(slotRuns(others))}.`,
  }));
}
