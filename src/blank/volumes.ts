/**
 * Volumes of the ideal parts: strips and body of the sawn and glued blank, and of the turned form ∩ blank
 * (docs/geometry.md, "Measures"). Nothing is faceted beyond the outline's polyline. Lathe frame, mm.
 *
 * The blank less the later slots, within a strip's own slot, is a set of convex polyhedra (geometry/
 * convexSolids.ts): in a blank with flats their volumes are the answer, to rounding. In a round blank and in a
 * turned form they are measured within the solid of revolution (revolvedVolume.ts). The whole is a sum of
 * frusta, exact where circles do not meet flats; the body is the rest of it. Holes along the axis belong to
 * the solid of revolution; what others take is measured apart and taken away.
 */
import { boxSolid, solidVolume, type ConvexSolid } from '../geometry/convexSolids.ts';
import { prismVolumeUnder, type Prism } from '../geometry/discPolygon.ts';
import { halfSpace, type HalfSpace } from '../geometry/halfspace.ts';
import type { Profile } from '../geometry/outline.ts';
import type { Estimate } from '../geometry/quadrature.ts';
import { revolutionOf, withoutBores, type Revolution } from '../geometry/revolution.ts';
import { crossingsOf, slotFrame, touchesOf } from './frames.ts';
import type { HoleCylinder } from './holes.ts';
import { boresOf, drilledVolume, isBore } from './holeVolumes.ts';
import { volumeWithin } from './revolvedVolume.ts';
import type { SectionGeometry } from './section.ts';
import { slotSpaces, type SlotSpaces } from './slotSpaces.ts';
import type { Slot } from './slots.ts';
import { visibleSolids, type Bounds } from './visibleSolids.ts';

export interface PartVolumes {
  /** The whole piece, the sum of all parts. */
  readonly volume_mm3: number;
  readonly body_mm3: number;
  /** One per slot, in cutting order. */
  readonly strips_mm3: Float64Array;
  /** Estimated bound on the error of any one strip. */
  readonly error_mm3: number;
}

/** What the strips are measured in. */
interface Piece {
  readonly volume_mm3: number;
  readonly bounds: Bounds;
  /** The form, or the blank itself where it is round; null: the prism alone. */
  readonly solid: Revolution | null;
  /** Edges of the solid, [radius, z]. */
  readonly circles: readonly (readonly [r: number, z: number])[];
  /** Holes that do not run along the axis. */
  readonly holes: readonly HoleCylinder[];
}

export function blockVolumes(
  slots: readonly Slot[],
  section: SectionGeometry,
  length_mm: number,
): PartVolumes {
  const radius = section.circumscribedRadius_mm;
  return partVolumes(slots, {
    volume_mm3: section.area_mm2 * length_mm,
    bounds: { zLow_mm: 0, zHigh_mm: length_mm, reach_mm: radius, flats: flatsOf(section) },
    solid: section.round ? revolutionOf([0, 0, length_mm, length_mm], [0, radius, radius, 0]) : null,
    circles: section.round ? [0, length_mm].map((z) => [radius, z] as const) : [],
    holes: [],
  });
}

/** Volumes of the outline's solid ∩ the blank (z in 0 … length), less the drilled holes. */
export function turnedVolumes(
  slots: readonly Slot[],
  profile: Profile,
  section: SectionGeometry,
  length_mm: number,
  holes: readonly HoleCylinder[] = [],
): PartVolumes {
  const outline = revolutionOf(profile.z_mm, profile.r_mm, section.circumscribedRadius_mm);
  const solid = withoutBores(outline, boresOf(holes));
  const circles: [number, number][] = [];
  profile.corner.forEach((isCorner, i) => {
    if (isCorner) circles.push([Math.min(profile.r_mm[i], section.circumscribedRadius_mm), profile.z_mm[i]]);
  });
  for (const { z, r } of solid.stretches.slice(outline.stretches.length))
    circles.push([r[0], z[0]], [r[r.length - 1], z[z.length - 1]]);
  return partVolumes(slots, {
    volume_mm3: volumeOf(solid, section, length_mm),
    bounds: {
      zLow_mm: Math.max(0, solid.zLow),
      zHigh_mm: Math.min(length_mm, solid.zHigh),
      reach_mm: solid.rMost,
      flats: solid.rMost > section.inscribedRadius_mm ? flatsOf(section) : [],
    },
    solid,
    circles,
    holes: holes.filter((hole) => !isBore(hole)),
  });
}

