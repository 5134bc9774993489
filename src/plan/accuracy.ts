/**
 * How well the piece will come out with the maker's fence and stop: ring by ring (tolerance.ts), and by Monte Carlo the
 * chance that any crossing is off by more than a length (crossingErrors.ts). Plain data, millimetres.
 */
import type { Design, SlotId } from '../design/document.ts';
import { cotDeg } from '../geometry/angle.ts';
import { sampleCrossingErrors, type CrossingErrors } from './crossingErrors.ts';
import type { Measures } from './measures.ts';
import type { RingTolerance } from './tolerance.ts';
import { listed, slotRuns } from './wording.ts';

export interface Accuracy {
  readonly rings: readonly RingTolerance[];
  /** null: no two rings cross. */
  readonly crossings: CrossingErrors | null;
}

/** Pieces that are tried; fewer where that would be more than WORK crossings looked at. */
const MOST_TRIES = 2000;
const FEWEST_TRIES = 200;
const WORK = 4_000_000;

/** The tries are the same for every design and on every machine. */
const SEED = 1;

/** null when the blank is left square. */
export function accuracyOf({ saw }: Pick<Design, 'saw'>, { slots, form }: Measures): Accuracy | null {
  if (!form) return null;
  const { crossings, profile, tolerance } = form;
  const tries = Math.floor(WORK / Math.max(crossings.length, 1));
  return {
    rings: tolerance,
    crossings:
      crossings.length === 0
        ? null
        : sampleCrossingErrors(
            slots,
            crossings,
            profile,
            saw,
            Math.min(MOST_TRIES, Math.max(FEWEST_TRIES, tries)),
            SEED,
          ),
  };
}

/** What a share of the tried pieces stays within: 0.5 for half of them, 0.95 for 19 of 20. */
export function within_mm({ largest_mm }: CrossingErrors, share: number): number {
  if (largest_mm.length === 0) return 0;
  return largest_mm[Math.min(largest_mm.length - 1, Math.ceil(share * largest_mm.length) - 1)];
}

/** `12 %`, `under 1 %`, `none of 2,000`: as much as the tries can tell. */
export function chanceText(chance: number, tries: number): string {
  const of = tries.toLocaleString('en-US');
  if (chance === 0) return `none of ${of}`;
  if (chance === 1) return `all of ${of}`;
  if (chance < 0.01) return 'under 1 %';
  return chance > 0.99 ? 'over 99 %' : `${Math.round(chance * 100)} %`;
}

export interface Care {
  /** Which of the two settings moves the crossings more, with its share of their mean squared error. */
  readonly setting: 'angle' | 'stop';
  readonly share: number;
  /** Cuts that weigh more than the others, the heaviest first; none where all weigh alike. */
  readonly cuts: readonly { readonly slot: SlotId; readonly share: number }[];
}

/** Cuts that stand out weigh this many times as much as all do on average. */
const STANDS_OUT = 1.25;

/** Which error to care for most; null where nothing moves. */
export function mattersMost(errors: CrossingErrors, slots: readonly SlotId[]): Care | null {
  const { angleShare, stopShare, slotShares } = errors;
  if (angleShare + stopShare === 0) return null;
  return {
    setting: angleShare >= stopShare ? 'angle' : 'stop',
    share: Math.max(angleShare, stopShare),
    cuts: slots
      .map((slot, n) => ({ slot, share: slotShares[n] }))
      .filter(({ share }) => share * slots.length > STANDS_OUT)
      .sort((a, b) => b.share - a.share),
  };
}

/** Rings of equal tolerance together, the farthest off first. */
export function ringGroups(
  rings: readonly RingTolerance[],
): { readonly worst_mm: number; readonly rss_mm: number; readonly slots: SlotId[] }[] {
  const groups = new Map<string, { worst_mm: number; rss_mm: number; slots: SlotId[] }>();
  for (const { slot, worst_mm, rss_mm } of rings) {
    const key = `${worst_mm.toFixed(6)} ${rss_mm.toFixed(6)}`;
    const group = groups.get(key);
    if (group) group.slots.push(slot);
    else groups.set(key, { worst_mm, rss_mm, slots: [slot] });
  }
  return [...groups.values()].sort((a, b) => b.worst_mm - a.worst_mm);
}

/** A blank off centre in the lathe by e shifts a ring by up to e cot θ besides; told of the ring that shifts most. */
export function offCentreText(sets: Design['sets']): string {
  const most = sets.reduce((cot, { angle_deg }) => Math.max(cot, cotDeg(angle_deg)), 0);
  return `What the blank sits off centre in the lathe comes on top: rings shift by up to ${Math.round(100 * most)} % of it.`;
}

/** Crossings that the tries leave out. */
export function grazingText({ unsteady }: CrossingErrors): string {
  if (unsteady === 0) return '';
  return unsteady === 1
    ? ' One more is left out: its rings only graze each other and it may wander far.'
    : ` ${unsteady} more are left out: their rings only graze each other and they may wander far.`;
}

/** Which error to care for most; `settings`: what is set for the angle and for the place of a cut. */
export function careText(
  errors: CrossingErrors,
  slots: readonly string[],
  settings: Readonly<Record<Care['setting'], string>> = { angle: 'the angle of the fence', stop: 'the stop' },
): string {
  const care = mattersMost(errors, slots);
  if (!care) return 'With fence and stop free of error every crossing lies in its place.';
  const share = Math.round(care.share * 100);
  const cuts =
    care.cuts.length === 0
      ? 'All cuts weigh much alike.'
      : `Of the cuts ${listed(slotRuns(slots.filter((slot) => care.cuts.some((cut) => cut.slot === slot))))} weigh most.`;
  return `What matters most is ${settings[care.setting]}: ${share} % of the error (its mean square). ${cuts}`;
}
