/** Solids as the engine hands them on: one closed triangle mesh per part of the piece. Lathe frame, mm. */
import type { SlotId } from '../design/document.ts';

export interface Part {
  /** `body`, a slot id, or `S1.1/1`, `S1.1/2` … for the layers of a layered strip. */
  readonly name: string;
  /** null for the body. */
  readonly slot: SlotId | null;
  /** Index of the strip's layer, foot side first; 0 for the body. */
  readonly layer: number;
  readonly timber: string;
  /** x, y, z of each vertex. */
  readonly positions_mm: Float64Array;
  /** Three vertex indices per triangle, counter-clockwise seen from outside. */
  readonly triangles: Uint32Array;
  /** Signed volume enclosed by the triangles. */
  readonly volume_mm3: number;
}