function volumeOf({ stretches }: Revolution, section: SectionGeometry, length_mm: number): number {
  const prism: Prism = {
    corners: section.corners_mm,
    faceDistances: section.faceDistances_mm,
    inscribed: section.inscribedRadius_mm,
    circumscribed: section.circumscribedRadius_mm,
    zLow: 0,
    zHigh: length_mm,
  };
  let volume = 0;
  for (const { sign, z, r } of stretches)
    for (let i = 0; i + 1 < z.length; i++)
      volume += sign * prismVolumeUnder(z[i], r[i], z[i + 1], r[i + 1], prism);
  return volume;
}

function flatsOf(section: SectionGeometry): HalfSpace[] {
  return section.corners_mm.map(([x, y], i) => {
    // Corner i lies between face i and face i + 1, so face i runs from corner i − 1 to corner i.
    const [fromX, fromY] = section.corners_mm.at(i - 1) as readonly [number, number];
    const length = Math.hypot(x - fromX, y - fromY);
    return halfSpace([(y - fromY) / length, (fromX - x) / length, 0], section.faceDistances_mm[i]);
  });
}

/** Of a full section through the middle of the piece: the error of a strip's sections at which the rule may stop. */
const SETTLED = 1e-6;

function partVolumes(slots: readonly Slot[], piece: Piece): PartVolumes {
  const spaces = slots.map(slotSpaces);
  const { bounds, solid, holes } = piece;
  const tolerance_mm2 = (SETTLED * piece.volume_mm3) / (bounds.zHigh_mm - bounds.zLow_mm);
  let volume_mm3 = piece.volume_mm3;
  let body_mm3 = piece.volume_mm3;
  let error_mm3 = 0;
  const strips_mm3 = Float64Array.from(slots, (slot, i) => {
    const strip = stripVolume(slot, spaces[i], spaces.slice(i + 1), piece, tolerance_mm2);
    error_mm3 = Math.max(error_mm3, strip.error);
    body_mm3 -= strip.value;
    return strip.value;
  });
  if (solid)
    holes.forEach((hole, n) => {
      const earlier = holes.slice(0, n);
      const drilled = (own: SlotSpaces | null, later: readonly SlotSpaces[]) =>
        drilledVolume(hole, earlier, solid, bounds, piece.circles, own, later, tolerance_mm2);
      const whole = drilled(null, []).value;
      volume_mm3 -= whole;
      body_mm3 -= whole;
      slots.forEach((_, i) => {
        const taken = drilled(spaces[i], spaces.slice(i + 1)).value;
        strips_mm3[i] -= taken;
        body_mm3 += taken;
      });
    });
  return { volume_mm3, body_mm3, strips_mm3, error_mm3 };
}

/** Sine of the angle to the axis below which a section can change from nothing to full within a hair's breadth. */
const NEARLY_ALONG = 0.02;

function stripVolume(
  slot: Slot,
  own: SlotSpaces,
  later: readonly SlotSpaces[],
  { bounds, solid, circles }: Piece,
  tolerance_mm2: number,
): Estimate {
  const frame = slotFrame(slot);
  const across = slot.normal[2];
  const heights = [bounds.zLow_mm, bounds.zHigh_mm].map((z) => frame.x[2] * (z - frame.z0_mm));
  const half = slot.kerf_mm / 2;
  const box = boxSolid(
    [Math.min(...heights) - across * bounds.reach_mm, -bounds.reach_mm, -half],
    [Math.max(...heights) + across * bounds.reach_mm, bounds.reach_mm, half],
  );
  const solids = visibleSolids(frame, box, bounds, [own[2]], later);
  if (!solid) return { value: solids.reduce((sum, part) => sum + solidVolume(part), 0), error: 0 };
  const touches = touchesOf(frame, circles);
  const kinksIn = (part: ConvexSolid) =>
    across < NEARLY_ALONG ? [...touches, ...crossingsOf(frame, circles, part)] : touches;
  // Of a plane nearly along the axis the full section is longer than the piece, but no longer than its extent allows.
  const height_mm = bounds.zHigh_mm - bounds.zLow_mm;
  const extent_mm = across * height_mm + 2 * bounds.reach_mm * Math.sqrt(1 - across * across);
  return volumeWithin(solid, solids, frame, kinksIn, (tolerance_mm2 * height_mm) / extent_mm);
}
