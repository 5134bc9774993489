/**
 * The slots as the shader reads them. Three textures:
 *
 * - `slots`, one row per slot in cutting order: (normal, offset) in half kerfs, (stop normal, stop), (half kerf, layers, first
 *   layer row, half width of the glue line);
 * - `layers`, one row per layer of wood, row 0 the blank's own timber: (upper bound of f, timber row, 0, 0) and the
 *   three axes of its grain frame, each with its offset: q = (a · p + a₀, b · p + b₀, g · p + g₀), g along the grain
 *   and the pith at q.xy = 0;
 * - `cells` and `list`: the blank's bounding box in cells, and for each cell the slots that reach it, last cut first,
 *   so that a pixel tries a handful of slots however many there are.
 *
 * Lathe frame, mm. Reaching is tested with a margin, so that a strip's antialiased edge is never cut off.
 */
import {
  DataTexture,
  FloatType,
  NearestFilter,
  RedIntegerFormat,
  RGBAFormat,
  UnsignedByteType,
  UnsignedIntType,
} from 'three';
import type { Slot } from '../blank/slots.ts';
import { scale } from '../geometry/vector.ts';
import { layerBounds_mm } from '../blank/slots.ts';
import type { GrainFrame } from './wood/grain.ts';

export const CELLS_ACROSS = 16;
export const CELLS_ALONG = 64;
const CELL_COUNT = CELLS_ACROSS * CELLS_ACROSS * CELLS_ALONG;
const LIST_WIDTH = 1024;
/** How far beyond a slot's planes a cell still lists it, mm: half the widest edge and glue line drawn. */
export const REACH_MARGIN_MM = 0.7;
/** Half width of a well-fitting glue line, mm. */
export const GLUE_LINE_MM = 0.05;
const SLOT_TEXELS = 3;
const LAYER_TEXELS = 4;

export interface Extent {
  /** Half-width of the box around the blank, mm. */
  readonly radius_mm: number;
  readonly length_mm: number;
}

export interface LayerWood {
  readonly timberRow: number;
  readonly frame: GrainFrame;
}

/** Everything that depends on the slots and goes to the graphics card. Written in place when the sizes allow. */
export class SlotTextures {
  slots = floatTexture(SLOT_TEXELS, 1);
  layers = floatTexture(LAYER_TEXELS, 1);
  readonly cells = integerTexture(
    new Uint32Array(CELL_COUNT),
    CELLS_ACROSS * CELLS_ACROSS,
    CELLS_ALONG,
    UnsignedIntType,
    'R32UI',
  );
  list = integerTexture(new Uint8Array(LIST_WIDTH), LIST_WIDTH, 1, UnsignedByteType, 'R8UI');
  private readonly counts = new Uint16Array(CELL_COUNT);
  private listed: Uint8Array = new Uint8Array(LIST_WIDTH);

  /** `body`: the blank's wood; `wood(slot, layer)`: a strip's. */
  write(
    slots: readonly Slot[],
    extent: Extent,
    body: LayerWood,
    wood: (slot: number, layer: number) => LayerWood,
  ): void {
    if (slots.length > 255) throw new Error(`${slots.length} slots; the stage draws 255`);
    const layerRows = 1 + slots.reduce((sum, slot) => sum + slot.layers.length, 0);
    this.slots = sized(this.slots, SLOT_TEXELS, Math.max(1, slots.length));
    this.layers = sized(this.layers, LAYER_TEXELS, layerRows);
    const s = floats(this.slots);
    const l = floats(this.layers);
    writeLayer(l, 0, Infinity, body);
    let row = 1;
    slots.forEach((slot, i) => {
      const thickness = slot.layers.reduce((sum, layer) => sum + layer.thickness_mm, 0);
      const gap = Math.max(0, slot.kerf_mm - thickness);
      // In half kerfs: a slot that a pixel misses costs one look-up.
      s.set(
        [...scale(slot.normal, 2 / slot.kerf_mm), (2 * slot.offset_mm) / slot.kerf_mm],
        4 * SLOT_TEXELS * i,
      );
      s.set([...slot.stopNormal, slot.stop_mm], 4 * (SLOT_TEXELS * i + 1));
      const glue = Math.min(GLUE_LINE_MM + gap / 2, slot.kerf_mm / 3);
      s.set([slot.kerf_mm / 2, slot.layers.length, row, glue], 4 * (SLOT_TEXELS * i + 2));
      const bounds = layerBounds_mm(slot);
      slot.layers.forEach((_, layer) => writeLayer(l, row++, bounds[layer + 1], wood(i, layer)));
    });
    this.slots.needsUpdate = true;
    this.layers.needsUpdate = true;
    this.writeCells(slots, extent);
  }

  /** Longest list of a cell, for tests and for the curious. */
  longestList(): number {
    return this.counts.reduce((most, count) => Math.max(most, count), 0);
  }

