/** Walking over the rings and crossings of the map with the keyboard. */
import type { Design } from '../../design/document.ts';
import type { Pointed } from '../bench.ts';
import { crossingsFor, slotsFor } from '../derived.ts';
import { crossingTarget, sameCrossing } from './target.ts';

/**
 * What a key points at next: up and down go from ring to ring in cutting order, left and right from crossing to
 * crossing (of the ring that is pointed at, else of all), Escape points at nothing. undefined: not a key of the map.
 */
export function pointedByKey(
  key: string,
  design: Design,
  pointed: Pointed | null,
): Pointed | null | undefined {
  if (key === 'Escape') return null;
  if (key === 'ArrowUp' || key === 'ArrowDown') {
    const { order } = design;
    if (order.length === 0) return null;
    const at = pointed === null ? -1 : order.indexOf(pointed.kind === 'ring' ? pointed.slot : pointed.over);
    const step = key === 'ArrowUp' ? 1 : -1;
    return {
      kind: 'ring',
      slot: order[(at < 0 && step < 0 ? order.length - 1 : at + step + order.length) % order.length],
    };
  }
  if (key !== 'ArrowLeft' && key !== 'ArrowRight') return undefined;
  const slots = slotsFor(design);
  const all = (crossingsFor(design) ?? []).map((crossing) => crossingTarget(crossing, slots));
  const own =
    pointed?.kind === 'ring'
      ? all.filter((one) => one.over === pointed.slot || one.under === pointed.slot)
      : all;
  const around = [...(own.length > 0 ? own : all)].sort(
    (a, b) => a.azimuth_deg - b.azimuth_deg || a.z_mm - b.z_mm,
  );
  if (around.length === 0) return pointed;
  const at = pointed === null ? -1 : around.findIndex((target) => sameCrossing(pointed, target));
  const step = key === 'ArrowRight' ? 1 : -1;
  return around[(at < 0 && step < 0 ? around.length - 1 : at + step + around.length) % around.length];
}
