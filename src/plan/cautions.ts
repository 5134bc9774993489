/**
 * Cautions that go with a plan, each with its source, paraphrased. They remind a trained person; the machine's
 * manual, local codes and trained practice come first. Sources that were not read at their publisher say so;
 * "common practice" has no published source.
 */
import { DEFAULT_CUT } from '../design/defaults.ts';
import { CUT_KINDS, type CutKind, type Design, type SlotId } from '../design/document.ts';
import { timberById } from '../timber/timbers.ts';
import { largestOutsideRadius_mm } from './tolerance.ts';
import { latheSpeed } from './latheSpeed.ts';
import type { Measures } from './measures.ts';
import { isWebLost } from './sawMessages.ts';
import type { Setup } from './setups.ts';
import { THINNEST_SOUND_WEB_MM } from './thresholds.ts';
import { listed, mm, names, said, type Names, type Wording } from './wording.ts';
import { inSentence, timberName } from '../timber/names.ts';

export type CautionPlace = 'everywhere' | 'saw' | 'glue' | 'lathe' | 'dust';

export interface Caution {
  readonly id: string;
  readonly where: CautionPlace;
  readonly words: Wording;
  readonly source: string;
  /** Slots it is about; empty: the whole work. */
  readonly slots: readonly SlotId[];
  /** Of the caution on the lathe's speed: the range that it names, in whole tens. */
  readonly rpm?: { readonly low: number; readonly high: number };
}

const COMMON_PRACTICE = 'common practice';
const WIS31 = 'HSE WIS31 rev. 1, narrow band saws (https://www.hse.gov.uk/pubns/wis31.htm)';
const BAND_SAW_RULE = '29 CFR 1910.213(i)(1) (wording after the parallel rule WAC 296-806-48042)';
const RESTART_RULE = '29 CFR 1910.213(b)(3) (secondary copy; paragraph number from memory)';
const UK_LIMIT = 'UK workplace exposure limits, EH40 (secondary copies; sources differ on a later 2 mg/m³)';
const EU_LIMIT = 'EU directive 2017/2398 (secondary copies)';
const SPEED_RULE = 'rule of thumb, quoted in a turners’ forum; no primary standard found';
const FROM_MEMORY = 'from memory, not looked up';
const PADAUK_SOURCE = 'a secondary copy of a trade booklet';

/** Wood deeper than this under the blade wants coarser teeth: about 2 in (common practice). */
const DEEP_CUT_MM = 50.8;
/** Blanks shorter or thinner than this give the hands too little to hold. */
const SMALL_LENGTH_MM = 150;
const SMALL_WIDTH_MM = 40;

/** Timbers with reported effects on skin or airways; from memory except padauk (a secondary copy). */
const SENSITISING = new Set([
  'african-padauk',
  'wenge',
  'teak',
  'african-ebony',
  'indian-rosewood',
  'bubinga',
  'honduran-mahogany',
  'white-oak',
  'red-oak',
  'american-beech',
  'black-walnut',
]);

/** Timbers whose oil keeps glue off a surface that is not fresh; from memory. */
const OILY = new Set(['teak', 'indian-rosewood', 'african-padauk', 'wenge', 'african-ebony']);

/** Cautions of a plan: first those that always hold at a place, then those that this design earns. */
export function cautionsOf(design: Design, measures: Measures): Caution[] {
  return [
    {
      id: 'manual-first',
      where: 'everywhere',
      words: said`The machine’s manual, local codes and trained practice come first; these are reminders.`,
      source: COMMON_PRACTICE,
      slots: [],
    },
    ...sawCautions(design, measures),
    ...glueCautions(design),
    ...latheCautions(design),
    ...dustCautions(design),
  ];
}

