/** Bands of the unrolled map as SVG paths in the map's own frame: x in radians from the map's left edge, y in mm down from the head. */
import { bandStrands, outlineOf, type SurfacePoint } from '../../blank/bands.ts';
import type { OutsideLine } from '../../blank/outsideLine.ts';
import type { Slot } from '../../blank/slots.ts';

const known = new WeakMap<OutsideLine, Map<string, readonly SurfacePoint[][]>>();

/** Most slots whose outlines are kept per outside; beyond it the memory starts afresh. */
const MAX_KNOWN = 1000;
/** Finer than a pixel of the map. */
const DETAIL = { true_mm: 0.1, step_mm: 1 };

function outlinesFor(slot: Slot, line: OutsideLine): readonly SurfacePoint[][] {
  let bySlot = known.get(line);
  if (!bySlot || bySlot.size > MAX_KNOWN) {
    bySlot = new Map();
    known.set(line, bySlot);
  }
  const key = [...slot.normal, slot.offset_mm, slot.kerf_mm, ...slot.stopNormal, slot.stop_mm].join(' ');
  let outlines = bySlot.get(key);
  if (!outlines) {
    outlines = bandStrands(slot, line, DETAIL).map(outlineOf);
    bySlot.set(key, outlines);
  }
  return outlines;
}

export interface MapScale {
  /** Azimuth at the left edge, radians. */
  readonly left_rad: number;
  readonly xPerRad: number;
  readonly yPerMm: number;
  readonly length_mm: number;
}

const TURN = 2 * Math.PI;

/** Path of what a slot holds, repeated by whole turns where it passes an edge of the map. */
export function bandPath(slot: Slot, line: OutsideLine, scale: MapScale): string {
  const parts: string[] = [];
  for (const outline of outlinesFor(slot, line)) {
    let [from, to] = [Infinity, -Infinity];
    for (const { azimuth_rad } of outline) {
      from = Math.min(from, azimuth_rad);
      to = Math.max(to, azimuth_rad);
    }
    const first = Math.ceil((scale.left_rad - to) / TURN);
    const last = Math.floor((scale.left_rad + TURN - from) / TURN);
    for (let turn = first; turn <= last; turn++) {
      const points = outline.map(({ azimuth_rad, along_mm }) => {
        const x = (azimuth_rad + turn * TURN - scale.left_rad) * scale.xPerRad;
        const y = (scale.length_mm - along_mm) * scale.yPerMm;
        return `${x.toFixed(2)} ${y.toFixed(2)}`;
      });
      parts.push(`M${points.join('L')}Z`);
    }
  }
  return parts.join('');
}
