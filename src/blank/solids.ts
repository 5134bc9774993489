/**
 * Exact solids of the work: the block or the turned form divided into the body and one part per strip layer,
 * last cut wins, by carving slot after slot (geometry/carve.ts). Lathe frame, mm.
 *
 * Exact along the slot planes and the blank's flats. Round surfaces are faceted: vertices stand on the ideal
 * surface at azimuths 360° · i / facets, so a solid of revolution is low by about 2π² / (3 · facets²) in
 * volume (0.01 % at 256 facets).
 */
import type { Design } from '../design/document.ts';
import { carve } from '../geometry/carve.ts';
import { extractSolids } from '../geometry/extract.ts';
import { latheComplex, prismComplex, VOID, type FaceComplex } from '../geometry/faceComplex.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { Plane } from '../geometry/plane.ts';
import { scale } from '../geometry/vector.ts';
import { BODY } from './material.ts';
import type { Part } from './parts.ts';
import { flattenOutline } from '../geometry/outline.ts';
import { holeRegion } from './holes.ts';
import { clipProfile, polylineOf, resampleProfile, type Polyline } from './lathe.ts';
import { sectionGeometry, type SectionGeometry } from './section.ts';
import { layerBounds_mm, slotsOf, type Slot } from './slots.ts';

/** Facets of a full turn where the caller does not choose. */
export const DEFAULT_FACETS = 256;

export interface SolidOptions {
  /** Slots cut and filled, in cutting order; all when left out. */
  readonly filled?: number;
  /** Whether the next slot after the filled ones is cut and still open. */
  readonly open?: boolean;
  /** Facets of a full turn of any round surface. */
  readonly facets?: number;
}

export interface TurnedOptions extends SolidOptions {
  /** Rows of facets along the outline, about; left out: as many as the outline's curve needs. */
  readonly rows?: number;
}

/** Distance from a plane under which a vertex counts as on it, mm: far below any real size. */
function toleranceFor(design: Design): number {
  return 1e-9 * Math.max(design.blank.length_mm, design.blank.section.width_mm, 1);
}

/** Corners of the section; a round one as an inscribed polygon. */
export function sectionCorners(section: SectionGeometry, facets: number): (readonly [number, number])[] {
  if (!section.round) return [...section.corners_mm];
  return Array.from({ length: facets }, (_, i) => {
    const azimuth = (360 * i) / facets;
    return [section.inscribedRadius_mm * cosDeg(azimuth), section.inscribedRadius_mm * sinDeg(azimuth)];
  });
}

/** The half-spaces n · p ≤ c of slot layer `layer`, in the order in which carving splits by them. */
export function slotRegion(slot: Slot, layer: number): Plane[] {
  const bounds = layerBounds_mm(slot);
  return [
    { normal: slot.normal, offset_mm: slot.offset_mm + bounds[layer + 1] },
    { normal: scale(slot.normal, -1), offset_mm: -(slot.offset_mm + bounds[layer]) },
    { normal: slot.stopNormal, offset_mm: slot.stop_mm },
  ];
}

/** The blank before any turning, in parts. */
export function blockParts(design: Design, options: SolidOptions = {}): Part[] {
  return partsFrom(blockComplex(design, options.facets ?? DEFAULT_FACETS), design, options);
}

/** The turned piece (outline ∩ blank) in parts. The design must have a form. */
export function turnedParts(design: Design, options: TurnedOptions = {}): Part[] {
  return partsFrom(turnedComplex(design, options), design, options);
}

/** The whole piece as one closed solid: what is left of the block or form with the open slot cut out. */
export function wholePart(design: Design, turned: boolean, options: TurnedOptions = {}): Part {
  const complex = turned
    ? turnedComplex(design, options)
    : blockComplex(design, options.facets ?? DEFAULT_FACETS);
  const slots = slotsOf(design);
  const open = options.open ? slots[options.filled ?? slots.length] : undefined;
  if (open) carveSlot(complex, open, () => VOID, toleranceFor(design));
  const [solid] = extractSolids(complex, 1, () => 0);
  return {
    name: 'whole',
    slot: null,
    layer: 0,
    timber: design.blank.timber,
    positions_mm: solid.positions,
    triangles: solid.triangles,
    volume_mm3: solid.volume,
  };
}