function sawCautions(design: Design, { setups, made, slots, plan }: Measures): Caution[] {
  const saw = (id: string, words: Wording, source: string, about: readonly SlotId[] = []): Caution => ({
    id,
    where: 'saw',
    words,
    source,
    slots: about,
  });
  const first = CUT_KINDS.find((kind) => setups.some(({ cut }) => cut === kind)) ?? DEFAULT_CUT;
  const { hands, clampedTo } = OF_KIND[first];
  const cautions = [
    saw('guide-low', said`Set the upper guide and its guard down to the work before every cut.`, WIS31),
    saw('blade-covered', said`Keep the whole blade covered but for the part that cuts.`, BAND_SAW_RULE),
    saw('no-restart', said`The saw must not start again by itself after a power failure.`, RESTART_RULE),
    saw(
      'jig-sound',
      said`Fence, sled and stop are part of the saw: firm, and checked before the first cut.`,
      WIS31,
    ),
    saw('hands', said`Keep both hands ${hands} and out of the path of the blade.`, COMMON_PRACTICE),
    saw('clamped', said`Clamp the blank ${clampedTo}so that it can neither roll nor tip.`, COMMON_PRACTICE),
    saw('back-out', said`Stop the blade before backing out of a stopped cut.`, COMMON_PRACTICE),
  ];
  const about = (test: (setup: Setup) => boolean) => setups.filter(test).map((setup) => setup.slot);
  const add = (id: string, words: (concerned: Names) => Wording, concerned: readonly SlotId[]) => {
    if (concerned.length > 0) cautions.push(saw(id, words(names(concerned)), COMMON_PRACTICE, concerned));
  };
  add(
    'weak-web',
    (them) =>
      said`Little or no web holds the blank after ${them}: support both halves until the strip is cured.`,
    slots
      .filter(
        (slot, n) =>
          isWebLost(slot, made[n], design.blank) || made[n].thinnest_web_mm < THINNEST_SOUND_WEB_MM,
      )
      .map(({ id }) => id),
  );
  add(
    'deep-cut',
    (them) => said`${them}: more than ${mm(DEEP_CUT_MM)} of wood; take a coarser blade and feed slowly.`,
    about((setup) => setup.cut_height_mm > DEEP_CUT_MM),
  );
  for (const kind of CUT_KINDS)
    for (const { id, words, holds } of OF_KIND[kind].cautions)
      add(
        id,
        words,
        about((setup) => setup.cut === kind && holds(setup, design)),
      );
  const open = plan.sessions.filter((session) => session.length > 1).flat();
  add(
    'open-together',
    (them) =>
      said`${them} are open together with others: every open web bends; do not lift the blank by its ends.`,
    slots.map((slot) => slot.id).filter((id) => open.includes(id)),
  );
  const { section, length_mm } = design.blank;
  if (
    length_mm < SMALL_LENGTH_MM ||
    Math.min(section.width_mm, section.depth_mm ?? Infinity) < SMALL_WIDTH_MM
  )
    cautions.push(
      saw('small-blank', said`A small blank: hold it in a sled, never in the fingers.`, COMMON_PRACTICE),
    );
  return cautions;
}

interface KindCaution {
  readonly id: string;
  readonly words: (concerned: Names) => Wording;
  /** Whether a cut of the kind earns it. */
  readonly holds: (setup: Setup, design: Design) => boolean;
}

interface KindCautions {
  /** Where hands and clamps are; the first kind that a design uses says so for all of it. */
  readonly hands: string;
  readonly clampedTo: string;
  readonly cautions: readonly KindCaution[];
}

const OF_KIND: Readonly<Record<CutKind, KindCautions>> = {
  fence: {
    hands: 'behind the fence',
    clampedTo: 'to the sled ',
    cautions: [
      {
        id: 'no-flat',
        words: (them) => said`${them}: no flat lies on the fence; the blank rolls unless a cradle holds it.`,
        holds: ({ face }) => face === null,
      },
      {
        id: 'on-edge',
        words: (them) =>
          said`${them}: with a face at the fence the blank stands on an edge; lay it in a V of 120° and clamp both.`,
        holds: ({ face }, { blank }) => face !== null && blank.section.shape === 'hexagon',
      },
      {
        id: 'steep-sled',
        words: (them) =>
          said`${them}: at a small angle the blank reaches far along the blade; hold its far end down too.`,
        holds: ({ fence_angle_deg }) => fence_angle_deg < 30,
      },
    ],
  },
  table: {
    hands: 'behind the blank',
    clampedTo: '',
    cautions: [
      {
        id: 'tilted-table',
        words: (them) =>
          said`${them}: on the tilted table the blank slides toward the low side; let it lie against a ledge there, clamped to what carries it, and see that the guide and its guard clear the high corner of the blank.`,
        holds: () => true,
      },
    ],
  },
};

