/**
 * Coverage: the area of the outside that each strip and the body show, by last-cut-wins with the full kerf
 * (docs/geometry.md, "Rings"). Lathe frame, mm.
 *
 * On every frustum of the outside the border between two materials is a curve of the later one's kerf face or
 * stop. Green's theorem gives each material the sum of ∫ area(t) dψ along its borders (geometry/frustum.ts),
 * taken where the border is not covered by later strips; the material on the far side, found among the
 * earlier ones, gets the same with the opposite sign, so the parts add up to the outside whatever the design.
 * Ends of borders are closed forms; ties (faces that coincide, faces through an end circle) follow one rule on
 * both sides: slots are closed, the later slot has the border.
 */
import { TURN } from '../geometry/angle.ts';
import {
  alongCut,
  cutArea_mm2,
  cutOf,
  frustaOf,
  SAME_MM,
  type Along,
  type Cut,
  type Frustum,
} from '../geometry/frustum.ts';
import type { HalfSpace } from '../geometry/halfspace.ts';
import {
  intersect,
  subtract,
  measure,
  whereSinusoidNotPositive,
  withinHalfAngle,
  type Intervals,
} from '../geometry/intervals.ts';
import type { Profile } from '../geometry/outline.ts';
import { presentOn, slotSpaces, type SlotSpaces } from './slotSpaces.ts';
import type { Slot } from './slots.ts';

export interface Coverage {
  /** Area of the outside, the sum of all parts. */
  readonly outside_mm2: number;
  readonly body_mm2: number;
  /** One per slot, in cutting order. */
  readonly strips_mm2: Float64Array;
}

export function coverageOf(slots: readonly Slot[], profile: Profile): Coverage {
  const spaces = slots.map(slotSpaces);
  // The last entry is the body's.
  const areas = new Float64Array(slots.length + 1);
  for (const frustum of frustaOf(profile)) {
    const present = presentOn(frustum, spaces);
    coverEndCircle(frustum, spaces, present, areas);
    for (let owner = 0; owner < present.length; owner++)
      for (let face = 0; face < 3; face++) coverBorder(frustum, spaces, present, owner, face, areas);
  }
  let outside_mm2 = 0;
  for (const area of areas) outside_mm2 += area;
  // A strip that shows nowhere has nothing but rounding left.
  for (let i = 0; i < areas.length; i++) if (Math.abs(areas[i]) < 1e-12 * outside_mm2) areas[i] = 0;
  return { outside_mm2, body_mm2: areas[slots.length], strips_mm2: areas.slice(0, slots.length) };
}

/** Area of the whole frustum to the materials in proportion to what each shows just inside its larger end circle. */
function coverEndCircle(
  frustum: Frustum,
  spaces: readonly SlotSpaces[],
  present: readonly number[],
  areas: Float64Array,
): void {
  const perRadian = frustum.slant_mm * (frustum.ra_mm + frustum.dr_mm / 2);
  let free: Intervals = [0, TURN];
  for (let i = present.length - 1; i >= 0 && free.length > 0; i--) {
    let held = free;
    for (const space of spaces[present[i]]) {
      if (held.length === 0) break;
      held = intersect(held, onEndCircle(frustum, space));
    }
    areas[present[i]] += perRadian * measure(held);
    free = subtract(free, held);
  }
  areas[areas.length - 1] += perRadian * measure(free);
}

/** Azimuths of the larger end circle just inside which the half-space holds. */
function onEndCircle(frustum: Frustum, space: HalfSpace): Intervals {
  if (liesOnEndCircle(frustum, space)) return space.nz * frustum.dz_mm >= 0 ? [0, TURN] : [];
  const r = frustum.ra_mm + frustum.dr_mm;
  const c = space.nz * (frustum.za_mm + frustum.dz_mm) - space.c_mm;
  return whereSinusoidNotPositive(space.nx * r, space.ny * r, c, 0, TURN);
}

function liesOnEndCircle(frustum: Frustum, space: HalfSpace): boolean {
  const r = frustum.ra_mm + frustum.dr_mm;
  const c = space.nz * (frustum.za_mm + frustum.dz_mm) - space.c_mm;
  return space.horizontal * r + Math.abs(c) <= SAME_MM;
}

/** What the border along one face of present[owner] gives to that slot and takes from those it lies over. */
function coverBorder(
  frustum: Frustum,
  spaces: readonly SlotSpaces[],
  present: readonly number[],
  owner: number,
  face: number,
  areas: Float64Array,
): void {
  const own = spaces[present[owner]];
  if (liesOnEndCircle(frustum, own[face])) return;
  const cut = cutOf(frustum, own[face]);
  if (!cut) return;
  let runs: Intervals = [-cut.high_rad, -cut.low_rad, cut.low_rad, cut.high_rad];
  for (let k = 0; k < 3; k++) {
    if (k === face) continue;
    const along = alongCut(cut, own[k]);
    if (along.kind === 'opposite' || (along.kind === 'same' && k < face)) return;
    runs = keep(runs, along);
  }
  for (let later = present.length - 1; later > owner && runs.length > 0; later--)
    runs = subtract(runs, heldAlong(cut, spaces[present[later]], runs, true));
  if (runs.length === 0) return;
  const sign = cut.kappa > 0 ? 1 : -1;
  areas[present[owner]] += sign * areaAlong(cut, runs);
  for (let earlier = owner - 1; earlier >= 0 && runs.length > 0; earlier--) {
    const far = heldAlong(cut, spaces[present[earlier]], runs, false);
    if (far.length === 0) continue;
    areas[present[earlier]] -= sign * areaAlong(cut, far);
    runs = subtract(runs, far);
  }
  areas[areas.length - 1] -= sign * areaAlong(cut, runs);
}

function keep(runs: Intervals, along: Along): Intervals {
  if (along.kind === 'none') return [];
  if (along.kind !== 'arc') return runs;
  return intersect(runs, withinHalfAngle(along.center_rad, along.half_rad, -Math.PI, Math.PI));
}

/**
 * The part of `runs` in another slot: with its border if `closed`, else what it holds on the far side of the
 * curve (a face of it that is this same curve then counts only if the slot lies beyond).
 */
function heldAlong(cut: Cut, slot: SlotSpaces, runs: Intervals, closed: boolean): Intervals {
  let held = runs;
  for (const space of slot) {
    const along = alongCut(cut, space);
    if (along.kind === 'none' || (along.kind === 'same' && !closed)) return [];
    held = keep(held, along);
    if (held.length === 0) return held;
  }
  return held;
}

function areaAlong(cut: Cut, runs: Intervals): number {
  let sum = 0;
  for (let i = 0; i < runs.length; i += 2)
    sum +=
      runs[i] < 0
        ? cutArea_mm2(cut, -Math.min(0, runs[i + 1]), -runs[i])
        : cutArea_mm2(cut, runs[i], runs[i + 1]);
  return sum;
}
