/** Crossings as something that can be pointed at. */
import type { Crossing } from '../../blank/crossings.ts';
import type { Slot } from '../../blank/slots.ts';
import type { Pointed } from '../bench.ts';

export function crossingTarget(crossing: Crossing, slots: readonly Slot[]): Pointed & { kind: 'crossing' } {
  return {
    kind: 'crossing',
    under: slots[crossing.under].id,
    over: slots[crossing.over].id,
    z_mm: crossing.z_mm,
    azimuth_deg: crossing.azimuth_deg,
  };
}

export function sameCrossing(pointed: Pointed, target: Pointed & { kind: 'crossing' }): boolean {
  return (
    pointed.kind === 'crossing' &&
    pointed.under === target.under &&
    pointed.over === target.over &&
    pointed.z_mm === target.z_mm &&
    pointed.azimuth_deg === target.azimuth_deg
  );
}
