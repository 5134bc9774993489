/**
 * The set-up of a cut with the table tilted: how the blank lies, where its marks and the ledge stand, how far it is fed.
 * Lathe frame, millimetres and degrees. Formulas: docs/shop-plan.md, "Table tilted".
 *
 * The blank lies with one end flat on the table and the side of the fence azimuth against a ledge along the low edge of
 * it. It is fed along the ledge, so that the blade runs through the wood in the direction v of the slot, and stopped when
 * the web is left at the side opposite the entry. The kerf's mid-plane meets an end face in a line along the feed, at
 * u = σ (z − z₀) tan θ from the axis toward the ledge.
 */
import type { SectionGeometry } from '../blank/section.ts';
import { faceLetterAt, support_mm } from '../blank/section.ts';
import type { Slot } from '../blank/slots.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { End } from './setups.ts';

/** The line in which the kerf's mid-plane meets an end of the blank. */
export interface EndMark {
  /** From the axis, positive toward the side at the ledge. */
  readonly from_axis_mm: number;
  /** From the nearer of the two sides along the feed, and the letter of that face (null: no flat). */
  readonly from_side_mm: number;
  readonly nearer: 'ledge' | 'far';
  readonly face: string | null;
}

export interface TableSetup {
  readonly tilt_deg: number;
  /** The side of the table that goes down, for one who feeds the blank away from himself. */
  readonly tilts: 'right' | 'left';
  /** The end that lies on the table. */
  readonly end_down: End;
  /** Letters of the faces where the blade enters and where the web is left; null: no flat. */
  readonly entry_face: string | null;
  readonly web_face: string | null;
  /**
   * On the table, square to the ledge, from the ledge to the kerf's middle and to its nearer side; negative: beyond the
   * ledge, seen from the blank. null at 90°.
   */
  readonly ledge_to_kerf_center_mm: number | null;
  readonly ledge_to_kerf_near_mm: number | null;
  /** null where the mid-plane does not meet that end within the blank. */
  readonly mark_foot: EndMark | null;
  readonly mark_head: EndMark | null;
  /** From the first touch of the teeth to the stop. */
  readonly feed_mm: number;
  /** The end of the blank toward the saw's frame, which stands on the high side of a table that tilts to the right. */
  readonly frame_end: End;
}

/** The set-up of a slot that is cut with the table tilted. */
export function tableSetupOf(slot: Slot, section: SectionGeometry, length_mm: number): TableSetup {
  const side = webSide(slot);
  const end_down = endDown(slot);
  const tilts = slot.slope === side ? 'right' : 'left';
  const ledge_to_kerf_center_mm = ledgeToKerf_mm(slot, length_mm);
  return {
    tilt_deg: slot.angle_deg,
    tilts,
    end_down,
    entry_face: faceLetterAt(section, slot.fenceAzimuth_deg - 90 * side),
    web_face: faceLetterAt(section, slot.fenceAzimuth_deg + 90 * side),
    ledge_to_kerf_center_mm,
    ledge_to_kerf_near_mm:
      ledge_to_kerf_center_mm === null
        ? null
        : ledge_to_kerf_center_mm -
          (Math.sign(ledge_to_kerf_center_mm) * slot.kerf_mm) / 2 / cosDeg(slot.angle_deg),
    mark_foot: endMark(slot, section, 0),
    mark_head: endMark(slot, section, length_mm),
    feed_mm: slot.stop_mm + support_mm(section, slot.fenceAzimuth_deg - 90 * side),
    frame_end: tilts === 'right' ? end_down : end_down === 'foot' ? 'head' : 'foot',
  };
}

/** +1: the web is left at the fence azimuth + 90°, −1: at − 90°. */
export function webSide({ stopNormal, bladeDirection }: Pick<Slot, 'stopNormal' | 'bladeDirection'>): 1 | -1 {
  return stopNormal[0] * bladeDirection[0] + stopNormal[1] * bladeDirection[1] > 0 ? 1 : -1;
}

/** With the side of the fence azimuth low on the table, the end nearer to the slot on that side lies on it. */
export function endDown({ slope }: Pick<Slot, 'slope'>): End {
  return slope === 1 ? 'head' : 'foot';
}

/** Where the mid-plane meets the plane of an end, from the axis toward the ledge; null where it never does (90°). */
export function traceAtEnd_mm(
  slot: Pick<Slot, 'angle_deg' | 'slope' | 'center_mm'>,
  z_mm: number,
): number | null {
  const cosine = cosDeg(slot.angle_deg);
  return cosine === 0 ? null : (slot.slope * (z_mm - slot.center_mm) * sinDeg(slot.angle_deg)) / cosine;
}

/** On the table, from the ledge to the kerf's middle; null at 90°. */
export function ledgeToKerf_mm(slot: Slot, length_mm: number): number | null {
  const trace_mm = traceAtEnd_mm(slot, endDown(slot) === 'head' ? length_mm : 0);
  return trace_mm === null ? null : slot.fenceSupport_mm - trace_mm;
}

