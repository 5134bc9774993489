/**
 * How a cut with the table tilted is looked at: as by the one who feeds the blank, with the blade upright in the picture
 * and the table leaning. World frame (y-up), mm: the blank turned as it lies for this cut.
 */
import { Vector3 } from 'three';
import type { Slot } from '../blank/slots.ts';
import type { CutKind } from '../design/document.ts';
import { cosDeg, DEG, sinDeg } from '../geometry/angle.ts';
import { add, scale, type Vec3 } from '../geometry/vector.ts';
import { toDrawn } from '../meshes/mesh.ts';
import { endDown } from '../plan/tableSetup.ts';
import type { Shape } from './shape.ts';

export interface SawView {
  /** Another key: another place to stand at. */
  readonly key: string;
  /** Up in the picture: along the blade, away from the table. */
  readonly up: Vector3;
  /** From the piece to the eye, length one. */
  readonly toward: Vector3;
  /** Square on the side where the blade enters. */
  readonly entry: Vector3;
  /** What the picture must hold besides the blank. */
  readonly points: readonly Vector3[];
}

/** The eye stands a little beside the feed, toward the ledge, where the upper end leans to, and looks down. */
const BESIDE_DEG = 22;
const ABOVE_DEG = 22;
/** Size of the table that is shown, in radii of the blank: across the feed and along it. */
export const TABLE_ACROSS = 1.3;
export const TABLE_ALONG = 1.25;

/** How the saw is looked at, by the kind of cut; null: as the block is, from the side where the blade enters. */
const SAW_VIEWS: Readonly<Record<CutKind, ((shape: Shape, slot: Slot) => SawView) | null>> = {
  fence: null,
  table: tableView,
};

/** Whether the picture turns from upright to show the saw at a slot. */
export function hasOwnView({ cut }: Pick<Slot, 'cut'>): boolean {
  return SAW_VIEWS[cut] !== null;
}

export function sawViewOf(shape: Shape): SawView | null {
  if (shape.atSaw === null) return null;
  const slot = shape.slots[shape.atSaw];
  return SAW_VIEWS[slot.cut]?.(shape, slot) ?? null;
}

function tableView({ slots, section, design }: Shape, slot: Slot): SawView {
  // The blank turns until the fence azimuth is where the first slot's was.
  const turn_deg = slots[0].fenceAzimuth_deg - slot.fenceAzimuth_deg;
  const world = (v: Vec3) => new Vector3(...toDrawn(turned(v, turn_deg)));
  const up = world(upright(slot));
  const entry = world(scale(slot.stopNormal, -1));
  const low = world(slot.fenceDirection);
  const toward = entry
    .clone()
    .multiplyScalar(Math.cos(BESIDE_DEG * DEG))
    .addScaledVector(low.addScaledVector(up, -low.dot(up)).normalize(), Math.sin(BESIDE_DEG * DEG))
    .multiplyScalar(Math.cos(ABOVE_DEG * DEG))
    .addScaledVector(up, Math.sin(ABOVE_DEG * DEG))
    .normalize();
  const half = section.circumscribedRadius_mm;
  const floor = endDown(slot) === 'foot' ? 0 : design.blank.length_mm;
  const points = [-1, 1].flatMap((i) =>
    [-1, 1].map((j) =>
      world(
        add(
          add(
            scale(slot.fenceDirection, i * TABLE_ACROSS * half),
            scale(slot.stopNormal, j * TABLE_ALONG * half),
          ),
          [0, 0, floor],
        ),
      ),
    ),
  );
  const key = [up, entry].flatMap((v) => v.toArray().map((x) => x.toFixed(4))).join(' ');
  return { key, up, toward, entry, points };
}

/** Along the blade, away from the table; the ledge on its low side. Lathe frame. */
export function upright(slot: Pick<Slot, 'angle_deg' | 'slope' | 'fenceDirection'>): Vec3 {
  return add(scale(slot.fenceDirection, -sinDeg(slot.angle_deg)), [
    0,
    0,
    -slot.slope * cosDeg(slot.angle_deg),
  ]);
}

function turned([x, y, z]: Vec3, by_deg: number): Vec3 {
  const [c, s] = [cosDeg(by_deg), sinDeg(by_deg)];
  return [x * c - y * s, x * s + y * c, z];
}
