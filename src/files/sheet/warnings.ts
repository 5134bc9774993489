/** What the design warns of, said once for all slots that it holds for, with what would help at this saw. */
import type { Message, MessageCode } from '../../plan/messages.ts';
import { sawLimitsOf, type SawLimit } from '../../plan/sawLimits.ts';
import { degrees, listed, slotRuns, worded, type Wording } from '../../plan/wording.ts';
import type { Design, SlotId } from '../../design/document.ts';
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

/** A sentence of one slot: as it is read, and with what is the slot's own taken out, so that it can be told again. */
interface Sentence {
  readonly text: string;
  readonly key: string;
}

/** One slot of which a sentence is told; `own`: what there differs from slot to slot. */
interface Told {
  readonly slot: SlotId | null;
  readonly own: string;
  readonly remedies: readonly Sentence[];
}

/**
 * Messages that differ in the slot's name, its azimuth or the slots beside it only are said once; what would lift a limit of the
 * saw is added: once where it is the same for all, else slot by slot.
 */
export function groupedMessages(design: Design, messages: readonly Message[]): Warning[] {
  const azimuths = new Map(
    design.sets.flatMap((set) =>
      set.fence_azimuths_deg.map((azimuth, n): [SlotId, string] => [`${set.id}.${n + 1}`, degrees(azimuth)]),
    ),
  );
  const limits = new Map(
    sawLimitsOf(design).map((limit) => [`${limit.slot} ${MESSAGE_OF_LIMIT[limit.limit]}`, limit.remedies]),
  );
  const groups = new Map<string, { level: Message['level']; text: string; told: Told[] }>();
  for (const { level, code, slot, words } of messages) {
    const azimuth = slot === null ? undefined : azimuths.get(slot);
    const read = (sentence: Wording): Sentence => ({
      text: worded(sentence, design.unit, INCH),
      key: keyOf(sentence, slot, azimuth, design),
    });
    const { text, key } = read(words);
    const group = groups.get(`${code} ${key}`) ?? { level, text, told: [] };
    const remedies = (limits.get(`${slot} ${code}`) ?? []).map((remedy) => read(remedy.words));
    group.told.push({ slot, own: ownOf(words, azimuth), remedies });
    groups.set(`${code} ${key}`, group);
  }
  return [...groups.values()].map(({ level, text, told }) => ({
    level,
    text: [text, ...sentencesOf(told)].join(' '),
  }));
}

/** The sentence with the slot's name, its azimuth and the slots beside it taken out. */
function keyOf(words: Wording, slot: SlotId | null, azimuth: string | undefined, { unit }: Design): string {
  return words
    .map((part) => {
      if (part === slot) return '<slot>';
      if (part === azimuth) return '<azimuth>';
      return typeof part !== 'string' && part.kind === 'slots' ? '<slots>' : worded([part], unit);
    })
    .join('');
}

/** ` at 120°`, ` with S1.2`: what a sentence says of its slot besides the name. */
function ownOf(words: Wording, azimuth: string | undefined): string {
  return words
    .map((part) => {
      if (typeof part === 'string') return part === azimuth ? ` at ${part}` : '';
      return part.kind === 'slots' ? ` with ${listed(slotRuns(part.slots))}` : '';
    })
    .join('');
}

/** What helps all slots alike, what other slots the same holds for, and what helps one of them only. */
function sentencesOf(told: readonly Told[]): string[] {
  const [first, ...others] = told;
  const keys = new Set(
    first.remedies
      .map(({ key }) => key)
      .filter((key) => others.every(({ remedies }) => remedies.some((remedy) => remedy.key === key))),
  );
  const forAll = first.remedies.filter(({ key }) => keys.has(key));
  const forOne = told.flatMap(({ slot, remedies }) =>
    remedies.filter(({ key }) => !keys.has(key)).map(({ text }) => `${slot}: ${text}`),
  );
  return [...forAll.map(({ text }) => text), ...sameFor(first, others), ...forOne];
}

function sameFor(first: Told, others: readonly Told[]): string[] {
  if (others.length === 0) return [];
  const names = others.map(({ slot }) => slot ?? '');
  const alike = others.every(({ own }) => own === first.own);
  const list = alike ? slotRuns(names) : others.map(({ own }, i) => names[i] + own);
  return [`The same for ${listed(list)}.`];
}
