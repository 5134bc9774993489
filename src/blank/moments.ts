/**
 * The moments of a workpiece's life, from the sawn block to the finished piece. Everything drawn or
 * exported for a moment follows from (design, moment).
 */
import type { Design } from '../design/document.ts';

export type MomentKind =
  'block' | 'quarter-turn' | 'cut' | 'strip' | 'glued' | 'turned' | 'hollowed' | 'finished';

export interface Moment {
  readonly kind: MomentKind;
  /** Strips glued in and trimmed flush when the moment begins: the first `filled` slots of the order. */
  readonly filled: number;
  /** Index in the order of the slot that this moment is about (turn to it, cut it, fill it), else null. */
  readonly slot: number | null;
  /** How far the form has been turned when the moment ends. */
  readonly turned: 'none' | 'outside' | 'whole';
}

/** Moments of a design in working order; a design without a form ends with the glued block. */
export function momentsOf(design: Pick<Design, 'blank' | 'sets' | 'order' | 'form'>): Moment[] {
  const azimuths = new Map<string, number>();
  for (const set of design.sets)
    set.fence_azimuths_deg.forEach((azimuth, n) => azimuths.set(`${set.id}.${n + 1}`, azimuth));
  const moments: Moment[] = [{ kind: 'block', filled: 0, slot: null, turned: 'none' }];
  design.order.forEach((id, n) => {
    const previous = design.order[n - 1];
    if (previous !== undefined && azimuths.get(previous) !== azimuths.get(id))
      moments.push({ kind: 'quarter-turn', filled: n, slot: n, turned: 'none' });
    moments.push({ kind: 'cut', filled: n, slot: n, turned: 'none' });
    moments.push({ kind: 'strip', filled: n, slot: n, turned: 'none' });
  });
  const filled = design.order.length;
  moments.push({ kind: 'glued', filled, slot: null, turned: 'none' });
  if (design.form) {
    moments.push({ kind: 'turned', filled, slot: null, turned: 'outside' });
    moments.push({ kind: 'hollowed', filled, slot: null, turned: 'whole' });
    moments.push({ kind: 'finished', filled, slot: null, turned: 'whole' });
  }
  return moments;
}
