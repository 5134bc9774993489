/**
 * The wood between two slots that are open together and lean otherwise: a wedge that the blade can break out. Slots of one
 * fence azimuth are lines in the plane (u, z), u toward the fence, z = z₀ + σ u cot θ; the wood between them is thinnest at
 * one end of what both have sawn, because lines that do not cross come steadily nearer. Lengths mm.
 */
import type { CutKind, SlotId } from '../design/document.ts';
import { cotDeg, sameAzimuth, sinDeg } from '../geometry/angle.ts';
import type { Slot } from '../blank/slots.ts';
import type { Measures } from './measures.ts';
import type { Message } from './messages.ts';
import { ROUNDING_MM, THINNEST_SOUND_WEB_MM } from './thresholds.ts';
import { mm, said, type Wording } from './wording.ts';

/** The thin end of a wedge. */
export interface WedgeEnd {
  readonly wood_mm: number;
  /** fence: it hangs on that wood by its web; entry: that wood is an edge of the entry face. */
  readonly at: 'fence' | 'entry';
}

/** null: the slots are parallel, of another azimuth, or nowhere beside each other within the blank. */
export function wedgeBetween(a: Slot, b: Slot, length_mm: number): WedgeEnd | null {
  const rises = [a, b].map(rise);
  if (!sameAzimuth(a.fenceAzimuth_deg, b.fenceAzimuth_deg) || Math.abs(rises[0] - rises[1]) < 1e-9)
    return null;
  const [from_mm, to_mm] = [a, b].reduce(
    ([low, high], slot) => {
      const [first, last] = withinBlank(slot, length_mm);
      return [Math.max(low, first), Math.min(high, last)];
    },
    [-Infinity, Infinity],
  );
  if (!(from_mm < to_mm)) return null;
  const ends = [
    { at: 'entry' as const, wood_mm: woodAt_mm(a, b, from_mm) },
    { at: 'fence' as const, wood_mm: woodAt_mm(a, b, to_mm) },
  ];
  return ends[0].wood_mm < ends[1].wood_mm ? ends[0] : ends[1];
}

/** Along the axis per length toward the fence. */
function rise({ slope, angle_deg }: Slot): number {
  return slope * cotDeg(angle_deg);
}

/** How far toward the fence a slot is sawn: the web is left at the fence, or across the feed. */
const SAWN_TO_MM: Readonly<Record<CutKind, (slot: Slot) => number>> = {
  fence: ({ stop_mm }) => stop_mm,
  table: ({ fenceSupport_mm }) => fenceSupport_mm,
};

/** From where to where, toward the fence, the middle of a slot is sawn within the blank's length. */
function withinBlank(slot: Slot, length_mm: number): [number, number] {
  const first = -slot.fenceSupport_mm;
  const last = SAWN_TO_MM[slot.cut](slot);
  const climbs = rise(slot);
  if (Math.abs(climbs) < 1e-9)
    return slot.center_mm >= 0 && slot.center_mm <= length_mm ? [first, last] : [0, 0];
  const atFoot = -slot.center_mm / climbs;
  const atHead = (length_mm - slot.center_mm) / climbs;
  return [Math.max(first, Math.min(atFoot, atHead)), Math.min(last, Math.max(atFoot, atHead))];
}

/** Wood between two slots at a distance toward the fence: square to one or the other, the lesser. */
function woodAt_mm(a: Slot, b: Slot, u_mm: number): number {
  const apart_mm = Math.abs(a.center_mm + rise(a) * u_mm - b.center_mm - rise(b) * u_mm);
  const kerfs_mm = (a.kerf_mm / sinDeg(a.angle_deg) + b.kerf_mm / sinDeg(b.angle_deg)) / 2;
  return (apart_mm - kerfs_mm) * Math.min(sinDeg(a.angle_deg), sinDeg(b.angle_deg));
}

/** Wedges between slots that the plan leaves open together, told of the later one. */
export function wedgeMessages({ slots, plan }: Measures, length_mm: number): Message[] {
  const known = new Map(slots.map((slot) => [slot.id, slot]));
  const named = (id: SlotId): Slot => {
    const slot = known.get(id);
    if (!slot) throw new Error(`the sessions name ${id}, which no slot has`);
    return slot;
  };
  return plan.sessions.flatMap((session) =>
    session.flatMap((id, n) => {
      const wedges = session.slice(0, n).flatMap((earlier) => {
        const wedge = wedgeBetween(named(earlier), named(id), length_mm);
        return wedge && wedge.wood_mm < THINNEST_SOUND_WEB_MM - ROUNDING_MM ? [{ earlier, ...wedge }] : [];
      });
      const thinnest = wedges.toSorted((a, b) => a.wood_mm - b.wood_mm).at(0);
      return thinnest ? [wedgeMessage(id, thinnest)] : [];
    }),
  );
}

function wedgeMessage(
  slot: SlotId,
  { earlier, wood_mm, at }: WedgeEnd & { readonly earlier: SlotId },
): Message {
  const wood = mm(Math.max(wood_mm, 0), 2, { beside_mm: THINNEST_SOUND_WEB_MM });
  const where: Readonly<Record<WedgeEnd['at'], Wording>> = {
    fence: said`Between ${slot} and ${earlier}, which are open together, a wedge hangs on ${wood} of wood at the web: the blade may break it loose.`,
    entry: said`Between ${slot} and ${earlier}, which are open together, a wedge runs out to ${wood} of wood at the entry: the blade may break its edge off.`,
  };
  return {
    level: 'warning',
    code: 'wedge-loose',
    slot,
    words: said`${where[at]} Glue the first strip in before the second cut, or set them farther apart.`,
  };
}
