/**
 * The film as an animated GIF, for browsers that encode no video. GIF counts time in hundredths of a second and has 256
 * colours a picture (GIF89a specification, sections 23 and 21), so it is smaller and slower than the others, and its
 * gradients are broken up by an ordered dither (Bayer 1973, the 8 × 8 matrix; from memory).
 */
import { applyPalette, GIFEncoder, quantize } from 'gifenc';
import type { FilmCalls, FilmPlan, FilmShot } from './film.ts';

const LONGEST_PX = 480;
/** 12.5 pictures a second. */
const FRAME_S = 0.08;
const COLOURS = 256;
/** Breadth of the dither, in levels: a step of the five bits that colours are counted in. */
const DITHER = 8;

/** Its size, its number of pictures and their time for the film that was asked for. */
export function gifTiming({ width_px, height_px, seconds }: FilmPlan): FilmShot {
  const scale = Math.min(1, LONGEST_PX / Math.max(width_px, height_px));
  return {
    width_px: Math.round(width_px * scale),
    height_px: Math.round(height_px * scale),
    frames: Math.round(seconds / FRAME_S),
    frame_s: FRAME_S,
  };
}

export async function gifOf(
  shot: FilmShot,
  draw: (index: number) => Promise<HTMLCanvasElement>,
  { signal, onProgress }: FilmCalls,
): Promise<Blob> {
  const gif = GIFEncoder();
  for (let i = 0; i < shot.frames; i++) {
    signal.throwIfAborted();
    const canvas = await draw(i);
    const context = canvas.getContext('2d');
    if (!context) throw new Error('the picture cannot be read');
    const { data } = context.getImageData(0, 0, shot.width_px, shot.height_px);
    const palette = quantize(data, COLOURS);
    dither(data, shot.width_px);
    const index = applyPalette(data, palette);
    gif.writeFrame(index, shot.width_px, shot.height_px, { palette, delay: 1000 * shot.frame_s, repeat: 0 });
    onProgress(i + 1);
    // The page answers between two pictures.
    await new Promise((resolve) => setTimeout(resolve));
  }
  signal.throwIfAborted();
  gif.finish();
  return new Blob([gif.bytes()], { type: 'image/gif' });
}

/** Bits of the place, crossed and turned over: the 8 × 8 matrix, 0…63. */
const BAYER = Array.from({ length: 64 }, (_, i) => {
  const [x, y] = [i % 8, Math.floor(i / 8)];
  let value = 0;
  for (let bit = 0; bit < 3; bit++) value = (value << 2) | ((((x ^ y) >> bit) & 1) << 1) | ((y >> bit) & 1);
  return value;
});

function dither(data: Uint8ClampedArray, width: number): void {
  for (let i = 0; i < data.length; i += 4) {
    const pixel = i / 4;
    const x = pixel % width;
    const y = (pixel - x) / width;
    const by = ((BAYER[(y % 8) * 8 + (x % 8)] + 0.5) / 64 - 0.5) * DITHER;
    for (let j = i; j < i + 3; j++) data[j] = data[j] + by;
  }
}