function glueCautions(design: Design): Caution[] {
  const glue = (id: string, words: Wording, source: string): Caution => ({
    id,
    where: 'glue',
    words,
    source,
    slots: [],
  });
  const cautions = [
    glue(
      'clamp-time',
      said`Clamp each glue-up for ${design.saw.clamp_minutes} min or longer if the glue’s label says so.`,
      COMMON_PRACTICE,
    ),
    glue(
      'full-cure',
      said`Turn only when the last strip is fully cured: see the glue’s label.`,
      COMMON_PRACTICE,
    ),
  ];
  const oily = timbersOf(design, OILY);
  if (oily.length > 0)
    cautions.push(
      glue(
        'oily-timber',
        said`Oily: ${listed(oily.map(inItsPlace))}. Its oil weakens a glue line: glue freshly cut surfaces only, and break a test joint first.`,
        FROM_MEMORY,
      ),
    );
  return cautions;
}

function latheCautions(design: Design): Caution[] {
  if (!design.form) return [];
  const diameter_mm = 2 * largestOutsideRadius_mm(design.form);
  const { low_rpm, high_rpm } = latheSpeed(diameter_mm);
  const rpm = { low: tens(low_rpm), high: tens(high_rpm) };
  const lathe = (id: string, words: Wording, source: string): Caution => ({
    id,
    where: 'lathe',
    words,
    source,
    slots: [],
  });
  return [
    lathe(
      'face-shield',
      said`Wear a full face shield, not only spectacles.`,
      `${COMMON_PRACTICE}; impact marks from memory`,
    ),
    lathe('stand-aside', said`Stand out of the plane of rotation when the lathe starts.`, COMMON_PRACTICE),
    {
      ...lathe(
        'speed',
        said`For ${mm(diameter_mm, 0)} about ${rpm.low} to ${rpm.high} rpm as a rule of thumb; begin at or below the low end: strips of another density put a blank out of balance.`,
        SPEED_RULE,
      ),
      rpm,
    },
    lathe('all-filled', said`Turn nothing while a slot is open or a strip is loose.`, COMMON_PRACTICE),
  ];
}

function dustCautions(design: Design): Caution[] {
  const dust = (id: string, words: Wording, source: string): Caution => ({
    id,
    where: 'dust',
    words,
    source,
    slots: [],
  });
  const cautions = [
    dust('dust-eu', said`Hardwood dust: at most 2 mg/m³ in the air over a working day.`, EU_LIMIT),
    dust('dust-uk', said`Hardwood dust: at most 3 mg/m³ over 8 hours, and as little as can be.`, UK_LIMIT),
  ];
  const sensitising = timbersOf(design, SENSITISING);
  if (sensitising.length > 0)
    cautions.push(
      dust(
        'sensitising',
        said`Effects on skin or airways are reported for ${listed(sensitising.map(inItsPlace))}: extract the dust, wear a mask.`,
        sensitising.includes('african-padauk') ? `${FROM_MEMORY}; of padauk ${PADAUK_SOURCE}` : FROM_MEMORY,
      ),
    );
  return cautions;
}

function inItsPlace(timber: string): string {
  return inSentence(timberName(timber));
}

/** The design's timbers that a list holds. */
function timbersOf(design: Design, list: ReadonlySet<string>): string[] {
  const used = [design.blank.timber, ...design.sets.flatMap((set) => set.strip.layers.map((l) => l.timber))];
  const ids = used.flatMap((id) => timberById(id)?.id ?? []);
  return [...new Set(ids)].filter((id) => list.has(id));
}

function tens(value: number): number {
  return Math.round(value / 10) * 10;
}
