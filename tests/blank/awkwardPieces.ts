/** Random turned pieces for the checks of rings, coverage and volumes, and quadratures that know only circles and points. */
import type { HoleCylinder } from '../../src/blank/holes.ts';
import { BODY, materialAt } from '../../src/blank/material.ts';
import { sectionGeometry, type SectionGeometry } from '../../src/blank/section.ts';
import { slotsOf, type Slot } from '../../src/blank/slots.ts';
import type { Design } from '../../src/design/document.ts';
import { flattenOutline, type Profile } from '../../src/geometry/outline.ts';
import { scale } from '../../src/geometry/vector.ts';
import { randomDesign, type RandomDesignOptions } from '../fixtures/designs.ts';
import { seededRandom } from '../fixtures/random.ts';
import { holeHolds, materialArcsAt } from './pointwise.ts';

export interface Piece {
  readonly design: Design;
  readonly slots: readonly Slot[];
  readonly profile: Profile;
  readonly section: SectionGeometry;
}

/** A random turned piece; in some, cuts are stopped across the blank as with a tilted table. */
export function randomPiece(seed: number, options: RandomDesignOptions = {}): Piece {
  const design = randomDesign(seed, { form: 'any', ...options });
  const random = seededRandom(seed);
  const slots = slotsOf(design).map((slot): Slot => {
    if (!random.chance(0.15)) return slot;
    const side = random.pick([1, -1]);
    return { ...slot, stopNormal: scale(slot.bladeDirection, side), stop_mm: random.between(-10, 15) };
  });
  return {
    design,
    slots,
    profile: flattenOutline(design.form!.outline, 0.02),
    section: sectionGeometry(design.blank.section),
  };
}

/** A design turned a quarter about its axis. */
export function quarterTurned(design: Design): Design {
  return {
    ...design,
    sets: design.sets.map((set) => ({
      ...set,
      fence_azimuths_deg: set.fence_azimuths_deg.map((azimuth) => (azimuth + 90) % 360),
    })),
  };
}

/**
 * Area that each material shows on the outside (the last entry is the body’s), from the arcs of circles:
 * midpoints over `rows` of the outline, divided where a square slot’s face or a flat ring begins.
 */
export function areasByRows({ slots, profile }: Piece, rows: number): Float64Array {
  const areas = new Float64Array(slots.length + 1);
  const edges = slots.flatMap((slot) =>
    slot.angle_deg === 90 ? [-1, 1].map((side) => slot.center_mm + (side * slot.kerf_mm) / 2) : [],
  );
  let length = 0;
  for (let i = profile.outsideStart; i < profile.outsideEnd; i++) length += sideLength(profile, i);
  for (let i = profile.outsideStart; i < profile.outsideEnd; i++) {
    const slant = sideLength(profile, i);
    const dz = profile.z_mm[i + 1] - profile.z_mm[i];
    const dr = profile.r_mm[i + 1] - profile.r_mm[i];
    const count = Math.ceil((rows * slant) / length);
    const stops = Array.from({ length: count + 1 }, (_, k) => k / count);
    for (const z of edges) {
      const t = (z - profile.z_mm[i]) / dz;
      if (t > 0 && t < 1) stops.push(t);
    }
    stops.sort((a, b) => a - b);
    for (let k = 0; k + 1 < stops.length; k++) {
      const t = (stops[k] + stops[k + 1]) / 2;
      const r = profile.r_mm[i] + t * dr;
      for (const arc of materialArcsAt(slots, profile.z_mm[i] + t * dz, r))
        areas[arc.material === BODY ? slots.length : arc.material] +=
          (arc.to_rad - arc.from_rad) * r * slant * (stops[k + 1] - stops[k]);
    }
  }
  return areas;
}

function sideLength(profile: Profile, i: number): number {
  return Math.hypot(profile.z_mm[i + 1] - profile.z_mm[i], profile.r_mm[i + 1] - profile.r_mm[i]);
}

/**
 * Volumes of the materials in block and turned form (last entry: body), by counting `count` points of a
 * low-discrepancy sequence (multiples of the powers of 1/g, g³… = 1.2207440846: M. Roberts, "The unreasonable
 * effectiveness of quasirandom sequences", from memory) in the blank’s bounding box.
 */
export function volumesByPoints(
  { design, slots, profile, section }: Piece,
  count: number,
  holes: readonly HoleCylinder[] = [],
): { block: Float64Array; turned: Float64Array } {
  const g = 1.2207440846057596;
  const size = 2 * section.circumscribedRadius_mm;
  const { length_mm } = design.blank;
  const each = (size * size * length_mm) / count;
  const block = new Float64Array(slots.length + 1);
  const turned = new Float64Array(slots.length + 1);
  for (let n = 1; n <= count; n++) {
    const x = (((0.5 + n / g) % 1) - 0.5) * size;
    const y = (((0.5 + n / (g * g)) % 1) - 0.5) * size;
    const z = ((0.5 + n / (g * g * g)) % 1) * length_mm;
    if (!inSection(section, x, y)) continue;
    const material = materialAt(slots, [x, y, z]);
    const index = material === BODY ? slots.length : material;
    block[index] += each;
    if (inOutline(profile, z, Math.hypot(x, y)) && !holes.some((hole) => holeHolds(hole, [x, y, z])))
      turned[index] += each;
  }
  return { block, turned };
}

function inSection(section: SectionGeometry, x: number, y: number): boolean {
  if (section.round) return Math.hypot(x, y) <= section.inscribedRadius_mm;
  return section.faceAzimuths_deg.every((azimuth, i) => {
    const phi = (azimuth * Math.PI) / 180;
    return x * Math.cos(phi) + y * Math.sin(phi) <= section.faceDistances_mm[i];
  });
}

/** Even-odd rule in the (z, r) half-plane. */
function inOutline({ z_mm, r_mm }: Profile, z: number, r: number): boolean {
  let inside = false;
  for (let i = 0; i + 1 < z_mm.length; i++)
    if (
      z_mm[i] > z !== z_mm[i + 1] > z &&
      r < r_mm[i] + ((r_mm[i + 1] - r_mm[i]) * (z - z_mm[i])) / (z_mm[i + 1] - z_mm[i])
    )
      inside = !inside;
  return inside;
}