function endMark(slot: Slot, section: SectionGeometry, z_mm: number): EndMark | null {
  const from_axis_mm = traceAtEnd_mm(slot, z_mm);
  if (from_axis_mm === null) return null;
  const far_mm = support_mm(section, slot.fenceAzimuth_deg + 180);
  if (from_axis_mm > slot.fenceSupport_mm || from_axis_mm < -far_mm) return null;
  const fromLedge_mm = slot.fenceSupport_mm - from_axis_mm;
  const fromFar_mm = from_axis_mm + far_mm;
  return fromLedge_mm <= fromFar_mm
    ? {
        from_axis_mm,
        from_side_mm: fromLedge_mm,
        nearer: 'ledge',
        face: faceLetterAt(section, slot.fenceAzimuth_deg),
      }
    : {
        from_axis_mm,
        from_side_mm: fromFar_mm,
        nearer: 'far',
        face: faceLetterAt(section, slot.fenceAzimuth_deg + 180),
      };
}

/** Where wood lies down the slope of a kerf: x = sin θ u + σ cos θ (z − z₀), from the axis toward the fence. */
export interface SlopeRuns {
  /** Lowest and highest x of wood anywhere in the kerf; equal where it meets none. */
  readonly low_mm: number;
  readonly high_mm: number;
  /** The longest run of wood on a plane of the kerf. */
  readonly longest_mm: number;
}

/** Runs of wood in a kerf, its stop left aside. */
export function slopeRuns(slot: Slot, section: SectionGeometry, length_mm: number): SlopeRuns {
  const half = slot.kerf_mm / 2;
  // What bounds a run is linear in f but at the corners of the blank's outline seen along v.
  const corners = [-support_mm(section, slot.fenceAzimuth_deg + 180), slot.fenceSupport_mm].flatMap((u) =>
    [0, length_mm].map((z) => distance_mm(slot, u, z)),
  );
  const runs = [-half, half, ...corners.filter((f) => Math.abs(f) < half)]
    .map((f) => slopeRun(slot, section, length_mm, f))
    .filter((run) => run !== null);
  if (runs.length === 0) return { low_mm: 0, high_mm: 0, longest_mm: 0 };
  return {
    low_mm: Math.min(...runs.map(([low]) => low)),
    high_mm: Math.max(...runs.map(([, high]) => high)),
    longest_mm: Math.max(...runs.map(([low, high]) => high - low)),
  };
}

/** f at a distance u toward the fence and a height z. */
function distance_mm(slot: Slot, u_mm: number, z_mm: number): number {
  return sinDeg(slot.angle_deg) * (z_mm - slot.center_mm) - slot.slope * cosDeg(slot.angle_deg) * u_mm;
}

/** The run of wood on the plane at f from the mid-plane, in x; null where it misses the blank. */
function slopeRun(
  slot: Slot,
  section: SectionGeometry,
  length_mm: number,
  f: number,
): readonly [low: number, high: number] | null {
  const sine = sinDeg(slot.angle_deg);
  const climb = slot.slope * cosDeg(slot.angle_deg);
  let low = (climb * f - support_mm(section, slot.fenceAzimuth_deg + 180)) / sine;
  let high = (climb * f + slot.fenceSupport_mm) / sine;
  const foot = -slot.center_mm - sine * f;
  const head = foot + length_mm;
  if (climb === 0) return foot <= 0 && head >= 0 && low <= high ? [low, high] : null;
  low = Math.max(low, Math.min(foot / climb, head / climb));
  high = Math.min(high, Math.max(foot / climb, head / climb));
  return low <= high ? [low, high] : null;
}

/**
 * Wood left between the stop and the surface where it is thickest, on the face of the kerf that has less; 0 where a face
 * has none. A face outside the blank needs no web; where both are, it is the web as meant.
 */
export function tableWeb_mm(slot: Slot, section: SectionGeometry, length_mm: number): number {
  const webs = [-1, 1].map((face) => {
    const f = (face * slot.kerf_mm) / 2;
    const run = slopeRun(slot, section, length_mm, f);
    if (run === null) return Infinity;
    const uAt = (x: number) => sinDeg(slot.angle_deg) * x - slot.slope * cosDeg(slot.angle_deg) * f;
    return farthestBetween_mm(slot, section, uAt(run[0]), uAt(run[1])) - slot.stop_mm;
  });
  const least_mm = Math.min(...webs);
  return least_mm === Infinity ? slot.web_mm : Math.max(0, least_mm);
}

/** The section's largest extent toward the web within a stretch of u. */
function farthestBetween_mm(slot: Slot, section: SectionGeometry, low_mm: number, high_mm: number): number {
  if (section.round) {
    const u = Math.min(Math.max(0, low_mm), high_mm);
    return Math.sqrt(Math.max(0, section.inscribedRadius_mm ** 2 - u ** 2));
  }
  const points = section.corners_mm.map(([x, y]) => ({
    u: x * slot.fenceDirection[0] + y * slot.fenceDirection[1],
    out: x * slot.stopNormal[0] + y * slot.stopNormal[1],
  }));
  let farthest = -Infinity;
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length];
    const from = Math.max(low_mm, Math.min(a.u, b.u));
    const to = Math.min(high_mm, Math.max(a.u, b.u));
    if (from > to) return;
    for (const u of [from, to]) {
      const at = a.u === b.u ? Math.max(a.out, b.out) : a.out + ((u - a.u) / (b.u - a.u)) * (b.out - a.out);
      farthest = Math.max(farthest, at);
    }
  });
  return farthest;
}
