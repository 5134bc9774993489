/**
 * What follows from what was measured: the kerf that a slot has, the strip that fits it, the web that is left.
 * Millimetres and degrees. A measure of the slot itself comes before the test cut, and that before the design.
 */
import type { Design } from '../../design/document.ts';
import { cosDeg, cotDeg, sinDeg } from '../../geometry/angle.ts';
import { passesFor, type Passes } from '../../plan/passes.ts';
import type { Setup } from '../../plan/setups.ts';

type Measured = Pick<Design, 'made' | 'saw'>;

export interface AsMade {
  readonly kerf_mm: number;
  readonly kerfFrom: 'slot' | 'test cut' | 'design';
  readonly web_mm: number;
  readonly webMeasured: boolean;
  /** At the deeper corner of the kerf's square end: w − (k/2) cos θ (docs/shop-plan.md, "Set-ups"). */
  readonly thinnestWeb_mm: number;
  /** The strip: as measured, else as thick as the kerf is. */
  readonly strip_mm: number;
  readonly stripMeasured: boolean;
  /** Strip thickness less kerf; null until a strip was measured. Positive: tight. */
  readonly fit_mm: number | null;
  /** Depth of the strip down the slope, with what the measured web and kerf change of it. */
  readonly stripDepth_mm: number;
}

export function asMade({ made, saw }: Measured, setup: Setup): AsMade {
  const own = made?.[setup.slot] ?? {};
  const [kerf_mm, kerfFrom] = kerfOf(own.kerf_mm, saw, setup);
  const web_mm = own.web_mm ?? setup.blade_stop_mm;
  const { fence_angle_deg: angle } = setup;
  return {
    kerf_mm,
    kerfFrom,
    web_mm,
    webMeasured: own.web_mm !== undefined,
    thinnestWeb_mm: web_mm - (kerf_mm / 2) * cosDeg(angle),
    strip_mm: own.strip_mm ?? kerf_mm,
    stripMeasured: own.strip_mm !== undefined,
    fit_mm: own.strip_mm === undefined ? null : own.strip_mm - kerf_mm,
    stripDepth_mm:
      setup.strip_depth_mm +
      (setup.blade_stop_mm - web_mm) / sinDeg(angle) +
      ((kerf_mm - setup.kerf_mm) / 2) * cotDeg(angle),
  };
}

function kerfOf(
  own_mm: number | undefined,
  saw: Design['saw'],
  setup: Setup,
): readonly [number, AsMade['kerfFrom']] {
  if (own_mm !== undefined) return [own_mm, 'slot'];
  // Sawn in passes a slot comes out as wide as it was meant to be, whatever the blade's own kerf.
  if (saw.blade_kerf_mm !== undefined && passesOf(saw, setup) === null)
    return [saw.blade_kerf_mm, 'test cut'];
  return [setup.kerf_mm, 'design'];
}

/** The passes of a slot that is wider than the blade's kerf by more than a strip may be off; null: one pass. */
export function passesOf(saw: Design['saw'], setup: Setup): Passes | null {
  const { blade_kerf_mm, strip_tolerance_mm } = saw;
  if (blade_kerf_mm === undefined || setup.kerf_mm - blade_kerf_mm <= strip_tolerance_mm + 1e-9) return null;
  return passesFor(setup, blade_kerf_mm);
}
