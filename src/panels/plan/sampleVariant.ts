/**
 * The variant that is a sample of how the piece may come out, and the ideal beside it. A sample is known by its id, which
 * says which try it is and how many times as large as they are its errors are drawn: `sawn3`, `sawn3x5`.
 */
import type { SlotId } from '../../design/document.ts';
import { asBuiltSlots } from '../../plan/asBuilt.ts';
import { sampleShifts, type SampleShifts } from '../../plan/sampleShifts.ts';
import type { Variant, Work } from '../bench.ts';
import { crossingsFor, pathsFor, profileFor, slotsFor } from '../derived.ts';

export const IDEAL_ID = 'ideal';
/** The choices of how errors are drawn. */
export const TIMES = [1, 5, 10] as const;
const SAMPLE = /^sawn(\d+)(?:x(\d+))?$/;

export interface Sample {
  /** Number of the try; its seed too. */
  readonly tried: number;
  /** Errors are drawn this many times as large as they are. */
  readonly times: number;
}

export function sampleOf({ id }: Pick<Variant, 'id'>): Sample | null {
  const found = SAMPLE.exec(id);
  return found ? { tried: Number(found[1]), times: Number(found[2] ?? 1) } : null;
}

export function sampleId({ tried, times }: Sample): string {
  return times === 1 ? `sawn${tried}` : `sawn${tried}x${times}`;
}

/** `As sawn, try 3`, `As sawn, try 3, errors ×5`. */
export function sampleName({ tried, times }: Sample): string {
  return `As sawn, try ${tried}${times === 1 ? '' : `, errors ×${times}`}`;
}

/** The name of a variant as pictures carry it: errors that are drawn larger are named whatever the maker called it. */
export function pictureName(variant: Variant): string {
  const sample = sampleOf(variant);
  if (!sample || sample.times === 1 || variant.name.includes(`×${sample.times}`)) return variant.name;
  return `${variant.name}, errors ×${sample.times}`;
}

/** The ideal and its sample, where they stand side by side. */
export interface SamplePair {
  readonly ideal: Variant;
  readonly variant: Variant;
  readonly sample: Sample;
}

export function samplePair({ variants }: Pick<Work, 'variants'>): SamplePair | null {
  const ideal = variants.find(({ id }) => id === IDEAL_ID);
  for (const variant of variants) {
    const sample = sampleOf(variant);
    if (ideal && sample && ideal.design.order.length === variant.design.order.length)
      return { ideal, variant, sample };
  }
  return null;
}

/** Ids of a variant's slots by those of the active design; null where both have the same, or nothing to do with each other. */
export function slotNames(work: Work, variant: Variant): ReadonlyMap<SlotId, SlotId> | null {
  const pair = samplePair(work);
  const active = work.variants[work.active];
  if (!pair || variant === active) return null;
  const both = [pair.ideal, pair.variant];
  if (!both.includes(variant) || !both.includes(active)) return null;
  return new Map(variant.design.order.map((id, n) => [id, active.design.order[n]]));
}

/** Places closer than this are the same, mm. */
const SAME_MM = 1e-6;

/** Whether the sample is what its try of the ideal gives: neither has been changed since. */
export function isFresh({ ideal, variant, sample }: SamplePair): boolean {
  const { design } = ideal;
  const wanted = asBuiltSlots(slotsFor(design), design.saw, sample.tried, design.made, sample.times);
  return slotsFor(variant.design).every(
    (slot, n) =>
      slot.fenceAzimuth_deg === wanted[n].fenceAzimuth_deg &&
      Math.abs(slot.offset_mm - wanted[n].offset_mm) < SAME_MM &&
      Math.abs(slot.angle_deg - wanted[n].angle_deg) < SAME_MM,
  );
}

const known = new WeakMap<Variant, SampleShifts | null>();

/** How far the sample is off, in true size; null for a piece that is left square or a sample that is out of date. */
export function shiftsOf(pair: SamplePair): SampleShifts | null {
  const { ideal, variant, sample } = pair;
  const before = known.get(variant);
  if (before !== undefined && isFresh(pair)) return before;
  const { design } = ideal;
  const paths = pathsFor(design);
  const crossings = crossingsFor(design);
  const shifts =
    design.form && paths && crossings && isFresh(pair)
      ? sampleShifts(slotsFor(design), paths, crossings, profileFor(design.form), design.saw, sample.tried)
      : null;
  known.set(variant, shifts);
  return shifts;
}