  dispose(): void {
    for (const texture of [this.slots, this.layers, this.cells, this.list]) texture.dispose();
  }

  private writeCells(slots: readonly Slot[], extent: Extent): void {
    const { counts } = this;
    counts.fill(0);
    slots.forEach((slot) => forCells(slot, extent, (cell) => counts[cell]++));
    const cells = this.cells.image.data as Uint32Array;
    let total = 0;
    for (let cell = 0; cell < CELL_COUNT; cell++) {
      cells[cell] = total * 256 + counts[cell];
      total += counts[cell];
    }
    if (total > this.listed.length) {
      this.list.dispose();
      const rows = Math.ceil((1.3 * total) / LIST_WIDTH);
      this.listed = new Uint8Array(rows * LIST_WIDTH);
      this.list = integerTexture(this.listed, LIST_WIDTH, rows, UnsignedByteType, 'R8UI');
    }
    const { listed } = this;
    // Last cut first: filled from each list's end.
    slots.forEach((slot, i) =>
      forCells(slot, extent, (cell) => {
        listed[Math.floor(cells[cell] / 256) + --counts[cell]] = i;
      }),
    );
    for (let cell = 0; cell < CELL_COUNT; cell++) counts[cell] = cells[cell] & 255;
    this.list.image.data = listed;
    this.cells.needsUpdate = true;
    this.list.needsUpdate = true;
  }
}

/** Calls back for every cell that a slot reaches. */
function forCells(slot: Slot, { radius_mm, length_mm }: Extent, visit: (cell: number) => void): void {
  const across = (2 * radius_mm) / CELLS_ACROSS;
  const along = length_mm / CELLS_ALONG;
  const [nx, ny, nz] = slot.normal;
  const [mx, my, mz] = slot.stopNormal;
  const spread = ((Math.abs(nx) + Math.abs(ny)) * across) / 2 + slot.kerf_mm / 2 + REACH_MARGIN_MM;
  const stopSpread =
    ((Math.abs(mx) + Math.abs(my)) * across) / 2 + (Math.abs(mz) * along) / 2 + REACH_MARGIN_MM;
  for (let j = 0; j < CELLS_ACROSS; j++) {
    const y = (j + 0.5) * across - radius_mm;
    for (let i = 0; i < CELLS_ACROSS; i++) {
      const x = (i + 0.5) * across - radius_mm;
      const column = j * CELLS_ACROSS + i;
      const rest = slot.offset_mm - nx * x - ny * y;
      let first = 0;
      let last = CELLS_ALONG - 1;
      if (Math.abs(nz) > 1e-9) {
        const [low, high] = [(rest - spread) / nz, (rest + spread) / nz];
        first = Math.max(0, Math.floor(Math.min(low, high) / along));
        last = Math.min(CELLS_ALONG - 1, Math.floor(Math.max(low, high) / along));
      } else if (Math.abs(rest) > spread) continue;
      for (let k = first; k <= last; k++) {
        const beyond = mx * x + my * y + mz * (k + 0.5) * along - slot.stop_mm;
        if (beyond <= stopSpread) visit(k * CELLS_ACROSS * CELLS_ACROSS + column);
      }
    }
  }
}

function writeLayer(out: Float32Array, row: number, upper: number, { timberRow, frame }: LayerWood): void {
  const start = 4 * LAYER_TEXELS * row;
  out.set([Math.min(upper, 1e6), timberRow, 0, 0], start);
  out.set([...frame.a, frame.a0], start + 4);
  out.set([...frame.b, frame.b0], start + 8);
  out.set([...frame.g, frame.g0], start + 12);
}

function floatTexture(width: number, height: number): DataTexture {
  const texture = new DataTexture(new Float32Array(4 * width * height), width, height, RGBAFormat, FloatType);
  texture.minFilter = texture.magFilter = NearestFilter;
  return texture;
}

function floats(texture: DataTexture): Float32Array {
  return texture.image.data as Float32Array;
}

/** The same texture when it is large enough, else a larger one. */
function sized(texture: DataTexture, width: number, height: number): DataTexture {
  if (texture.image.height >= height) return texture;
  texture.dispose();
  return floatTexture(width, Math.ceil(height * 1.25));
}

function integerTexture(
  data: Uint32Array | Uint8Array,
  width: number,
  height: number,
  type: typeof UnsignedByteType | typeof UnsignedIntType,
  internalFormat: 'R8UI' | 'R32UI',
): DataTexture {
  const texture = new DataTexture(data, width, height, RedIntegerFormat, type);
  texture.internalFormat = internalFormat;
  texture.minFilter = texture.magFilter = NearestFilter;
  texture.unpackAlignment = 1;
  texture.needsUpdate = true;
  return texture;
}
