/**
 * What a measure says against the plan, beside its number: nothing to do, or what to do about it. Millimetres. The web of a
 * cut at the fence is measured square to the fence, the blade stop moves along the blade: 1 / sin θ as far.
 */
import type { CutKind, Design, MadeSlot } from '../../design/document.ts';
import { length, thickness } from '../../files/sheet/numbers.ts';
import { sinDeg } from '../../geometry/angle.ts';
import { THINNEST_SOUND_WEB_MM } from '../../plan/sawMessages.ts';
import type { Setup } from '../../plan/setups.ts';
import { asMade, type SlotAsMade } from './made.ts';

export interface Verdict {
  readonly words: string;
  /** Something has to be done, or will show. */
  readonly off: boolean;
}

/** Measures closer than this are the same. */
const SAME_MM = 5e-4;

/** null: nothing was measured. */
export function verdictOf(field: keyof MadeSlot, setup: Setup, design: Design): Verdict | null {
  const measured_mm = design.made?.[setup.slot]?.[field];
  if (measured_mm === undefined) return null;
  return VERDICTS[field](asMade(design, setup.slot), setup, design);
}

const VERDICTS: Readonly<
  Record<keyof MadeSlot, (made: SlotAsMade, setup: Setup, design: Design) => Verdict>
> = { kerf_mm: ofKerf, web_mm: ofWeb, strip_mm: ofStrip };

function ofKerf({ kerf_mm }: SlotAsMade, setup: Setup, { saw, unit }: Design): Verdict {
  const wider_mm = kerf_mm - setup.kerf_mm;
  if (Math.abs(wider_mm) < SAME_MM) return { words: 'as planned', off: false };
  const by = `${thickness(Math.abs(wider_mm), unit)} ${wider_mm > 0 ? 'wider' : 'narrower'}`;
  return beyond(wider_mm, saw.strip_tolerance_mm)
    ? { words: `${by}: make this strip to the slot`, off: true }
    : { words: by, off: false };
}

function ofWeb({ web_mm, thinnest_web_mm }: SlotAsMade, setup: Setup, { saw, unit }: Design): Verdict {
  const over_mm = web_mm - setup.blade_stop_mm;
  const weak = thinnest_web_mm < THINNEST_SOUND_WEB_MM - SAME_MM;
  if (!beyond(over_mm, Math.max(saw.stop_tolerance_mm, SAME_MM)) && !weak)
    return { words: 'as planned', off: false };
  const moved = length(Math.abs(over_mm) / FEED_PER_WEB[setup.cut](setup), unit);
  const advice =
    Math.abs(over_mm) < SAME_MM
      ? ''
      : `${thickness(Math.abs(over_mm), unit)} ${over_mm > 0 ? 'thicker' : 'thinner'}: move the blade stop ${moved} ${over_mm > 0 ? 'on' : 'back'} for the next cut`;
  const thin = weak
    ? `weak, ${thickness(Math.max(thinnest_web_mm, 0), unit)} at its thinnest: support both halves`
    : '';
  return { words: [advice, thin].filter((part) => part !== '').join('; '), off: true };
}

/** Web for each millimetre of feed. */
const FEED_PER_WEB: Readonly<Record<CutKind, (setup: Setup) => number>> = {
  fence: ({ fence_angle_deg }) => sinDeg(fence_angle_deg),
  table: () => 1,
};

function ofStrip({ fit_mm }: SlotAsMade, _setup: Setup, { saw, unit }: Design): Verdict {
  if (Math.abs(fit_mm) < SAME_MM) return { words: 'as thick as the kerf', off: false };
  const by = `${thickness(Math.abs(fit_mm), unit)} ${fit_mm > 0 ? 'thicker: tight' : 'thinner: loose'}`;
  const within = thickness(saw.strip_tolerance_mm, unit);
  return beyond(fit_mm, saw.strip_tolerance_mm)
    ? { words: `${by}, beyond ± ${within}: make another`, off: true }
    : { words: `${by}, within ± ${within}`, off: false };
}

function beyond(difference_mm: number, allowed_mm: number): boolean {
  return Math.abs(difference_mm) > allowed_mm + 1e-9;
}