function blockComplex(design: Design, facets: number): FaceComplex {
  const section = sectionGeometry(design.blank.section);
  return prismComplex(sectionCorners(section, facets), 0, design.blank.length_mm, BODY_OWNER);
}

/** Owners in the complex: 0 is the body, then one for each strip layer in cutting order. */
const BODY_OWNER = 0;

function turnedComplex(design: Design, options: TurnedOptions): FaceComplex {
  if (!design.form) throw new Error('turnedParts: the design has no form');
  const section = sectionGeometry(design.blank.section);
  const facets = options.facets ?? DEFAULT_FACETS;
  const { outline, loop = false, holes = [] } = design.form;
  let profile: Polyline =
    options.rows === undefined
      ? polylineOf(flattenOutline(outline, undefined, loop), loop)
      : resampleProfile(outline, options.rows, loop);
  const limit_mm = section.round ? section.inscribedRadius_mm : Infinity;
  profile = clipProfile(profile, design.blank.length_mm, limit_mm);
  const complex = latheComplex(profile.z_mm, profile.r_mm, facets, BODY_OWNER, profile.loop === true);
  if (!section.round) {
    const largest_mm = profile.r_mm.reduce((a, b) => Math.max(a, b), 0);
    section.faceAzimuths_deg.forEach((azimuth, i) => {
      const distance = section.faceDistances_mm[i];
      if (largest_mm <= distance) return;
      const outward = [cosDeg(azimuth), sinDeg(azimuth), 0] as const;
      carve(complex, [{ normal: scale(outward, -1), offset_mm: -distance }], VOID, toleranceFor(design));
    });
  }
  for (const hole of holes) {
    const region = holeRegion(hole, design.form);
    carve(complex, region, VOID, toleranceFor(design));
  }
  return complex;
}

function carveSlot(
  complex: FaceComplex,
  slot: Slot,
  ownerOf: (layer: number) => number,
  tolerance_mm: number,
): void {
  for (let layer = 0; layer < slot.layers.length; layer++)
    carve(complex, slotRegion(slot, layer), ownerOf(layer), tolerance_mm);
}

function partsFrom(complex: FaceComplex, design: Design, options: SolidOptions): Part[] {
  const slots = slotsOf(design);
  const filled = Math.min(options.filled ?? slots.length, slots.length);
  const tolerance_mm = toleranceFor(design);
  const labels: { slot: number; layer: number }[] = [{ slot: BODY, layer: 0 }];
  for (let i = 0; i < filled; i++) {
    const first = labels.length;
    for (let layer = 0; layer < slots[i].layers.length; layer++) labels.push({ slot: i, layer });
    carveSlot(complex, slots[i], (layer) => first + layer, tolerance_mm);
  }
  if (options.open && filled < slots.length) carveSlot(complex, slots[filled], () => VOID, tolerance_mm);
  const solids = extractSolids(complex, labels.length, (owner) => owner);
  return labels.map(({ slot, layer }, i) => {
    const solid = solids[i];
    const strip = slot === BODY ? null : slots[slot];
    return {
      name: partName(strip, layer),
      slot: strip ? strip.id : null,
      layer,
      timber: strip ? strip.layers[layer].timber : design.blank.timber,
      positions_mm: solid.positions,
      triangles: solid.triangles,
      volume_mm3: solid.volume,
    };
  });
}

/** `body`, the slot id, or slot id and layer number where the strip is layered. */
export function partName(slot: Slot | null, layer: number): string {
  if (!slot) return 'body';
  return slot.layers.length > 1 ? `${slot.id}/${layer + 1}` : slot.id;
}
