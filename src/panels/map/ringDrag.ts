/** Dragging a band of the unrolled map up or down moves its set along the axis, one undo step per drag. */
import { useRef, type PointerEvent } from 'react';
import { useBench } from '../bench.ts';
import { lineFor } from '../derived.ts';
import { newGesture } from '../gesture.ts';
import type { MapScale } from './bandPath.ts';
import { alongOf, outsideAt, type OutsideLine } from '../../blank/outsideLine.ts';

export function useRingDrag(scale: MapScale) {
  const dragRing = useBench((bench) => bench.moveSet);
  const design = useBench((bench) => bench.design);
  const endGesture = useBench((bench) => bench.endGesture);
  const state = useRef<{ set: string; y: number; center_mm: number; gesture: string; zPerMm: number } | null>(
    null,
  );
  return {
    onPointerDown: (event: PointerEvent<SVGGElement>) => {
      const slot = (event.target as Element).closest('[data-slot]')?.getAttribute('data-slot');
      const set = design.sets.find((candidate) => slot?.startsWith(`${candidate.id}.`));
      if (!set || !design.form || event.button !== 0) return;
      const line = lineFor(design.form);
      const place = alongOf(line, set.center_mm, Math.max(...line.r_mm));
      const zPerMm = slopeAt(line, place);
      state.current = {
        set: set.id,
        y: event.clientY,
        center_mm: set.center_mm,
        gesture: newGesture(),
        zPerMm,
      };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent<SVGGElement>) => {
      const from = state.current;
      if (!from) return;
      const moved_mm = ((from.y - event.clientY) / scale.yPerMm) * from.zPerMm;
      dragRing(from.set, from.center_mm + moved_mm, from.gesture);
    },
    onPointerUp: () => {
      if (state.current) endGesture();
      state.current = null;
    },
    onPointerCancel: () => {
      if (state.current) endGesture();
      state.current = null;
    },
  };
}

/** Axial travel per millimetre along the outside, near a place. */
function slopeAt(line: OutsideLine, along_mm: number): number {
  const step = Math.min(2, line.length_mm / 20);
  const low = outsideAt(line, Math.max(along_mm - step, 0));
  const high = outsideAt(line, Math.min(along_mm + step, line.length_mm));
  return Math.max((high.z_mm - low.z_mm) / (2 * step), 0.2);
}
