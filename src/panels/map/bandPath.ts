/** Bands of the unrolled map as SVG paths in the map's own frame: x in radians from the map's left edge, y in mm down from the head. */
import { layerBounds_mm, type Slot } from '../../blank/slots.ts';
import type { OutsideLine } from '../../blank/outsideLine.ts';
import { bandCells, type BandCell } from './bands.ts';

const known = new WeakMap<OutsideLine, Map<string, readonly BandCell[]>>();

/** Most slots whose cells are kept per outline; beyond it the memory starts afresh. */
const MAX_KNOWN = 1000;

function cellsFor(slot: Slot, line: OutsideLine): readonly BandCell[] {
  let bySlot = known.get(line);
  if (!bySlot || bySlot.size > MAX_KNOWN) {
    bySlot = new Map();
    known.set(line, bySlot);
  }
  const key = [...slot.normal, slot.offset_mm, slot.kerf_mm, ...slot.stopNormal, slot.stop_mm].join(' ');
  let cells = bySlot.get(key);
  if (!cells) {
    cells = bandCells(slot, line);
    bySlot.set(key, cells);
  }
  return cells;
}

/** The layers of a strip as slots of their own, foot side first. */
export function layersAsSlots(slot: Slot): Slot[] {
  const bounds = layerBounds_mm(slot);
  return slot.layers.map((layer, i) => ({
    ...slot,
    offset_mm: slot.offset_mm + (bounds[i] + bounds[i + 1]) / 2,
    kerf_mm: bounds[i + 1] - bounds[i],
    layers: [layer],
  }));
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
  for (const cell of cellsFor(slot, line)) {
    const from = Math.min(cell.lowFrom_rad, cell.highFrom_rad);
    const to = Math.max(cell.lowTo_rad, cell.highTo_rad);
    const first = Math.ceil((scale.left_rad - to) / TURN);
    const last = Math.floor((scale.left_rad + TURN - from) / TURN);
    for (let turn = first; turn <= last; turn++) {
      const x = (azimuth: number) => ((azimuth + turn * TURN - scale.left_rad) * scale.xPerRad).toFixed(2);
      const low = ((scale.length_mm - cell.low_mm) * scale.yPerMm).toFixed(2);
      const high = ((scale.length_mm - cell.high_mm) * scale.yPerMm).toFixed(2);
      parts.push(
        `M${x(cell.lowFrom_rad)} ${low}H${x(cell.lowTo_rad)}L${x(cell.highTo_rad)} ${high}H${x(cell.highFrom_rad)}Z`,
      );
    }
  }
  return parts.join('');
}
