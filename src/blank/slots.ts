/**
 * Slots in the lathe frame. A slot is a slab (the kerf) cut off by one stopping half-space:
 *
 *     |normal · p − offset| ≤ kerf / 2   and   stopNormal · p ≤ stop
 *
 * (docs/geometry.md, "Slot"). Where the stopping half-space stands is the kind of cut's to say (slotEnds.ts). Everything else in the engine works from these
 * slots, in cutting order.
 */
import { cosDeg, normalizeDegrees, sinDeg } from '../geometry/angle.ts';
import { cross, dot, norm, scale, type Vec3 } from '../geometry/vector.ts';
import { cutOf } from '../design/cuts.ts';
import type { CutKind, Design, SlotId, StripLayer } from '../design/document.ts';
import { sectionGeometry, support_mm } from './section.ts';
import { SLOT_ENDS, type Slab } from './slotEnds.ts';

export interface Slot {
  readonly id: SlotId;
  /** Index of the slot's set in design.sets. */
  readonly setIndex: number;
  readonly cut: CutKind;
  /** Between the cutting plane and the lathe axis; with the table tilted: its tilt. */
  readonly angle_deg: number;
  /** Azimuth of the face at the fence, degrees in [0, 360). */
  readonly fenceAzimuth_deg: number;
  /** +1 when the slot's high side is at the fence, −1 when at the entry. */
  readonly slope: 1 | -1;
  readonly center_mm: number;
  readonly kerf_mm: number;
  readonly web_mm: number;
  /** Unit normal of the kerf, pointing to the head side; f(p) = normal · p − offset. */
  readonly normal: Vec3;
  readonly offset_mm: number;
  /** Unit direction out of the slot through its closed end; the slot keeps stopNormal · p ≤ stop. */
  readonly stopNormal: Vec3;
  readonly stop_mm: number;
  /** Unit direction toward the fence face (azimuth of the fence); u(p) = fenceDirection · p. */
  readonly fenceDirection: Vec3;
  /** v = (−sin φ₀, cos φ₀, 0): along the blade at the fence, along the feed with the table tilted. */
  readonly bladeDirection: Vec3;
  /** Support of the section toward the fence, h, mm. */
  readonly fenceSupport_mm: number;
  /** Where the saw holds the mid-plane in place, [u, z]: with the stop at the fence, with the ledge on the table. */
  readonly heldAt_mm: readonly [u: number, z: number];
  /** Which way that place moves with stop or ledge, [u, z]. */
  readonly stopMoves: readonly [u: number, z: number];
  /** From the foot side of the kerf (f = −k/2) to the head side. */
  readonly layers: readonly StripLayer[];
}

export { defaultOrder } from '../design/order.ts';

/** All slots of a valid design in the order of cutting. */
export function slotsOf(design: Pick<Design, 'blank' | 'sets' | 'order'>): Slot[] {
  const section = sectionGeometry(design.blank.section);
  const byId = new Map<SlotId, Slot>();
  design.sets.forEach((set, setIndex) => {
    set.fence_azimuths_deg.forEach((azimuth, n) => {
      const id = `${set.id}.${n + 1}`;
      const fenceAzimuth_deg = normalizeDegrees(azimuth);
      const cosAzimuth = cosDeg(fenceAzimuth_deg);
      const sinAzimuth = sinDeg(fenceAzimuth_deg);
      const sinAngle = sinDeg(set.angle_deg);
      const cosAngle = cosDeg(set.angle_deg);
      const slope = set.high_side === 'fence' ? 1 : -1;
      const fenceSupport_mm = support_mm(section, fenceAzimuth_deg);
      const fenceDirection: Vec3 = [cosAzimuth, sinAzimuth, 0];
      const bladeDirection: Vec3 = [-sinAzimuth, cosAzimuth, 0];
      const slab: Slab = {
        angle_deg: set.angle_deg,
        fenceAzimuth_deg,
        slope,
        center_mm: set.center_mm,
        web_mm: set.web_mm,
        fenceDirection,
        bladeDirection,
        fenceSupport_mm,
      };
      byId.set(id, {
        ...slab,
        ...SLOT_ENDS[cutOf(set)](slab, { set, section, length_mm: design.blank.length_mm }),
        id,
        setIndex,
        kerf_mm: set.kerf_mm,
        normal: [-slope * cosAngle * cosAzimuth, -slope * cosAngle * sinAzimuth, sinAngle],
        offset_mm: sinAngle * set.center_mm,
        layers: set.strip.layers,
      });
    });
  });
  return design.order.map((id) => {
    const slot = byId.get(id);
    if (!slot) throw new Error(`order names ${id}, which no set has`);
    return slot;
  });
}

/** Signed distance of p from the kerf's mid-plane, f(p), mm; positive on the head side. */
export function kerfDistance_mm(slot: Slot, p: Vec3): number {
  return dot(slot.normal, p) - slot.offset_mm;
}

/** Whether the slot holds the point: inside the kerf and not in the web. */
export function slotHolds(slot: Slot, p: Vec3): boolean {
  return Math.abs(kerfDistance_mm(slot, p)) <= slot.kerf_mm / 2 && dot(slot.stopNormal, p) <= slot.stop_mm;
}

/**
 * Unit direction in which a strip comes out of its slot: in the plane of the kerf, away from the closed end. Down or up
 * the slope at the fence, across the blank with the table tilted.
 */
export function wayOut({ stopNormal, normal }: Slot): Vec3 {
  const along = dot(stopNormal, normal);
  const out: Vec3 = [
    along * normal[0] - stopNormal[0],
    along * normal[1] - stopNormal[1],
    along * normal[2] - stopNormal[2],
  ];
  return scale(out, 1 / norm(out));
}

/** Unit direction in the plane of the kerf, square to the way out: along the closed end of the slot. */
export function alongClosedEnd(slot: Slot): Vec3 {
  return cross(slot.normal, wayOut(slot));
}

/** Layer boundaries of a strip as signed distances f, mm: layers + 1 values from −k/2 to k/2, scaled to fill the slot. */
export function layerBounds_mm(slot: Slot): number[] {
  const total = slot.layers.reduce((sum, layer) => sum + layer.thickness_mm, 0);
  let filled = 0;
  const bounds = [-slot.kerf_mm / 2];
  for (const layer of slot.layers.slice(0, -1)) {
    filled += layer.thickness_mm;
    bounds.push(-slot.kerf_mm / 2 + (filled / total) * slot.kerf_mm);
  }
  bounds.push(slot.kerf_mm / 2);
  return bounds;
}
