/** Tiles of a picture, and what is read back from them: rows, RGBA, eight bits. */
import type { Viewport } from './viewports.ts';

export interface PixelPicture {
  readonly width: number;
  readonly height: number;
  /** RGBA, rows from the top. */
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}

/**
 * The tiles of a picture, from the top, in pixels from its lower left. They begin at multiples of `side_px`, which is even: the
 * graphics card shades in squares of two by two, and so in the same ones as in the whole picture.
 */
export function tilesOf(width_px: number, height_px: number, side_px: number): Viewport[] {
  if (side_px < 2 || side_px % 2 !== 0) throw new Error(`a tile of ${side_px} px`);
  const tiles: Viewport[] = [];
  for (let row = Math.ceil(height_px / side_px) - 1; row >= 0; row--)
    for (let x = 0; x < width_px; x += side_px) {
      const y = row * side_px;
      const width = Math.min(side_px, width_px - x);
      tiles.push({ x, y, width, height: Math.min(side_px, height_px - y) });
    }
  return tiles;
}

/**
 * Rows turned over, and colours made straight: where an edge covers a pixel in part, what was drawn on the empty ground is
 * colour times cover, and a PNG wants the colour itself (W3C PNG specification, section 4.3.2 "alpha"; from memory).
 */
export function uprightStraight(upward: Uint8Array, width: number, height: number): PixelPicture {
  const data = new Uint8ClampedArray(4 * width * height);
  for (let row = 0; row < height; row++)
    data.set(upward.subarray((height - 1 - row) * width * 4, (height - row) * width * 4), row * width * 4);
  for (let i = 3; i < data.length; i += 4) {
    const alpha = data[i];
    if (alpha === 255 || alpha === 0) continue;
    const straight = 255 / alpha;
    for (let j = i - 3; j < i; j++) data[j] = data[j] * straight;
  }
  return { width, height, data };
}
