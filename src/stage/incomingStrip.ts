/** The strip on its way into the open slot, layer by layer: a thin box that slides in from the side where the blade entered. */
import { layerBounds_mm, wayOut, type Slot } from '../blank/slots.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import type { Plane } from '../geometry/plane.ts';
import { dot, scale, type Vec3 } from '../geometry/vector.ts';
import { clipAll, convexBox, convexMesh } from '../meshes/convex.ts';
import { entrySupport_mm } from '../meshes/cutters.ts';
import { toDrawn, type WorkMesh } from '../meshes/mesh.ts';
import { slopeRuns } from '../plan/tableSetup.ts';
import type { Shape } from './shape.ts';

/** The strip's faces stand this far inside its kerf, so that they do not flicker against the sawn faces. */
const CLEAR_MM = 0.01;

export interface IncomingStrip {
  readonly layers: readonly WorkMesh[];
  /** Where the strip is, drawn frame, mm. */
  readonly offset: [number, number, number];
}

/** `slide` 0: clear of the block, 1: home; `overhang` 1: as cut, 0: trimmed flush. */
export function incomingStrip(shape: Shape, index: number, slide: number, overhang: number): IncomingStrip {
  const slot = shape.slots[index];
  const { section, design } = shape;
  const over_mm = design.saw.strip_overhang_mm * overhang;
  const entryward = wayOut(slot);
  const sine = -dot(entryward, slot.stopNormal);
  const entry_mm = entrySupport_mm(slot, section);
  const across = openEnds(shape, slot);
  const bounds = layerBounds_mm(slot);
  const layers = slot.layers.map((_, layer) => {
    const planes: Plane[] = [
      { normal: slot.normal, offset_mm: slot.offset_mm + bounds[layer + 1] - CLEAR_MM },
      { normal: scale(slot.normal, -1), offset_mm: -(slot.offset_mm + bounds[layer]) - CLEAR_MM },
      { normal: slot.stopNormal, offset_mm: slot.stop_mm - CLEAR_MM },
      { normal: scale(slot.stopNormal, -1), offset_mm: entry_mm + over_mm * sine },
      { normal: across.direction, offset_mm: across.high_mm + over_mm },
      { normal: scale(across.direction, -1), offset_mm: -across.low_mm + over_mm },
    ];
    const reach = 4 * (section.circumscribedRadius_mm + design.blank.length_mm);
    const solid = clipAll(convexBox([0, 0, design.blank.length_mm / 2], [reach, reach, reach]), planes);
    if (!solid) throw new Error(`strip ${slot.id} has no body`);
    return convexMesh(solid);
  });
  const depth_mm = (slot.stop_mm + entry_mm) / Math.max(sine, 1e-6);
  const away = scale(entryward, (1 - slide) * (depth_mm + 4 * design.saw.strip_overhang_mm + 10));
  return { layers, offset: toDrawn(away) };
}

/** From one open end of the slot to the other: along the blade at the fence, down the slope with the table tilted. */
function openEnds(shape: Shape, slot: Slot): { direction: Vec3; low_mm: number; high_mm: number } {
  switch (slot.cut) {
    case 'fence': {
      const [low_mm, high_mm] = extentAlong(shape, slot.bladeDirection);
      return { direction: slot.bladeDirection, low_mm, high_mm };
    }
    case 'table': {
      const { low_mm, high_mm } = slopeRuns(slot, shape.section, shape.design.blank.length_mm);
      const [ux, uy] = slot.fenceDirection;
      const sine = sinDeg(slot.angle_deg);
      const climb = slot.slope * cosDeg(slot.angle_deg);
      const middle_mm = climb * slot.center_mm;
      return {
        direction: [sine * ux, sine * uy, climb],
        low_mm: middle_mm + low_mm,
        high_mm: middle_mm + high_mm,
      };
    }
  }
}

function extentAlong({ section }: Shape, direction: Vec3): [number, number] {
  if (section.round) return [-section.inscribedRadius_mm, section.inscribedRadius_mm];
  const reach = section.corners_mm.map(([x, y]) => x * direction[0] + y * direction[1]);
  return [Math.min(...reach), Math.max(...reach)];
}
