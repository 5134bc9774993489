/** The woods of a variant as the shader looks them up: slots, layers, grain, and the flats of the blank. Lathe frame, mm. */
import type { Vector3 } from 'three';
import { DEG } from '../geometry/angle.ts';
import type { Uniforms } from './material.ts';
import type { Shape } from './shape.ts';
import { CELLS_ACROSS, CELLS_ALONG, type LayerWood, type SlotTextures } from './slotTexture.ts';
import { blankGrain, stripGrain } from './wood/grain.ts';
import type { TimberTextures } from './wood/timberTexture.ts';

export function writeWood(
  u: Uniforms,
  textures: SlotTextures,
  timbers: TimberTextures,
  { design, slots, section }: Shape,
): void {
  const wood = (timber: string, frame: LayerWood['frame']): LayerWood => ({
    timberRow: timbers.rowOf(timber),
    frame,
  });
  const { blank } = design;
  const extent = { radius_mm: section.circumscribedRadius_mm, length_mm: blank.length_mm };
  textures.write(slots, extent, wood(blank.timber, blankGrain(blank)), (slot, layer) =>
    wood(slots[slot].layers[layer].timber, stripGrain(slots[slot], layer)),
  );
  u.uSlots.value = textures.slots;
  u.uLayers.value = textures.layers;
  u.uCells.value = textures.cells;
  u.uList.value = textures.list;
  const r = extent.radius_mm;
  const across = CELLS_ACROSS / (2 * r);
  (u.uCellOrigin.value as Vector3).set(-r, -r, 0);
  (u.uCellScale.value as Vector3).set(across, across, CELLS_ALONG / extent.length_mm);
  const faces = u.uFaces.value as Vector3[];
  u.uFaceCount.value = section.faceAzimuths_deg.length;
  if (section.round) faces[0].set(0, 0, section.inscribedRadius_mm);
  section.faceAzimuths_deg.forEach((azimuth, i) => {
    const a = azimuth * DEG;
    faces[i].set(Math.cos(a), Math.sin(a), section.faceDistances_mm[i]);
  });
}
